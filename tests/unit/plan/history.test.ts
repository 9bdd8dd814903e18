import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { msg } from '../../../src/base/message.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { invert } from '../../../src/plan/change.ts';
import { writePlan } from '../../../src/plan/codec.ts';
import type { Edge } from '../../../src/plan/commands/align.ts';
import type { CommandArgs, CommandName } from '../../../src/plan/commands/index.ts';
import {
  commit,
  DEPTH,
  type History,
  redo,
  redoable,
  startHistory,
  undo,
  undoable,
} from '../../../src/plan/history.ts';
import { checkWhole } from '../../../src/plan/integrity.ts';
import { emptyPlan, type Plan, type Ref } from '../../../src/plan/plan.ts';
import { TABLES } from '../../../src/plan/schema.ts';
import { ask } from './steps.ts';

/** The real history beside one that copies the whole plan at each step. */
interface Both {
  history: History;
  readonly copies: { text: string }[];
  at: number;
}

const start = (): Both => ({
  history: startHistory(emptyPlan()),
  copies: [{ text: writePlan(emptyPlan()) }],
  at: 0,
});

class Run<N extends CommandName> implements fc.Command<Both, Both> {
  readonly name: N;
  readonly argsFor: (plan: Plan) => CommandArgs<N> | null;
  constructor(name: N, argsFor: (plan: Plan) => CommandArgs<N> | null) {
    this.name = name;
    this.argsFor = argsFor;
  }
  check = () => true;
  run(both: Both) {
    const args = this.argsFor(both.history.plan);
    if (args === null) return;
    const outcome = ask(both.history.plan, this.name, args);
    const before = both.history;
    if (!outcome.ok) return;
    both.history = commit(before, { label: outcome.label, changes: outcome.changes });
    expect(checkWhole(both.history.plan, new Set(kinds.keys()), new Map())).toEqual([]);
    if (both.history === before) return;
    both.copies.splice(both.at + 1);
    both.copies.push({ text: writePlan(both.history.plan) });
    both.at += 1;
  }
  toString = () => this.name;
}

class Undo implements fc.Command<Both, Both> {
  check = () => true;
  run(both: Both) {
    both.at = Math.max(0, both.at - 1);
    both.history = undo(both.history);
    expect(writePlan(both.history.plan)).toBe(both.copies[both.at]!.text);
  }
  toString = () => 'undo';
}

class Redo implements fc.Command<Both, Both> {
  check = () => true;
  run(both: Both) {
    both.at = Math.min(both.copies.length - 1, both.at + 1);
    both.history = redo(both.history);
    expect(writePlan(both.history.plan)).toBe(both.copies[both.at]!.text);
  }
  toString = () => 'redo';
}

const at: fc.Arbitrary<Point> = fc.tuple(
  fc.integer({ min: -8, max: 24 }).map((n) => n * 500),
  fc.integer({ min: -8, max: 16 }).map((n) => n * 500),
);
const pick = fc.nat({ max: 1000 });

/** Rows that can be moved and deleted, in the order of the tables. */
const rowsOf = (plan: Plan): Ref[] =>
  TABLES.filter((table) => !['job', 'settings', 'prices', 'levels'].includes(table)).flatMap(
    (table) => [...plan.tables[table].keys()].map((id): Ref => ({ table, id })),
  );

const some = <T>(items: readonly T[], n: number): T | null => items[n % items.length] ?? null;
const ofTable = (plan: Plan, table: Ref['table'], n: number): Ref | null =>
  some(
    rowsOf(plan).filter((ref) => ref.table === table),
    n,
  );

/** About a third of all rows. */
const share = (plan: Plan, n: number): Ref[] => rowsOf(plan).filter((_, i) => i % 3 === n % 3);

const kindIds = [...kinds.keys()];
const level = 'L1';

const sessions = fc.commands(
  [
    fc.tuple(at, at, fc.boolean()).map(
      ([a, b, walls]) =>
        new Run('draw-zone', () => ({
          level,
          outline: [a, [b[0], a[1]], b, [a[0], b[1]]],
          walls,
        })),
    ),
    fc
      .array(at, { minLength: 1, maxLength: 4 })
      .map((points) => new Run('draw-walls', () => ({ level, points }))),
    fc
      .array(at, { minLength: 1, maxLength: 4 })
      .map((points) => new Run('draw-pathway', () => ({ level, points, kind: 'tray' as const }))),
    fc.tuple(at, at).map(
      ([a, b]) =>
        new Run('draw-keepout', () => ({
          level,
          outline: [a, [b[0], a[1]], b, [a[0], b[1]]],
        })),
    ),
    fc
      .tuple(at, fc.constantFrom(...kindIds))
      .map(([p, kind]) => new Run('place-device', () => ({ level, kind, at: p }))),
    at.map((p) => new Run('place-closet', () => ({ level, at: p }))),
    at.map((p) => new Run('place-spare', () => ({ level, at: p }))),
    at.map((p) => new Run('place-power', () => ({ level, at: p }))),
    fc.tuple(pick, pick, at).map(
      ([n, m, by]) =>
        new Run('move', (plan) => {
          const rows = rowsOf(plan);
          return { refs: rows.filter((_, i) => i % 5 === n % 5 || i === m % 7), by };
        }),
    ),
    fc.tuple(pick, pick, at, fc.boolean()).map(
      ([n, index, to, alone]) =>
        new Run('move-point', (plan) => {
          const shapes = rowsOf(plan).filter(({ table }) =>
            ['walls', 'zones', 'keepouts', 'pathways'].includes(table),
          );
          const ref = some(shapes, n);
          return ref && { ref, index: index % 4, to, alone };
        }),
    ),
    fc.tuple(pick, pick).map(
      ([n, m]) =>
        new Run('delete', (plan) => {
          const rows = rowsOf(plan);
          const refs = [some(rows, n), some(rows, m)].filter((ref) => ref !== null);
          return refs.length === 0 ? null : { refs };
        }),
    ),
    pick.map(
      (n) =>
        new Run('add-jack', (plan) => {
          const ref = ofTable(plan, 'outlets', n);
          return ref && { outlet: ref.id };
        }),
    ),
    pick.map(
      (n) =>
        new Run('give-jack', (plan) => {
          const ref = ofTable(plan, 'devices', n);
          return ref && { device: ref.id };
        }),
    ),
    fc.tuple(pick, pick).map(
      ([n, m]) =>
        new Run('share-jack', (plan) => {
          const a = ofTable(plan, 'devices', n);
          const b = ofTable(plan, 'devices', m);
          return a && b && { device: a.id, host: b.id };
        }),
    ),
    fc.tuple(pick, at, fc.integer({ min: 1, max: 2 })).map(
      ([n, by, count]) =>
        new Run('duplicate', (plan) => ({
          refs: rowsOf(plan)
            .filter((_, i) => i % 4 === n % 4)
            .slice(0, 4),
          by,
          count,
        })),
    ),
    fc.constant(new Run('renumber', () => ({}))),
    fc.tuple(at, fc.constantFrom('door', 'window', 'opening'), fc.nat({ max: 3000 })).map(
      ([p, kind, width]) =>
        new Run('place-opening', () => ({
          level,
          kind: kind as 'door' | 'window' | 'opening',
          at: p,
          width: width + 1,
        })),
    ),
    at.map((p) => new Run('fill-room', () => ({ level, at: [p[0] + 250, p[1] + 250] }))),
    at.map((p) => new Run('place-note', () => ({ level, at: p, text: 'Look', to: [0, 0] }))),
    fc.tuple(at, at).map(([a, b]) => new Run('draw-dimension', () => ({ level, a, b }))),
    fc
      .tuple(pick, fc.constantFrom('left', 'right', 'top', 'bottom', 'across', 'down'))
      .map(
        ([n, edge]) => new Run('align', (plan) => ({ refs: share(plan, n), edge: edge as Edge })),
      ),
    fc
      .tuple(pick, fc.boolean())
      .map(
        ([n, x]) =>
          new Run('distribute', (plan) => ({ refs: share(plan, n), along: x ? 'x' : 'y' })),
      ),
    fc
      .tuple(pick, fc.constantFrom(90, -90, 30, 180))
      .map(([n, by]) => new Run('rotate', (plan) => ({ refs: share(plan, n), by }))),
    fc
      .tuple(pick, fc.boolean())
      .map(
        ([n, x]) => new Run('mirror', (plan) => ({ refs: share(plan, n), across: x ? 'x' : 'y' })),
      ),
    fc
      .tuple(pick, fc.boolean())
      .map(([n, locked]) => new Run('lock', (plan) => ({ refs: share(plan, n), locked }))),
    fc.tuple(pick, at, at).map(
      ([n, a, b]) =>
        new Run('repeat-along', (plan) => ({
          refs: share(plan, n).slice(0, 2),
          a,
          b,
          step: 2500,
        })),
    ),
    fc
      .tuple(pick, fc.constantFrom(...kindIds))
      .map(([n, kind]) => new Run('replace-kind', (plan) => ({ refs: share(plan, n), kind }))),
    fc.constant(new Undo()),
    fc.constant(new Redo()),
  ],
  { maxCommands: 40 },
);

const whole = { seed: 2024, numRuns: 120 };

describe('A session of an editor', () => {
  it('undoes and redoes to what a copy of every state says, and back to an identical plan', () => {
    fc.assert(
      fc.property(sessions, (deeds) => {
        const both = start();
        fc.modelRun(() => ({ model: both, real: both }), deeds);
        const end = writePlan(both.history.plan);
        const back = both.history.cursor;
        let { history } = both;
        while (undoable(history)) history = undo(history);
        expect(writePlan(history.plan)).toBe(both.copies[0]!.text);
        for (let i = 0; i < back; i++) history = redo(history);
        expect(writePlan(history.plan)).toBe(end);
      }),
      whole,
    );
  });

  it('does not touch a plan that it started from', () => {
    fc.assert(
      fc.property(sessions, (deeds) => {
        const plan = emptyPlan();
        const both = { ...start(), history: startHistory(plan) };
        fc.modelRun(() => ({ model: both, real: both }), deeds);
        expect(writePlan(plan)).toBe(writePlan(emptyPlan()));
      }),
      { ...whole, numRuns: 30 },
    );
  });
});

describe('The history', () => {
  const nudge = (history: History, merge?: string): History => {
    const outcome = ask(history.plan, 'move', {
      refs: [{ table: 'closets', id: 'C1' }],
      by: [10, 0],
    });
    if (!outcome.ok) throw new Error('cannot move');
    return commit(history, {
      label: outcome.label,
      changes: outcome.changes,
      ...(merge === undefined ? {} : { merge }),
    });
  };
  const closet = (): History => {
    const outcome = ask(emptyPlan(), 'place-closet', { level, at: [0, 0] });
    if (!outcome.ok) throw new Error('cannot place');
    return startHistory(
      commit(startHistory(emptyPlan()), { label: outcome.label, changes: outcome.changes }).plan,
    );
  };

  it('merges steps of one gesture into one, which is undone as one', () => {
    const first = closet();
    const last = nudge(nudge(nudge(first, 'a'), 'a'), 'a');
    expect(last.steps).toHaveLength(1);
    expect(undo(last).plan.tables.closets.get('C1')?.at).toEqual([0, 0]);
  });

  it('keeps no step of a gesture that came back to where it began', () => {
    const [first, there] = [closet(), nudge(closet(), 'a')];
    const back = { label: msg('Back'), changes: invert(there.steps[0]!.changes), merge: 'a' };
    expect(commit(there, back)).toEqual(first);
  });
  it('does not merge another gesture, nor steps without a key', () => {
    expect(nudge(nudge(closet(), 'a'), 'b').steps).toHaveLength(2);
    expect(nudge(nudge(closet())).steps).toHaveLength(2);
  });

  it('forgets what was undone when something else is done', () => {
    const back = undo(nudge(nudge(closet(), 'a'), 'b'));
    expect(redoable(back)).not.toBeNull();
    expect(redoable(nudge(back, 'c'))).toBeNull();
  });

  it('makes no step of nothing', () => {
    const history = closet();
    expect(commit(history, { label: msg('Nothing'), changes: [] })).toBe(history);
  });

  it('keeps so many steps, and undoes all that it keeps', () => {
    let history = closet();
    for (let i = 0; i < DEPTH + 5; i++) history = nudge(history, `step ${i}`);
    expect(history.steps).toHaveLength(DEPTH);
    while (undoable(history)) history = undo(history);
    expect(history.plan.tables.closets.get('C1')?.at).toEqual([50, 0]);
  });
});
