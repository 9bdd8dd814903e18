import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import {
  type NoRoute,
  prepare,
  type Route,
  type Site,
  type SitePathway,
  type SiteZone,
  type Terminal,
} from '../../../src/routing/index.ts';
import { POLE, room, wall } from './sites.ts';

const box = (x0: number, y0: number, x1: number, y1: number): Point[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

const hard = (id: string, outline: Point[]): SiteZone => ({
  id,
  outline,
  kind: 'hard',
  elevation: 2650,
  height: 2700,
});

const run = (site: Site, terminal: Terminal = POLE): Route | NoRoute =>
  prepare(site).route(terminal, 'C1');

function routed(site: Site, terminal: Terminal = POLE): Route {
  const route = run(site, terminal);
  if (!route.ok) throw new Error(`blocked: ${JSON.stringify(route)}`);
  return route;
}

const pathway = (
  fields: Partial<SitePathway> & Pick<SitePathway, 'kind' | 'points'>,
): SitePathway => ({
  id: 'P1',
  elevation: null,
  ...fields,
});

/** What crowded plans are thinned to, in crossings, with room for the nodes of slanted pathways. */
const THIN = 200_000;

describe('hard ceilings', () => {
  const lid = hard('Z1', box(8000, 0, 12000, 3000));

  it('give no way to an outlet away from every wall, and say which ceiling it is', () => {
    expect(run(room({ zones: [lid] }))).toEqual({
      ok: false,
      reason: 'no-way',
      by: { table: 'zones', id: 'Z1' },
      reached: [10000, 1000, 450],
    });
  });

  it('let a cable out along the faces of walls, at the factor of a raceway', () => {
    // East along the north wall from (11, 0) back to the edge of the ceiling at x = 8: 3000 at 1.5.
    const outlet = { at: [11000, 0], height: 450, mount: 'wall', wall: 'north' } as const;
    const route = routed(room({ zones: [lid] }), outlet);
    const inside = route.segments.filter((s) => s.ceiling === 'hard' && s.kind === 'across');
    expect(inside.map((s) => s.length)).toEqual([3000]);
    expect(route.cost).toBe(2200 + 4500 + 200 + 7000 + 8000 + 1350 + 100);
  });

  it('start an outlet whose wall is not drawn at a face within 300, and no farther', () => {
    const outlet = (y: number): Terminal => ({
      at: [11000, y],
      height: 450,
      mount: 'wall',
      wall: null,
    });
    expect(routed(room({ zones: [lid] }), outlet(300)).segments[1]).toMatchObject({
      kind: 'across',
      length: 300,
    });
    expect(run(room({ zones: [lid] }), outlet(301)).ok).toBe(false);
  });

  it('let a conduit through to where free travel begins', () => {
    const points: Point[] = [
      [10000, 1000],
      [10000, 3500],
    ];
    const route = routed(room({ zones: [lid], pathways: [pathway({ kind: 'conduit', points })] }));
    expect(route.pathways).toEqual(['P1']);
    expect(route.across).toBe(16_000);
  });
});

describe('pathways', () => {
  const cold = [wall('W1', { a: [6000, 0], b: [6000, 9000], construction: 'insulated' })];

  it('alone pass an insulated wall, which is then a sealed penetration without a price', () => {
    expect(run(room({ walls: cold }))).toMatchObject({
      ok: false,
      by: { table: 'walls', id: 'W1' },
      reached: [6050, 8000, 2850],
    });
    const points: Point[] = [
      [6500, 4000],
      [5500, 4000],
    ];
    const route = routed(room({ walls: cold, pathways: [pathway({ kind: 'sleeve', points })] }));
    expect(route.crossings).toEqual([
      {
        level: 'L1',
        wall: 'W1',
        construction: 'insulated',
        at: [6000, 4000, 2850],
        work: 'seal',
        firestop: false,
        price: 0,
        pathway: 'P1',
      },
    ]);
    expect(route.path).toBe(19_750);
  });

  it('that are closed are joined at their ends only; trays anywhere', () => {
    const points: Point[] = [
      [11500, 5000],
      [500, 5000],
    ];
    const by = (kind: SitePathway['kind']) =>
      routed(room({ pathways: [pathway({ kind, points })] })).pathways;
    expect(by('tray')).toEqual(['P1']);
    expect(by('hook-line')).toEqual(['P1']);
    expect(by('raceway')).toEqual(['P1']);
    // To its end and back from its other end is 2000 farther than it saves.
    expect(by('conduit')).toEqual([]);
  });

  it('at an elevation of their own cost the way down to them and up again', () => {
    const points: Point[] = [
      [11000, 5000],
      [500, 5000],
    ];
    const at = (elevation: number) =>
      routed(room({ pathways: [pathway({ kind: 'tray', points, elevation })] }));
    expect(
      at(2450)
        .segments.filter((s) => s.kind === 'step')
        .map((s) => s.length),
    ).toEqual([400, 400]);
    // It saves 1800 less a bend, so steps of 900 are too dear.
    expect(at(1950).pathways).toEqual([]);
  });

  it('that follow the ceiling step with it', () => {
    const high = { id: 'Z1', outline: box(6000, 0, 12000, 9000), kind: 'tile' } as const;
    const zones = [{ ...high, elevation: 3350, height: 3200 }];
    const points: Point[] = [
      [10000, 8000],
      [1000, 8000],
    ];
    const route = routed(room({ zones, pathways: [pathway({ kind: 'tray', points })] }));
    const steps = route.segments.filter((s) => s.kind === 'step');
    expect(steps.map((s) => [s.from, s.to])).toEqual([
      [
        [6000, 8000, 3350],
        [6000, 8000, 2850],
      ],
    ]);
    expect(route.cost).toBe(2900 + 7000 + 7200 + 500 + 100 + 1350);
  });

  it('under the slab take a floor outlet along and up at the other end', () => {
    const floor: Terminal = { at: [10000, 1000], height: 0, mount: 'floor', wall: null };
    const points: Point[] = [
      [10000, 1000],
      [10000, 8000],
      [1000, 8000],
    ];
    const under = pathway({ kind: 'under-slab', points });
    const masonry = wall('W1', { a: [6000, 0], b: [6000, 9000], construction: 'masonry' });
    const route = routed(room({ walls: [masonry], pathways: [under] }), floor);
    expect(route.segments.map((s) => [s.kind, s.length])).toEqual([
      ['down', 300],
      ['across', 7000],
      ['across', 9000],
      ['up', 1800],
    ]);
    // It passes beneath the wall.
    expect(route.crossings).toEqual([]);
    expect(run(room(), floor)).toMatchObject({ ok: false, reason: 'no-under-slab', by: null });
  });

  it('under the slab never come up at the floor box, however much nearer home that is', () => {
    const floor: Terminal = { at: [3000, 7000], height: 0, mount: 'floor', wall: null };
    const points: Point[] = [
      [3000, 7000],
      [10000, 7000],
    ];
    const under = pathway({ kind: 'under-slab', points, floorBoxes: [true, false] });
    const route = routed(room({ pathways: [under] }), floor);
    expect(route.segments.slice(0, 3).map((s) => [s.kind, s.length])).toEqual([
      ['down', 300],
      ['across', 7000],
      ['step', 3150],
    ]);
    // Nor does a cable of the ceiling go down into it, nor one of a tray that passes over it.
    const over: Point[] = [
      [3000, 7000],
      [3000, 8000],
    ];
    const tray = pathway({ id: 'P2', kind: 'tray', points: over });
    expect(routed(room({ pathways: [under, tray] }), floor).segments.slice(0, 2)).toEqual(
      route.segments.slice(0, 2),
    );
    const both = { ...under, floorBoxes: [true, true] as const };
    expect(run(room({ pathways: [both] }), floor)).toMatchObject({ ok: false, reason: 'no-way' });
    const on = pathway({
      id: 'P2',
      kind: 'under-slab',
      points: [
        [10000, 7000],
        [10000, 1000],
      ],
      floorBoxes: [true, false],
    });
    expect(routed(room({ pathways: [both, on] }), floor).segments[2]).toMatchObject({
      kind: 'across',
      length: 6000,
    });
  });

  it('below the ceiling meet walls that stop at the grid', () => {
    const grid = [wall('W1', { a: [6000, 0], b: [6000, 9000], top: 'grid' })];
    const points: Point[] = [
      [10000, 8000],
      [1000, 8000],
    ];
    const works = (elevation: number | null) =>
      routed(
        room({ walls: grid, pathways: [pathway({ kind: 'tray', points, elevation })] }),
      ).crossings.map((c) => c.work);
    expect(works(null)).toEqual(['none']);
    expect(works(2600)).toEqual(['sleeve']);
  });

  it('pass a cable on to one another where they meet', () => {
    const lid = hard('Z1', box(0, 0, 12000, 9000));
    const one = pathway({
      id: 'P1',
      kind: 'tray',
      points: [
        [10000, 1000],
        [10000, 5000],
      ],
    });
    const two = pathway({
      id: 'P2',
      kind: 'conduit',
      points: [
        [10000, 4000],
        [1000, 4000],
        [1000, 8000],
      ],
    });
    const route = routed(room({ zones: [lid], pathways: [one, two] }));
    expect(route.pathways).toEqual(['P1', 'P2']);
    expect(route.bends).toBe(2);
    expect(route.across).toBe(16_000);
  });
});

describe('walls', () => {
  const across = (fields: object) =>
    routed(room({ walls: [wall('W1', { a: [6000, 0], b: [6000, 9000], ...fields })] }))
      .crossings[0];

  it('take work and a price by construction, top and rating', () => {
    expect(across({ top: 'grid' })).toMatchObject({ work: 'none', firestop: false, price: 0 });
    expect(across({})).toMatchObject({ work: 'sleeve', firestop: false, price: 1000 });
    expect(across({ rated: true })).toMatchObject({ work: 'sleeve', firestop: true, price: 3000 });
    expect(across({ top: 'grid', rated: true })).toMatchObject({ firestop: true, price: 3000 });
    expect(across({ construction: 'masonry' })).toMatchObject({ work: 'core', price: 2000 });
    expect(across({ construction: 'masonry', top: 'grid' })).toMatchObject({
      work: 'none',
      price: 0,
    });
    expect(across({ construction: 'masonry', rated: true })).toMatchObject({
      work: 'core',
      firestop: true,
      price: 4000,
    });
  });

  it('that are framed let the cable of their own outlet out at either face', () => {
    const site = (construction: 'framed' | 'masonry') =>
      room({ walls: [wall('W1', { a: [6000, 0], b: [6000, 9000], construction })] });
    const outlet = { at: [6050, 4000], height: 450, mount: 'wall', wall: 'W1' } as const;
    const framed = routed(site('framed'), outlet);
    expect(framed.crossings).toEqual([]);
    expect(framed.across).toBe(5050 + 4000);
    const masonry = routed(site('masonry'), outlet);
    expect(masonry.crossings).toMatchObject([{ wall: 'W1', work: 'core', price: 2000 }]);
  });

  it('of which a free one is part framed and part masonry let it out as the part does that it hangs on', () => {
    const walls = [
      wall('W1', { a: [6000, 2000], b: [6000, 6000], top: 'grid' }),
      wall('W2', { a: [6000, 0], b: [6000, 2000], top: 'grid', construction: 'masonry' }),
      wall('W3', { a: [5950, 3000], b: [5950, 5000] }),
    ];
    const outlet = { at: [5950, 4000], height: 450, mount: 'wall', wall: 'W1' } as const;
    for (const order of [walls, walls.toReversed()]) {
      const route = routed(room({ walls: order }), outlet);
      expect(route.crossings).toEqual([]);
    }
  });

  it('are gone through lengthwise where the inside of one is all that is left', () => {
    const keepouts = [
      { id: 'K1', outline: box(4000, -500, 8000, 4450), clearance: 0 },
      { id: 'K2', outline: box(4000, 4550, 8000, 9500), clearance: 0 },
    ];
    const walls = [wall('W1', { a: [3000, 4500], b: [9000, 4500] })];
    const route = routed(room({ keepouts, walls }));
    expect(route.path).toBe(19_750);
    expect(route.bends).toBe(2);
    expect(route.crossings).toMatchObject([{ wall: 'W1', price: 1000 }]);
  });

  it('name the piece of a wall that is passed, where it was drawn in pieces', () => {
    const pieces = [
      wall('W1', { a: [6000, 0], b: [6000, 5000] }),
      wall('W2', { a: [6000, 5000], b: [6000, 9000] }),
    ];
    expect(routed(room({ walls: pieces })).crossings.map((c) => c.wall)).toEqual(['W2']);
  });
});

describe('what has no way', () => {
  it('names the keep-out that an outlet stands in', () => {
    const keepouts = [{ id: 'K1', outline: box(9000, 0, 11000, 2000), clearance: 0 }];
    expect(run(room({ keepouts }))).toMatchObject({
      ok: false,
      by: { table: 'keepouts', id: 'K1' },
      reached: [10000, 1000, 450],
    });
  });

  it('names the keep-out that a closet stands in, and the nearest place before it', () => {
    const keepouts = [{ id: 'K1', outline: box(0, 7000, 2500, 9000), clearance: 200 }];
    expect(run(room({ keepouts }))).toMatchObject({
      ok: false,
      by: { table: 'keepouts', id: 'K1' },
      reached: [1000, 6800, 2850],
    });
  });

  it('names what bars the way across the whole width', () => {
    const keepouts = [{ id: 'K1', outline: box(4000, -500, 6000, 9500), clearance: 0 }];
    expect(run(room({ keepouts }))).toMatchObject({
      ok: false,
      by: { table: 'keepouts', id: 'K1' },
      reached: [6000, 8000, 2850],
    });
  });
});

describe('what is out of the ordinary', () => {
  it('routes an outlet right under its closet straight up and down', () => {
    const route = routed(room(), { ...POLE, at: [1000, 8000] });
    expect(route.segments.map((s) => [s.kind, s.length])).toEqual([
      ['up', 2400],
      ['down', 1350],
    ]);
    expect(route.bends).toBe(0);
  });

  it('takes areas of no size and pathways of no length for nothing', () => {
    const flat = { id: 'Z1', outline: box(5000, 0, 5000, 9000), kind: 'hard' } as const;
    const site = room({
      zones: [{ ...flat, elevation: 2000, height: 2000 }],
      keepouts: [{ id: 'K1', outline: box(3000, 4000, 9000, 4000), clearance: 0 }],
      pathways: [
        pathway({
          kind: 'tray',
          points: [
            [5000, 5000],
            [5000, 5000],
          ],
        }),
      ],
    });
    expect(routed(site).path).toBe(19_750);
  });

  it('takes an outline that crosses itself by the even-odd rule', () => {
    const outline: Point[] = [
      [4000, 0],
      [8000, 9000],
      [4000, 9000],
      [8000, 0],
    ];
    expect(run(room({ keepouts: [{ id: 'K1', outline, clearance: 0 }] })).ok).toBe(false);
  });

  it('stays exact 10 km from the origin', () => {
    const far = room({
      closets: [{ id: 'C1', at: [-10_000_000, 10_000_000], height: 1500 }],
      walls: [],
    });
    const route = prepare({ ...far, walls: [] }).route(
      { ...POLE, at: [10_000_000, -10_000_000] },
      'C1',
    );
    expect(route).toMatchObject({ ok: true, path: 40_000_000 + 2400 + 1350 });
  });

  it('ends on thousands of walls that lie over one another, and says when it was not exact', () => {
    const walls = Array.from({ length: 2000 }, (_, i) => {
      const x = (i * 7919) % 12000;
      const y = (i * 104_729) % 9000;
      return wall(`W${i}`, {
        a: [x, y],
        b: i % 2 ? [x + 500, y] : [x, y + 500],
        construction: i % 3 ? 'framed' : 'masonry',
      });
    });
    const network = prepare(room({ walls }));
    expect(network.exact()).toBe(false);
    expect(network.nodes).toBeLessThan(THIN);
    expect(network.route(POLE, 'C1').ok).toBe(true);
  }, 120_000);

  it('ends on hundreds of walls at any angle, whose faces it then does not follow', () => {
    const walls = Array.from({ length: 400 }, (_, i) => {
      const x = (i * 7919) % 12000;
      const y = (i * 104_729) % 9000;
      return wall(`W${i}`, { a: [x, y], b: [x + 300 + (i % 7), y + 400 - (i % 11)] });
    });
    const network = prepare(room({ walls }));
    expect(network.exact()).toBe(false);
    expect(network.nodes).toBeLessThan(THIN);
    expect(network.route(POLE, 'C1').ok).toBe(true);
  }, 120_000);

  it('ends on a thousand conduits, each with places where it must be joined', () => {
    const pathways = Array.from({ length: 1000 }, (_, i) => {
      const x = (i * 7919) % 12000;
      const y = (i * 104_729) % 9000;
      return pathway({
        kind: 'conduit',
        points: [
          [x, y],
          [x + 900, y],
          [x + 900, y + 700],
        ],
        id: `P${i}`,
      });
    });
    const network = prepare(room({ pathways }));
    expect(network.exact()).toBe(false);
    expect(network.nodes).toBeLessThan(THIN);
    expect(network.route(POLE, 'C1').ok).toBe(true);
  }, 120_000);
});

describe('off the frame', () => {
  it('a slanted tray is taken at its own length', () => {
    const tray = pathway({
      kind: 'tray',
      points: [
        [4000, 4000],
        [1000, 8000],
      ],
    });
    const route = routed(room({ pathways: [tray] }), { ...POLE, at: [4000, 4000] });
    expect(route.path).toBe(2400 + 5000 + 1350);
    expect(route.cost).toBe(2400 + 4000 + 1350);
  });

  it('a slanted tray is joined where the way meets it', () => {
    const tray = pathway({
      kind: 'tray',
      points: [
        [4000, 4000],
        [1000, 8000],
      ],
    });
    // West from (4, 6) to the tray at (2.5, 6), then 2500 along it.
    const route = routed(room({ pathways: [tray] }), { ...POLE, at: [4000, 6000] });
    expect(route.segments.filter((s) => s.kind === 'across').map((s) => s.length)).toEqual([
      1500, 2500,
    ]);
    expect(route.cost).toBe(2400 + 1500 + 100 + 2000 + 1350);
  });

  it('a cable that comes up at a wall face with a pathway along it goes on by the pathway without a bend', () => {
    const site: Site = {
      ...room({
        walls: [wall('W1', { a: [1000, 1000], b: [5000, 1000], thickness: 400, top: 'grid' })],
      }),
      pathways: [
        pathway({
          kind: 'hook-line',
          points: [
            [0, 1200],
            [5000, 1200],
          ],
        }),
      ],
      closets: [{ id: 'C1', at: [0, 1200], height: 2850 }],
    };
    const far: Terminal = { at: [3000, 800], height: 450, mount: 'wall', wall: 'W1' };
    const route = routed(site, far);
    // Up, through the wall to its other face, and home at four fifths.
    expect(route.cost).toBe(2400 + 400 + 3000 * 0.8);
    expect(route).toMatchObject({ bends: 0, path: 2400 + 400 + 3000 });
  });

  it('a slanted wall is passed at its price, and followed along its face', () => {
    const slanted = (exterior: boolean) =>
      room({ walls: [wall('W1', { a: [2000, 2000], b: [8000, 8000], exterior })] });
    const north: Terminal = { ...POLE, at: [5000, 3000] };
    const through = routed(slanted(false), north);
    expect(through.crossings).toMatchObject([{ wall: 'W1', work: 'sleeve', price: 1000 }]);
    expect(through.cost).toBe(2400 + 4000 + 5000 + 100 + 1000 + 1350);
    // From beside one end to beside the other: less than along the axes, no less than the straight line.
    const along = prepare({
      ...slanted(true),
      closets: [{ id: 'C1', at: [7900, 8100], height: 2850 }],
    }).route({ at: [1900, 2100], height: 2850, mount: 'pole', wall: null }, 'C1');
    if (!along.ok) throw new Error('blocked');
    const straight = Math.hypot(6000, 6000);
    expect(along.path).toBeGreaterThanOrEqual(Math.floor(straight));
    expect(along.path).toBeLessThan(straight + 150);
  });

  it('a site turned with its frame keeps its lengths to a few millimetres, and its bends', () => {
    for (const degrees of [10, 30, -45, 77.5]) {
      const t = (degrees * Math.PI) / 180;
      const turned = ([x, y]: Point): Point => [
        Math.round(x * Math.cos(t) - y * Math.sin(t)),
        Math.round(x * Math.sin(t) + y * Math.cos(t)),
      ];
      const site = room({ walls: [wall('W1', { a: [6000, 0], b: [6000, 8200] })] });
      const route = prepare({
        ...site,
        frameAngle: degrees,
        walls: site.walls.map((w) => ({ ...w, a: turned(w.a), b: turned(w.b) })),
        closets: site.closets.map((c) => ({ ...c, at: turned(c.at) })),
      }).route({ ...POLE, at: turned(POLE.at) }, 'C1');
      if (!route.ok) throw new Error('blocked');
      expect(Math.abs(route.path - 20_250)).toBeLessThanOrEqual(4);
      expect(route.bends).toBe(2);
      expect(route.points[0]).toEqual([...turned(POLE.at), 450]);
    }
  });
});
