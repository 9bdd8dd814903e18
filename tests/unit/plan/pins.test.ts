import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { allowanceSource, allowancesOf } from '../../../src/plan/allowances.ts';
import { apply, invert } from '../../../src/plan/change.ts';
import { readPlan, writePlan } from '../../../src/plan/codec.ts';
import type { CommandArgs, CommandName } from '../../../src/plan/commands/index.ts';
import { checkWhole } from '../../../src/plan/integrity.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import { ask, refusal, step } from './steps.ts';

const known = new Set(kinds.keys());

/** Three stations without walls: jacks J1, J2, J3 labelled A1, A2, A3. */
const three = (): Plan =>
  [0, 3000, 6000].reduce(
    (plan, x) => step(plan, 'place-device', { level: 'L1', kind: 'order-station', at: [x, 0] }),
    emptyPlan(),
  );

const PLACES: Point[] = [
  [1000, 2000],
  [4000, 2000],
];
const pinned = (...jacks: string[]): Plan =>
  step(three(), 'pin-runs', { level: 'L1', points: PLACES, jacks });
const pins = (plan: Plan) => [...plan.tables.jacks.values()].map((jack) => jack.pin);

function holds<N extends CommandName>(plan: Plan, name: N, args: CommandArgs<N>): Plan {
  const outcome = ask(plan, name, args);
  if (!outcome.ok) throw new Error(outcome.why.text);
  const after = apply(plan, outcome.changes);
  expect(writePlan(apply(after, invert(outcome.changes)))).toBe(writePlan(plan));
  expect(checkWhole(after, known, new Map())).toEqual([]);
  const read = readPlan(writePlan(after), known);
  if (!read.ok) throw new Error(read.issues[0]!.message);
  expect(writePlan(read.value.plan)).toBe(writePlan(after));
  return after;
}

describe('Pinning runs', () => {
  it('sets the places in order and lets each of the jacks name them, once', () => {
    const plan = holds(three(), 'pin-runs', {
      level: 'L1',
      points: PLACES,
      jacks: ['J1', 'J3', 'J3'],
    });
    expect(plan.tables.pins.get('N1')).toMatchObject({ name: 'P1', level: 'L1', points: PLACES });
    expect(pins(plan)).toEqual(['N1', null, 'N1']);
  });

  it('takes the jacks from another pin, which goes when nobody passes it any more', () => {
    const some = holds(pinned('J1', 'J2'), 'pin-runs', {
      level: 'L1',
      points: [[9, 9]],
      jacks: ['J1'],
    });
    expect([...some.tables.pins.keys()]).toEqual(['N1', 'N2']);
    const all = holds(some, 'pin-runs', { level: 'L1', points: [[8, 8]], jacks: ['J2'] });
    expect([...all.tables.pins.keys()]).toEqual(['N2', 'N3']);
    expect(all.tables.pins.get('N3')!.name).toBe('P3');
  });

  it('says why it cannot: no runs, no place, too many places, a place too far away', () => {
    const args = { level: 'L1', points: PLACES, jacks: ['J1'] };
    expect(refusal(three(), 'pin-runs', { ...args, jacks: ['J9'] })).toContain('Select the runs');
    expect(refusal(three(), 'pin-runs', { ...args, points: [] })).toContain('between 1 and 50');
    const many = Array.from({ length: 51 }, (_, i): Point => [i, 0]);
    expect(refusal(three(), 'pin-runs', { ...args, points: many })).toContain('between 1 and 50');
    expect(refusal(three(), 'pin-runs', { ...args, points: [[40_000_000, 0]] })).toContain(
      'farther',
    );
  });
});

describe('Joining a pin and leaving it', () => {
  it('adds runs to a pin that is there', () => {
    expect(pins(holds(pinned('J1'), 'join-pin', { pin: 'N1', jacks: ['J2', 'J1'] }))).toEqual([
      'N1',
      'N1',
      null,
    ]);
    expect(refusal(pinned('J1'), 'join-pin', { pin: 'N1', jacks: ['J1'] })).toContain('already');
    expect(refusal(pinned('J1'), 'join-pin', { pin: 'N7', jacks: ['J2'] })).toContain('no longer');
  });

  it('keeps the pin while somebody passes it, and takes it away with the last', () => {
    const one = holds(pinned('J1', 'J2'), 'leave-free', { jacks: ['J1'] });
    expect([pins(one), one.tables.pins.size]).toEqual([[null, 'N1', null], 1]);
    const none = holds(one, 'leave-free', { jacks: ['J2'] });
    expect([pins(none), none.tables.pins.size]).toEqual([[null, null, null], 0]);
    expect(refusal(none, 'leave-free', { jacks: ['J2'] })).toContain('free already');
  });

  it('takes a pin away with the last device whose run passes it, and not before', () => {
    const both = pinned('J1', 'J2');
    const one = holds(both, 'delete', { refs: [{ table: 'devices', id: 'D1' }] });
    expect(one.tables.pins.size).toBe(1);
    const two = ['D1', 'D2'].map((id) => ({ table: 'devices' as const, id }));
    expect(holds(both, 'delete', { refs: two }).tables.pins.size).toBe(0);
  });

  it('frees the runs when the pin is deleted', () => {
    const plan = holds(pinned('J1'), 'delete', { refs: [{ table: 'pins', id: 'N1' }] });
    expect(pins(plan)).toEqual([null, null, null]);
  });
});

describe('The places of a pin', () => {
  it('are moved one by one, and all together', () => {
    const one = holds(pinned('J1'), 'move-point', {
      ref: { table: 'pins', id: 'N1' },
      index: 1,
      to: [4100, 1900],
    });
    expect(one.tables.pins.get('N1')!.points).toEqual([PLACES[0], [4100, 1900]]);
    const all = holds(pinned('J1'), 'move', { refs: [{ table: 'pins', id: 'N1' }], by: [10, 20] });
    expect(all.tables.pins.get('N1')!.points).toEqual([
      [1010, 2020],
      [4010, 2020],
    ]);
  });
});

describe('Allowances', () => {
  const of = (plan: Plan, id: string) => allowancesOf(plan, plan.tables.jacks.get(id)!);
  const source = (plan: Plan, id: string) =>
    allowanceSource(plan, plan.tables.jacks.get(id)!, 'outletSlack');

  it('of a kind hold for its jacks until a jack has its own', () => {
    let plan = holds(three(), 'allow-kind', {
      kind: 'order-station',
      fields: { outletSlack: 600 },
    });
    expect([of(plan, 'J1').outletSlack, source(plan, 'J1')]).toEqual([600, 'kind']);
    plan = holds(plan, 'allow-jacks', { jacks: ['J1', 'J2'], fields: { outletSlack: 0 } });
    expect([of(plan, 'J2').outletSlack, source(plan, 'J2')]).toEqual([0, 'jack']);
    expect([of(plan, 'J3').outletSlack, source(plan, 'J3')]).toEqual([600, 'kind']);
    expect(of(plan, 'J1').closetLoop).toBe(3048);
  });

  it('that are cleared give back what holds above, to the same bytes as if they had never been', () => {
    let plan = step(three(), 'allow-kind', { kind: 'order-station', fields: { fieldLoop: 900 } });
    plan = step(plan, 'allow-jacks', {
      jacks: ['J1'],
      fields: { wastePercent: 20, orderStep: 500 },
    });
    plan = holds(plan, 'allow-jacks', { jacks: ['J1'], fields: { wastePercent: null } });
    expect(of(plan, 'J1')).toMatchObject({ wastePercent: 10, orderStep: 500, fieldLoop: 900 });
    plan = step(plan, 'allow-jacks', { jacks: ['J1'], fields: { orderStep: null } });
    plan = holds(plan, 'allow-kind', { kind: 'order-station', fields: { fieldLoop: null } });
    expect(writePlan(plan)).toBe(writePlan(three()));
    expect(source(plan, 'J1')).toBe('job');
  });

  it('refuse what does not fit, an unknown kind, and jacks that are gone', () => {
    const plan = three();
    expect(refusal(plan, 'allow-kind', { kind: 'teapot', fields: {} })).toContain('teapot');
    const low = { outletSlack: -1 };
    expect(refusal(plan, 'allow-kind', { kind: 'kiosk', fields: low })).toContain('does not fit');
    expect(refusal(plan, 'allow-jacks', { jacks: ['J1'], fields: low })).toContain('does not fit');
    expect(refusal(plan, 'allow-jacks', { jacks: ['J9'], fields: {} })).toContain('no longer');
  });
});
