import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  apply,
  type Change,
  type Changes,
  compose,
  Draft,
  invert,
} from '../../../src/plan/change.ts';
import { writePlan } from '../../../src/plan/codec.ts';
import { emptyPlan, makeRow, type Plan } from '../../../src/plan/plan.ts';

const seed = { seed: 568, numRuns: 200 };
const wall = (id: string, x: number) => makeRow('walls', id, { a: [0, 0], b: [x, 0] });

/** What to do with the walls W1 to W6: a length puts, null removes. */
const deeds = fc.array(
  fc.tuple(fc.integer({ min: 1, max: 12 }), fc.option(fc.integer({ min: 1, max: 9 }))),
  { maxLength: 12 },
);

function changesOf(plan: Plan, list: readonly (readonly [number, number | null])[]): Changes {
  const draft = new Draft(plan);
  for (const [n, x] of list) {
    const id = `W${n}`;
    if (x === null) draft.remove({ table: 'walls', id });
    else draft.put('walls', wall(id, x));
  }
  return draft.changes();
}

/** Maps in their order, since the order of rows decides between overlapping rooms. */
const rows = (plan: Plan) => [...plan.tables.walls];

describe('changes of a plan', () => {
  it('are taken back to the row, the order of the rows included', () => {
    fc.assert(
      fc.property(deeds, deeds, (first, second) => {
        const plan = apply(emptyPlan(), changesOf(emptyPlan(), first));
        const changes = changesOf(plan, second);
        expect(rows(apply(apply(plan, changes), invert(changes)))).toEqual(rows(plan));
      }),
      seed,
    );
  });

  it('composed do what they do one after the other', () => {
    fc.assert(
      fc.property(deeds, deeds, (first, second) => {
        const plan = emptyPlan();
        const a = changesOf(plan, first);
        const b = changesOf(apply(plan, a), second);
        const both = compose(a, b);
        expect(rows(apply(plan, both))).toEqual(rows(apply(apply(plan, a), b)));
        expect(new Set(both.map((c) => c.id)).size).toBe(both.length);
        expect(compose(both, invert(both))).toEqual([]);
      }),
      seed,
    );
  });

  it('survive being written as JSON', () => {
    fc.assert(
      fc.property(deeds, deeds, (first, second) => {
        const plan = apply(emptyPlan(), changesOf(emptyPlan(), first));
        const changes = changesOf(plan, second);
        const back = JSON.parse(JSON.stringify(changes)) as readonly Change[];
        expect(writePlan(apply(plan, back))).toBe(writePlan(apply(plan, changes)));
        expect(rows(apply(apply(plan, changes), invert(back)))).toEqual(rows(plan));
      }),
      seed,
    );
  });

  it('leave the tables that they do not touch as the same objects', () => {
    const plan = emptyPlan();
    const next = apply(plan, changesOf(plan, [[1, 5]]));
    expect(next.tables.walls).not.toBe(plan.tables.walls);
    expect(next.tables.levels).toBe(plan.tables.levels);
    expect(apply(plan, [])).toBe(plan);
  });

  it('throw when they do not start from what the plan holds', () => {
    const changes = changesOf(emptyPlan(), [[1, 5]]);
    const plan = apply(emptyPlan(), changes);
    expect(() => apply(plan, changes)).toThrow('walls/W1');
  });

  it('are none for a row that was put and removed, or put as it was', () => {
    expect(
      changesOf(emptyPlan(), [
        [1, 5],
        [1, null],
      ]),
    ).toEqual([]);
    const plan = apply(emptyPlan(), changesOf(emptyPlan(), [[1, 5]]));
    expect(changesOf(plan, [[1, 5]])).toEqual([]);
  });

  it('keep tables in the order of their ids, whatever was undone: W2 before W10', () => {
    const put = (plan: Plan, n: number) => apply(plan, changesOf(plan, [[n, 5]]));
    const plan = [10, 2, 1].reduce(put, emptyPlan());
    expect([...plan.tables.walls.keys()]).toEqual(['W1', 'W2', 'W10']);
  });
});

describe('a draft', () => {
  it('shows what was put, and leaves the plan alone', () => {
    const plan = emptyPlan();
    const draft = new Draft(plan);
    draft.put('walls', wall(draft.fresh('walls'), 1));
    draft.patch('walls', 'W1', { thickness: 200 });
    expect(draft.fresh('walls')).toBe('W2');
    expect(draft.plan.tables.walls.get('W1')?.thickness).toBe(200);
    expect(plan.tables.walls.size).toBe(0);
  });

  it('throws for a change of a row that is not there', () => {
    expect(() => new Draft(emptyPlan()).patch('walls', 'W1', { thickness: 1 })).toThrow('W1');
  });
});
