import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import { apply, Draft } from '../../../src/plan/change.ts';
import { emptyPlan, makeRow, type Plan, type Ref } from '../../../src/plan/plan.ts';
import { ask, outletOf, refusal, step } from './steps.ts';

const wall = (id: string, a: Point, b: Point, fields: object = {}) =>
  ({ table: 'walls', row: makeRow('walls', id, { a, b, ...fields }) }) as const;

/** Two rooms of 4 × 3 m side by side; W5 is between them, W6 is a partition against W1 and W3. */
function twoRooms(): Plan {
  const draft = new Draft(emptyPlan());
  for (const { row } of [
    wall('W1', [0, 0], [8000, 0]),
    wall('W2', [8000, 0], [8000, 3000]),
    wall('W3', [8000, 3000], [0, 3000]),
    wall('W4', [0, 3000], [0, 0]),
    wall('W5', [4000, 0], [4000, 3000]),
  ])
    draft.put('walls', row);
  const room = (id: string, outline: Point[]) =>
    draft.put('zones', makeRow('zones', id, { outline }));
  room('Z1', [
    [0, 0],
    [4000, 0],
    [4000, 3000],
    [0, 3000],
  ]);
  room('Z2', [
    [4000, 0],
    [8000, 0],
    [8000, 3000],
    [4000, 3000],
  ]);
  return draft.plan;
}

const ref = (table: Ref['table'], id: string): Ref => ({ table, id });
const ends = (plan: Plan, id: string) => {
  const row = plan.tables.walls.get(id)!;
  return [row.a, row.b];
};
const outline = (plan: Plan, id: string) => plan.tables.zones.get(id)!.outline;

describe('A wall that is moved', () => {
  it('takes the ends of walls at its corners and the corners of its rooms along', () => {
    const plan = step(twoRooms(), 'move', { refs: [ref('walls', 'W2')], by: [500, 0] });
    expect(ends(plan, 'W1')).toEqual([
      [0, 0],
      [8500, 0],
    ]);
    expect(ends(plan, 'W3')[0]).toEqual([8500, 3000]);
    expect(outline(plan, 'Z2')).toEqual([
      [4000, 0],
      [8500, 0],
      [8500, 3000],
      [4000, 3000],
    ]);
    expect(outline(plan, 'Z1')).toEqual(outline(twoRooms(), 'Z1'));
  });

  it('keeps walls that end against its side, and the rooms on both sides', () => {
    const plan = step(twoRooms(), 'move', { refs: [ref('walls', 'W1')], by: [0, -700] });
    expect(ends(plan, 'W5')).toEqual([
      [4000, -700],
      [4000, 3000],
    ]);
    expect(outline(plan, 'Z1').slice(0, 2)).toEqual([
      [0, -700],
      [4000, -700],
    ]);
    expect(outline(plan, 'Z2').slice(0, 2)).toEqual([
      [4000, -700],
      [8000, -700],
    ]);
  });

  it('shrinks one room and widens the other when it stands between them', () => {
    const plan = step(twoRooms(), 'move', { refs: [ref('walls', 'W5')], by: [-1000, 0] });
    expect(outline(plan, 'Z1')[1]).toEqual([3000, 0]);
    expect(outline(plan, 'Z2')[0]).toEqual([3000, 0]);
    expect(ends(plan, 'W1')).toEqual(ends(twoRooms(), 'W1'));
  });

  it('keeps a room that is drawn along its inner faces as far from it as it was', () => {
    const draft = new Draft(twoRooms());
    draft.put(
      'zones',
      makeRow('zones', 'Z3', {
        outline: [
          [62, 62],
          [3938, 62],
          [3938, 2938],
          [62, 2938],
        ],
      }),
    );
    const plan = step(draft.plan, 'move', { refs: [ref('walls', 'W1')], by: [0, -700] });
    expect(outline(plan, 'Z3')).toEqual([
      [62, -638],
      [3938, -638],
      [3938, 2938],
      [62, 2938],
    ]);
  });

  it('takes the doors in it and the outlets on it along, also those that were placed by hand', () => {
    const draft = new Draft(twoRooms());
    draft.put('openings', makeRow('openings', 'G1', { wall: 'W2', along: 1000 }));
    draft.put(
      'outlets',
      makeRow('outlets', 'O1', { at: [7938, 2000], wall: 'W2', placed: 'hand' }),
    );
    const plan = step(draft.plan, 'move', { refs: [ref('walls', 'W2')], by: [900, 0] });
    expect(plan.tables.openings.get('G1')!.along).toBe(1000);
    expect(plan.tables.outlets.get('O1')).toMatchObject({ at: [8838, 2000], wall: 'W2' });
  });

  it('leaves outlets and doors of a wall that only grows where they are', () => {
    const draft = new Draft(twoRooms());
    // Measured from the end that moves.
    draft.put('openings', makeRow('openings', 'G1', { wall: 'W3', along: 2000 }));
    draft.put('outlets', makeRow('outlets', 'O1', { at: [5000, 2938], wall: 'W3' }));
    const plan = step(draft.plan, 'move', { refs: [ref('walls', 'W2')], by: [500, 0] });
    expect(plan.tables.openings.get('G1')!.along).toBe(2500);
    expect(plan.tables.outlets.get('O1')!.at).toEqual([5000, 2938]);
  });

  it('is refused where a door beside it would not fit any more', () => {
    const draft = new Draft(twoRooms());
    draft.put('openings', makeRow('openings', 'G1', { wall: 'W4', along: 1500, width: 2000 }));
    const call = { refs: [ref('walls', 'W3')], by: [0, -1500] as Point };
    expect(refusal(draft.plan, 'move', call)).toContain('would not fit');
  });

  it('is refused where a room would have no area left', () => {
    const call = { refs: [ref('walls', 'W5')], by: [-4000, 0] as Point };
    expect(ask(twoRooms(), 'move', call).ok).toBe(false);
  });

  it('lets its corner go when the end is moved alone', () => {
    const plan = step(twoRooms(), 'move-point', {
      ref: ref('walls', 'W2'),
      index: 0,
      to: [9000, 0],
      alone: true,
    });
    expect(ends(plan, 'W1')[1]).toEqual([8000, 0]);
  });

  it('takes what ends against it along when only its end is moved', () => {
    const plan = step(twoRooms(), 'move-point', {
      ref: ref('walls', 'W1'),
      index: 1,
      to: [8000, -1000],
    });
    expect(ends(plan, 'W2')[0]).toEqual([8000, -1000]);
    expect(ends(plan, 'W5')[0]).toEqual([4000, -500]);
    expect(outline(plan, 'Z1')[1]).toEqual([4000, -500]);
  });

  it('leaves locked walls and rooms where they are', () => {
    let plan = step(twoRooms(), 'edit', { table: 'walls', id: 'W1', fields: { locked: true } });
    plan = step(plan, 'move', { refs: [ref('walls', 'W2')], by: [500, 0] });
    expect(ends(plan, 'W1')[1]).toEqual([8000, 0]);
  });

  it('keeps the corners of a whole group, and those to walls outside of it', () => {
    const plan = step(twoRooms(), 'move', {
      refs: [ref('walls', 'W2'), ref('walls', 'W5')],
      by: [300, 0],
    });
    expect(ends(plan, 'W1')[1]).toEqual([8300, 0]);
    expect(outline(plan, 'Z1')[1]).toEqual([4300, 0]);
    expect(outline(plan, 'Z2')).toEqual([
      [4300, 0],
      [8300, 0],
      [8300, 3000],
      [4300, 3000],
    ]);
  });

  it('keeps every corner of a grid of rooms closed, however it is moved', () => {
    const closedCorners = (plan: Plan) => {
      const places = [...plan.tables.walls.values()].flatMap(({ a, b }) => [a, b].map(String));
      return [...plan.tables.zones.values()].every((zone) =>
        [0, 3].every((i) => places.includes(String(zone.outline[i]!))),
      );
    };
    fc.assert(
      fc.property(
        fc.constantFrom('W1', 'W2', 'W3', 'W4', 'W5'),
        fc.integer({ min: -900, max: 900 }),
        fc.integer({ min: -900, max: 900 }),
        (id, x, y) => {
          const plan = twoRooms();
          const outcome = ask(plan, 'move', { refs: [ref('walls', id)], by: [x, y] });
          if (!outcome.ok) return;
          expect(closedCorners(apply(plan, outcome.changes))).toBe(true);
        },
      ),
      { seed: 11, numRuns: 150 },
    );
  });
});

describe('What is locked', () => {
  const locked = () =>
    step(twoRooms(), 'edit', { table: 'walls', id: 'W5', fields: { locked: true } });
  const refs = [ref('walls', 'W5')];

  it.each([
    ['move', (plan: Plan) => refusal(plan, 'move', { refs, by: [10, 0] })],
    ['delete', (plan: Plan) => refusal(plan, 'delete', { refs })],
    [
      'move-point',
      (plan: Plan) => refusal(plan, 'move-point', { ref: refs[0]!, index: 0, to: [5, 5] }),
    ],
  ] as const)('is not touched by %s', (_name, why) => {
    expect(why(locked())).toContain('locked');
  });

  it('stays where it is among others, and a notice says so', () => {
    const outcome = ask(locked(), 'delete', { refs: [...refs, ref('zones', 'Z1')] });
    expect(outcome.ok && [outcome.changes.length, outcome.notice?.text]).toEqual([
      1,
      '1 locked thing stayed as it is.',
    ]);
  });
});

describe('An outlet that is placed by itself', () => {
  const withDoor = (fields: object): Plan => {
    const draft = new Draft(twoRooms());
    draft.put('openings', makeRow('openings', 'G1', { wall: 'W1', along: 2000, ...fields }));
    return draft.plan;
  };
  const placed = (plan: Plan) =>
    outletOf(
      step(plan, 'place-device', { level: 'L1', kind: 'order-station', at: [1900, 400] }),
      'D1',
    ).at;

  it('never lands in a door, but beside it', () => {
    expect(placed(withDoor({}))).toEqual([2000 - 457 - 100, 62]);
  });

  it('may hang under a window, and not in one that comes down to it', () => {
    expect(placed(withDoor({ kind: 'window', sill: 1400 }))).toEqual([1900, 62]);
    expect(placed(withDoor({ kind: 'window', sill: 300 }))[0]).toBe(1443);
  });
});
