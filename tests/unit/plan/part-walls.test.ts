import { describe, expect, it } from 'vitest';
import { openingOutline } from '../../../src/drawing/opening-marks.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { emptyPlan, onLevel, type Plan, type Ref } from '../../../src/plan/plan.ts';
import { ask, step } from './steps.ts';

const box = (x0: number, y0: number, x1: number, y1: number): Point[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

/** Two rooms side by side: Z1 from 0 to 4000, Z2 from there to 9000, with one wall between, W2. */
function two(height = 3000): Plan {
  const one = step(emptyPlan(), 'draw-zone', {
    level: 'L1',
    outline: box(0, 0, 4000, 3000),
    walls: true,
  });
  return step(one, 'draw-zone', {
    level: 'L1',
    outline: box(4000, 0, 9000, height),
    walls: true,
  });
}

const room = (id: string): Ref[] => [{ table: 'zones', id }];
const move = (plan: Plan, id: string, by: Point): Plan =>
  step(plan, 'move', { refs: room(id), by });

/** The corners of the one opening, in whole mm and in an order of their own. */
function openingOutlineOf(plan: Plan): Point[] {
  const [opening] = [...plan.tables.openings.values()];
  return openingOutline(plan.tables.walls.get(opening!.wall)!, opening!)
    .map(([x, y]): Point => [Math.round(x), Math.round(y)])
    .sort((p, q) => p[0] - q[0] || p[1] - q[1]);
}

const runsDown = (plan: Plan, id: string): boolean => {
  const { a, b } = plan.tables.walls.get(id)!;
  return a[1] < b[1];
};

const wallRefs = (plan: Plan): Ref[] =>
  onLevel(plan, 'walls', 'L1').map(({ id }) => ({ table: 'walls', id }));

/** Walls as texts, each from its lower left end. */
const walls = (plan: Plan): string[] =>
  onLevel(plan, 'walls', 'L1')
    .map(({ a, b }) => [a, b].sort((p, q) => p[0] - q[0] || p[1] - q[1]).join(' '))
    .sort();

describe('Moving a room', () => {
  it('takes its walls along, and leaves its neighbour as it was', () => {
    const plan = move(two(), 'Z2', [500, 0]);
    const own = ['4500,0 4500,3000', '4500,0 9500,0', '4500,3000 9500,3000', '9500,0 9500,3000'];
    const other = ['0,0 0,3000', '0,0 4000,0', '0,3000 4000,3000', '4000,0 4000,3000'];
    expect(walls(plan)).toEqual([...other, ...own].sort());
    expect(plan.tables.zones.get('Z1')).toEqual(two().tables.zones.get('Z1'));
  });

  it('gives it a wall of the make of the one that it leaves', () => {
    const rated = step(two(), 'edit', { table: 'walls', id: 'W2', fields: { rated: true } });
    const plan = move(rated, 'Z2', [500, 0]);
    const made = onLevel(plan, 'walls', 'L1').filter((w) => w.a[0] === 4500 && w.b[0] === 4500);
    expect(made).toMatchObject([{ rated: true, locked: false }]);
  });

  it('of one level with a room of another takes every wall once', () => {
    const apart = move(two(), 'Z2', [500, 0]);
    const plan = step(apart, 'copy-level', { level: 'L1', side: 'above', devices: false });
    const above = onLevel(plan, 'zones', 'L2')[1]!.id;
    const refs = [...room('Z2'), ...room(above)];
    const back = step(plan, 'move', { refs, by: [-500, 0] });
    expect(walls(back)).toEqual(walls(two()));
    expect(onLevel(back, 'walls', 'L2')).toHaveLength(walls(two()).length);
  });

  it('back again leaves one wall between them, as before', () => {
    const plan = move(move(two(), 'Z2', [500, 0]), 'Z2', [-500, 0]);
    expect(walls(plan)).toEqual(walls(two()));
  });

  it('along their wall gives it a piece where that ends', () => {
    const plan = move(two(), 'Z2', [0, 1000]);
    expect(walls(plan).filter((w) => /^4000,\d+ 4000/.test(w))).toEqual([
      '4000,0 4000,3000',
      '4000,3000 4000,4000',
    ]);
  });

  it('leaves the part of a wall that it had with a larger room', () => {
    const plan = move(two(1800), 'Z2', [700, 0]);
    expect(walls(plan)).toContain('4000,0 4000,3000');
    expect(walls(plan)).toContain('4700,0 4700,1800');
  });

  it('takes along what stands in it, and nothing of its neighbour', () => {
    let plan = two();
    const put = (x: number, kind: string): void => {
      plan = step(plan, 'place-device', { level: 'L1', kind, at: [x, 1500] });
    };
    put(8700, 'order-station');
    put(2000, 'order-station');
    plan = step(plan, 'place-closet', { level: 'L1', at: [6000, 1000] });
    plan = step(plan, 'place-power', { level: 'L1', at: [8700, 2900] });
    plan = step(plan, 'draw-keepout', { level: 'L1', outline: box(5000, 500, 5500, 900) });
    plan = step(plan, 'draw-keepout', { level: 'L1', outline: box(3000, 500, 5500, 900) });
    const after = move(plan, 'Z2', [500, 0]);
    const at = (of: Plan, table: 'devices' | 'closets' | 'powers' | 'outlets') =>
      [...of.tables[table].values()].map((row) => row.at[0]);
    const by = (xs: number[], there: (x: number) => boolean) =>
      xs.map((x) => (there(x) ? x + 500 : x));
    for (const table of ['devices', 'closets', 'powers', 'outlets'] as const)
      expect(at(after, table)).toEqual(by(at(plan, table), (x) => x > 4100));
    const west = (of: Plan) =>
      [...of.tables.keepouts.values()].map(({ outline }) => Math.min(...outline.map(([x]) => x)));
    expect(west(after)).toEqual([5500, 3000]);
    expect(move(after, 'Z2', [-500, 0])).toEqual(plan);
  });

  it('leaves what is locked in it, and says so', () => {
    const plan = step(two(), 'place-closet', { level: 'L1', at: [6000, 1000] });
    const fixed = step(plan, 'lock', { refs: [{ table: 'closets', id: 'C1' }], locked: true });
    const outcome = ask(fixed, 'move', { refs: room('Z2'), by: [500, 0] });
    expect(outcome.ok && outcome.notice?.text).toBe('1 locked thing stayed as it is.');
    expect(move(fixed, 'Z2', [500, 0]).tables.closets.get('C1')!.at).toEqual([6000, 1000]);
  });

  it('leaves a wall whole that a smaller neighbour has a part of', () => {
    const after = move(two(1800), 'Z1', [-700, 0]);
    expect(walls(after)).toContain('4000,0 4000,3000');
    expect(walls(after)).toContain('3300,0 3300,3000');
    const small = (plan: Plan) => walls(plan).filter((wall) => /^(4|9)000,\d+ 9000,/.test(wall));
    expect(small(after)).toEqual(small(two(1800)));
  });

  it('leaves a door and an outlet in the wall that stays', () => {
    let plan = step(two(), 'place-opening', { level: 'L1', at: [4000, 1500], kind: 'door' });
    plan = step(plan, 'place-spare', { level: 'L1', at: [4080, 400] });
    const after = move(plan, 'Z2', [500, 0]);
    expect(after.tables.openings).toEqual(plan.tables.openings);
    expect(after.tables.outlets).toEqual(plan.tables.outlets);
  });

  it('into another wall hands its door and its outlet over', () => {
    let plan = move(two(), 'Z2', [500, 0]);
    plan = step(plan, 'place-opening', { level: 'L1', at: [4500, 1500], kind: 'door' });
    plan = step(plan, 'place-spare', { level: 'L1', at: [4580, 400] });
    const back = move(plan, 'Z2', [-500, 0]);
    const [door] = [...back.tables.openings.values()];
    const [outlet] = [...back.tables.outlets.values()];
    expect(walls(back)).toEqual(walls(two()));
    expect(door).toMatchObject({ wall: 'W2', along: 1500 });
    expect(outlet).toMatchObject({ wall: 'W2', at: [4062, 400] });
  });

  it('hands a door over to a wall that runs the other way, and hung and opening as it was', () => {
    let plan = move(two(), 'Z2', [500, 0]);
    plan = step(plan, 'place-opening', { level: 'L1', at: [4500, 1000], kind: 'door' });
    const [door] = [...plan.tables.openings.values()];
    expect(runsDown(plan, door!.wall)).not.toBe(runsDown(plan, 'W2'));
    const before = openingOutlineOf(plan);
    const back = move(plan, 'Z2', [-500, 0]);
    const [over] = [...back.tables.openings.values()];
    expect(over).toMatchObject({
      wall: 'W2',
      hinge: door!.hinge === 'a' ? 'b' : 'a',
      side: door!.side === 'left' ? 'right' : 'left',
    });
    expect(openingOutlineOf(back)).toEqual(before.map(([x, y]) => [x - 500, y]));
    const fields = { hinge: over!.hinge, side: over!.side };
    const swung = step(plan, 'edit', { table: 'openings', id: over!.id, fields });
    expect([...move(swung, 'Z2', [-500, 0]).tables.openings.values()][0]).toMatchObject({
      hinge: door!.hinge,
      side: door!.side,
    });
  });

  it('keeps both walls where a door has no room in the other', () => {
    let plan = move(two(), 'Z2', [500, 0]);
    for (const x of [4000, 4500])
      plan = step(plan, 'place-opening', { level: 'L1', at: [x, 1500], kind: 'door' });
    const back = move(plan, 'Z2', [-500, 0]);
    expect(back.tables.openings.size).toBe(2);
    expect(walls(back).filter((w) => w === '4000,0 4000,3000')).toHaveLength(2);
  });

  it('by less than half a wall leaves it in the wall that it had', () => {
    expect(
      walls(move(two(), 'Z2', [40, 0])).filter((w) => /^40\d\d,0 40\d\d,3000/.test(w)),
    ).toEqual(['4000,0 4000,3000']);
  });

  it('that no walls close gives it none', () => {
    const open = step(two(), 'draw-zone', { level: 'L1', outline: box(4000, 0, 6000, 1000) });
    const plan = move(open, 'Z3', [500, 500]);
    expect(walls(plan)).toEqual(walls(two()));
  });

  it('with its neighbour takes the wall between them along', () => {
    const refs = [...room('Z1'), ...room('Z2')];
    const plan = step(two(), 'move', { refs, by: [500, 200] });
    expect(onLevel(plan, 'walls', 'L1')).toHaveLength(7);
    expect(walls(plan)).toContain('4500,200 4500,3200');
  });

  it('with its neighbour takes a wall along that goes on from one to the other', () => {
    const bare = [box(0, 0, 4000, 3000), box(4000, 0, 9000, 3000)].reduce(
      (plan, outline) => step(plan, 'draw-zone', { level: 'L1', outline }),
      emptyPlan(),
    );
    const round = step(bare, 'draw-walls', {
      level: 'L1',
      points: box(0, 0, 9000, 3000),
      closed: true,
    });
    const refs = [...room('Z1'), ...room('Z2')];
    expect(walls(step(round, 'move', { refs, by: [0, 5000] }))).toEqual(
      walls(step(round, 'move', { refs: [...refs, ...wallRefs(round)], by: [0, 5000] })),
    );
  });
});
