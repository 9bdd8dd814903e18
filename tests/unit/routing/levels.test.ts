import { describe, expect, it } from 'vitest';
import { prepare, prepareBuilding, type Route, type Site } from '../../../src/routing/index.ts';
import { POLE, room } from './sites.ts';

const CLOSET = { id: 'C1', at: [1000, 8000], height: 1500 } as const;
const below = room({ closets: [] });
const above: Site = { ...room({ closets: [CLOSET] }), id: 'L2', elevation: 3600 };
const riser = { id: 'R1', levels: ['L1', 'L2'], at: [3000, 8000] } as const;
const terminal = { ...POLE, level: 'L1' };

function routed(found: ReturnType<ReturnType<typeof prepare>['route']>): Route {
  if (!found.ok) throw new Error(`no way: ${found.reason}`);
  return found;
}

describe('a run over two levels', () => {
  it('6: up 2400, across 7000 + 7000, riser 3600, across 2000, down 1350: path 23350', () => {
    const network = prepareBuilding({ levels: [below, above], risers: [riser] });
    const route = routed(network.route(terminal, 'C1'));
    expect(route.path).toBe(23_350);
    expect(route.across).toBe(16_000);
    expect(route.vertical).toBe(7350);
    expect(route.segments.map((s) => [s.kind, s.level, s.length, s.riser])).toEqual([
      ['up', 'L1', 2400, null],
      ['across', 'L1', 7000, null],
      ['across', 'L1', 7000, null],
      ['riser', 'L1', 3600, 'R1'],
      ['across', 'L2', 2000, null],
      ['down', 'L2', 1350, null],
    ]);
    expect(route.segments[3]).toMatchObject({ from: [3000, 8000, 2850], to: [3000, 8000, 6450] });
    expect(route.points[route.points.length - 1]).toEqual([1000, 8000, 5100]);
    // A turn below; a riser is none.
    expect(route.bends).toBe(1);
    expect(route.cost).toBe(23_350 + 100);
  });

  it('is the same from above to below', () => {
    const network = prepareBuilding({
      levels: [
        { ...below, closets: [{ ...CLOSET }] },
        { ...above, closets: [] },
      ],
      risers: [riser],
    });
    const route = routed(network.route({ ...POLE, level: 'L2' }, 'C1'));
    expect(route.path).toBe(23_350);
    expect(route.segments.map((s) => s.kind)).toEqual([
      'up',
      'across',
      'across',
      'riser',
      'across',
      'down',
    ]);
  });

  it('takes the riser that is cheaper on the whole', () => {
    const far = { id: 'R2', levels: ['L2', 'L1'], at: [10_000, 2000] } as const;
    const network = prepareBuilding({ levels: [below, above], risers: [riser, far] });
    const route = routed(network.route({ ...terminal, at: [10_000, 5000] }, 'C1'));
    expect(route.segments.find((s) => s.kind === 'riser')?.riser).toBe('R1');
    const near = routed(network.route({ ...terminal, at: [10_500, 2000] }, 'C1'));
    // Both are as long; by the nearer one there is no turn below, but one above.
    expect(near.path).toBe(2400 + 9500 + 6000 + 3600 + 1350);
  });

  it('may leave a level and come back to it where that is the only way', () => {
    const keepouts = [
      {
        id: 'K1',
        outline: [
          [4000, -50],
          [6000, -50],
          [6000, 9050],
          [4000, 9050],
        ] as const,
        clearance: 0,
      },
    ];
    const barred = room({ keepouts, closets: [CLOSET] });
    const over: Site = { ...above, closets: [] };
    const east = { id: 'R2', levels: ['L1', 'L2'], at: [10_000, 8000] } as const;
    const network = prepareBuilding({ levels: [barred, over], risers: [riser, east] });
    const route = routed(network.route(terminal, 'C1'));
    expect(route.segments.filter((s) => s.kind === 'riser').map((s) => [s.level, s.riser])).toEqual(
      [
        ['L1', 'R2'],
        ['L2', 'R1'],
      ],
    );
    expect(route.path).toBe(2400 + 7000 + 3600 + 7000 + 3600 + 2000 + 1350);
  });

  it('goes by a level whose frame is turned, with its lengths along that frame', () => {
    const turned: Site = { ...above, frameAngle: 45, walls: [] };
    const network = prepareBuilding({ levels: [below, turned], risers: [riser] });
    const route = routed(network.route(terminal, 'C1'));
    const upper = route.segments.filter((s) => s.level === 'L2' && s.kind === 'across');
    // 2000 along x is 1414 along each axis of a frame at 45 degrees.
    expect(upper.map((s) => s.length)).toEqual([1414, 1414]);
  });

  it('names the nearest place that it gets to where no riser leads', () => {
    const network = prepareBuilding({ levels: [below, above], risers: [] });
    expect(network.route(terminal, 'C1')).toEqual({
      ok: false,
      reason: 'no-riser',
      by: null,
      reached: null,
    });
  });

  it('names what bars the way to the riser, or from it', () => {
    const keepouts = [
      {
        id: 'K1',
        outline: [
          [4000, -50],
          [6000, -50],
          [6000, 9050],
          [4000, 9050],
        ] as const,
        clearance: 0,
      },
    ];
    const before = prepareBuilding({
      levels: [room({ keepouts, closets: [] }), above],
      risers: [riser],
    });
    expect(before.route(terminal, 'C1')).toMatchObject({
      reason: 'no-way',
      by: { table: 'keepouts', id: 'K1' },
      reached: [6000, 8000, 2850],
    });
    const behind = prepareBuilding({
      levels: [below, { ...above, keepouts }],
      risers: [{ ...riser, at: [8000, 8000] }],
    });
    expect(behind.route(terminal, 'C1')).toMatchObject({
      reason: 'no-way',
      by: { table: 'keepouts', id: 'K1' },
      reached: [6000, 8000, 6450],
    });
  });
});

describe('a pin', () => {
  const free = routed(prepare(room()).route(POLE, 'C1'));
  const through = (...points: (readonly [number, number])[]) => {
    const pin = { level: 'L1', points };
    return routed(prepare(room(), [pin]).route(POLE, 'C1', pin));
  };

  it('on the free way costs nothing', () => {
    expect(through([10_000, 4000]).path).toBe(free.path);
    expect(through([10_000, 4000], [10_000, 8000], [3000, 8000]).cost).toBe(free.cost);
  });

  it('off the free way costs what the way round takes, turns and all', () => {
    // East by 1000 and back: 2000 more, and one more turn.
    const route = through([11_000, 5000]);
    expect(route.path).toBe(free.path + 2000);
    expect(route.cost).toBe(free.cost + 2000 + 100);
    expect(route.segments).toContainEqual(
      expect.objectContaining({ from: [11_000, 1000, 2850], to: [11_000, 8000, 2850] }),
    );
  });

  it('passes its points in their order, and may turn back at one', () => {
    const there = through([10_000, 6000], [10_000, 2000]);
    expect(there.path).toBe(free.path + 8000);
    expect(there.segments.filter((s) => s.kind === 'across').map((s) => s.to.slice(0, 2))).toEqual([
      [10_000, 6000],
      [10_000, 2000],
      [10_000, 8000],
      [1000, 8000],
    ]);
    expect(through([10_000, 2000], [10_000, 6000]).path).toBe(free.path);
  });

  it('in a conduit makes the run take the conduit', () => {
    const outline = [
      [4000, 2000],
      [6000, 2000],
      [6000, 9050],
      [4000, 9050],
    ] as const;
    const points = [
      [7000, 8500],
      [3000, 8500],
    ] as const;
    const site = room({
      keepouts: [{ id: 'K1', outline, clearance: 0 }],
      pathways: [{ id: 'P1', kind: 'conduit', points, elevation: null }],
    });
    const pin = { level: 'L1', points: [[5000, 8500]] } as const;
    const network = prepare(site, [pin]);
    expect(routed(network.route(POLE, 'C1')).pathways).toEqual([]);
    const pinned = routed(network.route(POLE, 'C1', pin));
    expect(pinned.pathways).toEqual(['P1']);
    expect(pinned.path).toBe(2400 + 7500 + 9000 + 500 + 1350);
  });

  it('that cannot be passed is said, where the way without it is free', () => {
    const keepouts = [
      {
        id: 'K1',
        outline: [
          [4000, 2000],
          [6000, 2000],
          [6000, 4000],
          [4000, 4000],
        ] as const,
        clearance: 0,
      },
    ];
    const pin = { level: 'L1', points: [[5000, 3000]] } as const;
    expect(prepare(room({ keepouts }), [pin]).route(POLE, 'C1', pin)).toMatchObject({
      ok: false,
      reason: 'pin',
    });
  });
});
