import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import { areaAt, ceilingAt } from '../../../src/plan/areas.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import { outletOf, step } from './steps.ts';

const square = (x: number, y: number, size: number): Point[] => [
  [x, y],
  [x + size, y],
  [x + size, y + size],
  [x, y + size],
];
const room = (plan: Plan, outline: Point[], height = 2743): Plan =>
  step(plan, 'draw-zone', {
    level: 'L1',
    outline,
    look: { ceiling: { kind: 'open', height } },
  });
const place = (plan: Plan, at: Point, kind = 'access-point'): Plan =>
  step(plan, 'place-device', { level: 'L1', kind, at });
/** The height of the first device, and of its outlet. */
const heights = (plan: Plan): readonly [number, number] => {
  const [device] = [...plan.tables.devices.values()];
  return [device!.height, outletOf(plan, device!.id).height];
};
const setCeiling = (plan: Plan, zone: string, height: number): Plan =>
  step(plan, 'edit', { table: 'zones', id: zone, fields: { ceiling: { kind: 'open', height } } });

describe('what hangs on a ceiling', () => {
  const hall = place(room(emptyPlan(), square(0, 0, 9000)), [4000, 4000]);

  it('goes where the ceiling goes that somebody gives the room or the level', () => {
    expect(heights(hall)).toEqual([2743, 2743]);
    expect(heights(setCeiling(hall, 'Z1', 4267))).toEqual([4267, 4267]);
    const bare = place(emptyPlan(), [4000, 4000]);
    const ceiling = { kind: 'open' as const, height: 5000 };
    const raised = step(bare, 'edit', { table: 'levels', id: 'L1', fields: { ceiling } });
    expect(heights(raised)).toEqual([5000, 5000]);
  });

  it('goes to that of a room that is drawn round it, moved over it or taken away', () => {
    const over = room(hall, square(3000, 3000, 2000), 4000);
    expect(heights(over)).toEqual([4000, 4000]);
    const ref = { table: 'zones' as const, id: 'Z2' };
    expect(heights(step(over, 'delete', { refs: [ref] }))).toEqual([2743, 2743]);
  });

  it('goes to that of the room into which it is moved', () => {
    const two = room(hall, square(20_000, 0, 5000), 3500);
    const refs = [{ table: 'devices' as const, id: [...two.tables.devices.keys()][0]! }];
    expect(heights(step(two, 'move', { refs, by: [18_000, -2000] }))).toEqual([3500, 3500]);
  });

  it('stays where somebody put it lower, and so does what hangs on a wall', () => {
    const [id] = [...hall.tables.devices.keys()];
    const low = step(hall, 'edit', { table: 'devices', id: id!, fields: { height: 2400 } });
    expect(heights(setCeiling(low, 'Z1', 4267))[0]).toBe(2400);
    const kiosk = place(room(emptyPlan(), square(0, 0, 9000)), [4000, 4000], 'kiosk');
    expect(heights(setCeiling(kiosk, 'Z1', 4267))).toEqual(heights(kiosk));
  });
});

describe('a room that is drawn round others', () => {
  const inner = room(
    room(emptyPlan(), square(2000, 2000, 1000), 2500),
    square(5000, 5000, 1000),
    2600,
  );
  const both = room(inner, square(0, 0, 9000), 4000);

  it('leaves them their ceilings and letters, and has the rest', () => {
    const at = (p: Point) => [areaAt(both, 'L1', p), ceilingAt(both, 'L1', p).height];
    expect(at([2500, 2500])).toEqual(['A', 2500]);
    expect(at([5500, 5500])).toEqual(['B', 2600]);
    expect(at([4000, 4000])).toEqual(['C', 4000]);
  });

  it('comes before them, and before none that lies within it in part', () => {
    expect([...both.tables.zones.values()].map(({ area }) => area)).toEqual(['C', 'A', 'B']);
    const strangers = room(inner, square(2500, 2500, 3000), 4000);
    expect([...strangers.tables.zones.values()].map(({ area }) => area)).toEqual(['A', 'B', 'C']);
  });

  it('leaves a room in its niche alone', () => {
    const niche = room(emptyPlan(), square(0, 0, 1000));
    const outline: Point[] = [
      [0, 1000],
      [1000, 1000],
      [1000, 0],
      [3000, 0],
      [3000, 3000],
      [0, 3000],
    ];
    expect([...room(niche, outline).tables.zones.keys()]).toEqual(['Z1', 'Z2']);
  });
});
