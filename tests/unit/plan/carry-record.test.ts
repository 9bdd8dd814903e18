import { describe, expect, it } from 'vitest';
import { distance } from '../../../src/geometry/nearest.ts';
import { Draft } from '../../../src/plan/change.ts';
import { readPlan, writePlan } from '../../../src/plan/codec.ts';
import { checkWhole } from '../../../src/plan/integrity.ts';
import type { Plan, Ref } from '../../../src/plan/plan.ts';
import { scaleDrawn } from '../../../src/plan/scale-drawn.ts';
import { planOf, sampleText } from '../../e2e/core.ts';
import { planWith } from '../takeoff/make-run.ts';
import { step } from './steps.ts';

/** A closet, a wall and two outlets, one of them recorded. */
const small = planWith({
  closets: { C1: { at: [0, 0], name: 'NC' } },
  walls: { W1: { a: [0, 2000], b: [9000, 2000] } },
  outlets: { O1: { at: [1200, 3400] }, O2: { at: [5000, 3400] } },
  jacks: {
    J1: { outlet: 'O1', label: 'A1', spare: true, built: { length: 9000, at: [1200, 3400] } },
    J2: { outlet: 'O2', label: 'A2', spare: true },
  },
});
const ALL: readonly Ref[] = [
  { table: 'closets', id: 'C1' },
  { table: 'walls', id: 'W1' },
  { table: 'outlets', id: 'O1' },
  { table: 'outlets', id: 'O2' },
];
const hung = (plan: Plan, id = 'J1') => plan.tables.jacks.get(id)!.built?.at;
/** How far recorded outlets lie from where they hung, the farthest of them. */
const off = (plan: Plan): number =>
  Math.max(
    ...[...plan.tables.jacks.values()].map(({ outlet, built }) =>
      built?.at ? distance(built.at, plan.tables.outlets.get(outlet)!.at) : 0,
    ),
  );

const larger = (plan: Plan): Plan => {
  const draft = new Draft(plan);
  const [level] = plan.tables.levels.keys();
  expect(scaleDrawn(draft, level!, [0, 0], 1.5)).toBe(true);
  return draft.plan;
};

describe('where a recorded outlet hung', () => {
  it('goes along when the drawing is moved as a whole, and is not made up for what is not recorded', () => {
    const moved = step(small, 'move', { refs: ALL, by: [4000, -1000] });
    expect(hung(moved)).toEqual([5200, 2400]);
    expect(moved.tables.jacks.get('J2')!.built).toBeNull();
  });

  it.each(ALL)('stays where anything stays behind: $table $id', (left) => {
    const moved = step(small, 'move', { refs: ALL.filter((ref) => ref !== left), by: [4000, 0] });
    expect(hung(moved)).toEqual([1200, 3400]);
  });

  it('goes along from where it hung, not from where it was dragged meanwhile', () => {
    const dragged = step(small, 'edit', {
      table: 'outlets',
      id: 'O1',
      fields: { at: [2200, 3400] },
    });
    expect(hung(step(dragged, 'move', { refs: ALL, by: [4000, 0] }))).toEqual([5200, 3400]);
  });

  it('is forgotten where a plan could not hold it any more, which then could not be opened', () => {
    const far = step(small, 'record', {
      records: [{ jack: 'J1', fields: { at: [30_000_000, 3400] } }],
    });
    expect(hung(step(far, 'move', { refs: ALL, by: [4000, 0] }))).toEqual([30_004_000, 3400]);
    const beyond = larger(far);
    expect(hung(beyond)).toBeNull();
    expect(checkWhole(beyond, new Set(), new Map())).toEqual([]);
    expect(readPlan(writePlan(beyond), new Set())).toMatchObject({ ok: true });
  });

  it('goes along when the sample is moved, turned, mirrored or drawn to another scale', () => {
    const sample = planOf(sampleText('restaurant'));
    const records = [...sample.tables.jacks.keys()].map((jack) => ({ jack, fields: { by: 'K' } }));
    const plan = step(sample, 'record', { records });
    const refs = (
      ['closets', 'walls', 'zones', 'keepouts', 'pathways', 'devices', 'outlets', 'powers'] as const
    ).flatMap((table) => [...plan.tables[table].keys()].map((id): Ref => ({ table, id })));
    expect(off(plan)).toBe(0);
    for (const laid of [
      step(plan, 'move', { refs, by: [12_345, 678] }),
      step(plan, 'rotate', { refs, by: 90 }),
      step(plan, 'rotate', { refs, by: 17 }),
      step(plan, 'mirror', { refs, across: 'x' }),
      larger(plan),
    ]) {
      expect(laid.tables.outlets).not.toEqual(plan.tables.outlets);
      expect(off(laid)).toBeLessThanOrEqual(300);
    }
  });
});
