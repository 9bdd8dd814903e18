import fc from 'fast-check';
import type { Point } from '../../../src/geometry/point.ts';
import type {
  Building,
  Site,
  SiteKeepout,
  SitePathway,
  SitePin,
  SiteWall,
  SiteZone,
  Terminal,
} from '../../../src/routing/index.ts';
import { PRICES } from './sites.ts';

/** All coordinates of random sites are multiples of this. */
export const PITCH = 100;
const SIZE = 24;

const step = fc.integer({ min: 0, max: SIZE }).map((n) => n * PITCH);
const place: fc.Arbitrary<Point> = fc.tuple(step, step);
const kind = fc.constantFrom('tile' as const, 'open' as const, 'hard' as const);
const soft = fc.constantFrom('tile' as const, 'open' as const);
const elevation = fc.constantFrom(2800, 2900, 3300);

const rectangle = fc
  .tuple(step, step, fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 12 }))
  .map(([x, y, w, h]): Point[] => [
    [x, y],
    [x + w * PITCH, y],
    [x + w * PITCH, y + h * PITCH],
    [x, y + h * PITCH],
  ]);

/** An L: a rectangle with a corner cut out. */
const ell = fc
  .tuple(step, step, fc.integer({ min: 2, max: 12 }), fc.integer({ min: 2, max: 12 }))
  .chain(([x, y, w, h]) =>
    fc
      .tuple(fc.integer({ min: 1, max: w - 1 }), fc.integer({ min: 1, max: h - 1 }))
      .map(([a, b]): Point[] => [
        [x, y],
        [x + w * PITCH, y],
        [x + w * PITCH, y + b * PITCH],
        [x + a * PITCH, y + b * PITCH],
        [x + a * PITCH, y + h * PITCH],
        [x, y + h * PITCH],
      ]),
  );

const outline = fc.oneof({ arbitrary: rectangle, weight: 2 }, { arbitrary: ell, weight: 1 });

const zones = fc
  .array(fc.record({ outline, kind, elevation }), { maxLength: 4 })
  .map((list) => list.map((z, i): SiteZone => ({ ...z, id: `Z${i}`, height: z.elevation - 150 })));

const walls = fc
  .array(
    fc.record({
      at: place,
      length: fc.integer({ min: 0, max: 14 }),
      along: fc.boolean(),
      thickness: fc.constantFrom(200, 200, 400),
      construction: fc.constantFrom(
        'framed' as const,
        'framed' as const,
        'masonry' as const,
        'insulated' as const,
      ),
      top: fc.constantFrom('grid' as const, 'deck' as const, 'deck' as const),
      rated: fc.constantFrom(false, false, true),
      exterior: fc.constantFrom(false, false, false, true),
    }),
    { maxLength: 7 },
  )
  .map((list) =>
    list.map(({ at, length, along, ...rest }, i): SiteWall => {
      const b: Point = along ? [at[0] + length * PITCH, at[1]] : [at[0], at[1] + length * PITCH];
      return { ...rest, id: `W${i}`, a: at, b };
    }),
  );

const keepouts = fc
  .array(fc.record({ outline, clearance: fc.constantFrom(0, 0, 100) }), { maxLength: 3 })
  .map((list) => list.map((k, i): SiteKeepout => ({ ...k, id: `K${i}` })));

const pathways = fc
  .array(
    fc.record({
      at: place,
      moves: fc.array(fc.tuple(fc.boolean(), fc.integer({ min: -14, max: 14 })), {
        minLength: 1,
        maxLength: 3,
      }),
      kind: fc.constantFrom(
        'hook-line' as const,
        'tray' as const,
        'conduit' as const,
        'raceway' as const,
        'sleeve' as const,
        'under-slab' as const,
      ),
      elevation: fc.constantFrom(null, null, 2600, 3000),
      floorBoxes: fc.tuple(fc.boolean(), fc.boolean()),
    }),
    { maxLength: 3 },
  )
  .map((list) =>
    list.map(({ at, moves, ...rest }, i): SitePathway => {
      const points: Point[] = [at];
      for (const [along, n] of moves) {
        const [x, y] = points[points.length - 1]!;
        points.push(along ? [x + n * PITCH, y] : [x, y + n * PITCH]);
      }
      return { ...rest, id: `P${i}`, points };
    }),
  );

const prices = fc.constantFrom(
  PRICES,
  { ...PRICES, bend: 0 },
  { ...PRICES, bend: 700, framed: 300, masonry: 500, rated: 200 },
  { ...PRICES, pathwayFactor: 130, openFactor: 100, hardFactor: 100 },
);

const sky = fc
  .record({
    kind: fc.oneof({ arbitrary: soft, weight: 5 }, { arbitrary: kind, weight: 1 }),
    elevation,
  })
  .map((c) => ({ ...c, height: c.elevation - 150 }));

/** Little, and that large: the outlet and the closet can meet before either has come to a crossing of lines. */
const wide = fc
  .tuple(step, step, fc.integer({ min: 1, max: 48 }), fc.integer({ min: 1, max: 12 }), fc.boolean())
  .map(([x, y, long, short, along]): Point[] => {
    const [w, h] = along ? [long, short] : [short, long];
    const [left, top] = [x - (w * PITCH) / 2, y - (h * PITCH) / 2].map(
      (c) => Math.floor(c / PITCH) * PITCH,
    ) as [number, number];
    return [
      [left, top],
      [left + w * PITCH, top],
      [left + w * PITCH, top + h * PITCH],
      [left, top + h * PITCH],
    ];
  });

/** An axis-parallel site with one or two wide zones and perhaps a wall and a pathway, and a terminal. */
export const sparseSiteAndTerminal: fc.Arbitrary<{ site: Site; terminal: Terminal }> = fc
  .record({
    zones: fc.array(fc.record({ outline: wide, kind: soft, elevation }), {
      minLength: 1,
      maxLength: 2,
    }),
    walls: walls.map((list) => list.slice(0, 1)),
    pathways: pathways.map((list) => list.slice(0, 1)),
    bend: fc.constantFrom(0, 20, 100),
    ceiling: soft,
    at: place,
    closet: place,
  })
  .map(({ zones: list, bend, ceiling, at, closet, ...rest }) => ({
    site: {
      ...rest,
      zones: list.map((z, i): SiteZone => ({ ...z, id: `Z${i}`, height: z.elevation - 150 })),
      keepouts: [],
      prices: { ...PRICES, openFactor: 180, bend },
      ceiling: { kind: ceiling, elevation: 2900, height: 2750 },
      id: 'L1',
      elevation: 0,
      frameAngle: 0,
      closets: [{ id: 'C1', at: closet, height: 1500 }],
    },
    terminal: { at, height: 450, mount: 'pole', wall: null },
  }));

/** An axis-parallel site with everything in it, and a terminal. */
export const siteAndTerminal: fc.Arbitrary<{ site: Site; terminal: Terminal }> = fc
  .record({ zones, walls, keepouts, pathways, prices, ceiling: sky, closet: place })
  .chain(({ closet, ...rest }) => {
    const site: Site = {
      ...rest,
      id: 'L1',
      elevation: 0,
      frameAngle: 0,
      closets: [{ id: 'C1', at: closet, height: 1500 }],
    };
    return terminalIn(site).map((terminal) => ({ site, terminal }));
  });

/** Two levels with risers between them, a pin on one of them, and a terminal on the lower; the closet is on either. */
export const buildingAndTerminal: fc.Arbitrary<{
  building: Building;
  terminal: Terminal & { readonly level: string };
  pin: SitePin;
}> = fc
  .record({
    below: siteAndTerminal,
    above: siteAndTerminal,
    risers: fc.array(place, { minLength: 1, maxLength: 3 }),
    home: fc.constantFrom('L1', 'L2'),
    pin: fc.record({
      level: fc.constantFrom('L1', 'L2'),
      points: fc.array(place, { minLength: 1, maxLength: 3 }),
    }),
  })
  .map(({ below, above, risers, home, pin }) => ({
    building: {
      levels: [
        { ...below.site, closets: home === 'L1' ? below.site.closets : [] },
        {
          ...above.site,
          id: 'L2',
          elevation: 3600,
          closets: home === 'L2' ? above.site.closets : [],
        },
      ],
      risers: risers.map((at, i) => ({ id: `R${i}`, levels: ['L1', 'L2'], at })),
    },
    terminal: { ...below.terminal, level: 'L1' },
    pin,
  }));

function terminalIn(site: Site): fc.Arbitrary<Terminal> {
  const height = fc.constantFrom(300, 2700, 3300);
  const free = fc.record({
    at: place,
    height,
    mount: fc.constantFrom('pole' as const, 'ceiling' as const, 'casework' as const),
    wall: fc.constant(null),
  });
  const options: fc.WeightedArbitrary<Terminal>[] = [{ arbitrary: free, weight: 3 }];
  if (site.walls.length > 0)
    options.push({ arbitrary: fc.constantFrom(...site.walls).chain(onWall(height)), weight: 3 });
  const ends = site.pathways.filter((p) => p.kind === 'under-slab').map((p) => p.points[0]!);
  if (ends.length > 0)
    options.push({
      arbitrary: fc.record({
        at: fc.constantFrom(...ends),
        height: fc.constant(0),
        mount: fc.constant('floor' as const),
        wall: fc.constant(null),
      }),
      weight: 2,
    });
  return fc.oneof(...options);
}

/** On one of a wall's faces, or in the middle of it. */
const onWall =
  (height: fc.Arbitrary<number>) =>
  (wall: SiteWall): fc.Arbitrary<Terminal> => {
    const along = wall.a[1] === wall.b[1] ? 0 : 1;
    const length = Math.abs(wall.b[along] - wall.a[along]) / PITCH;
    return fc
      .tuple(fc.integer({ min: 0, max: length }), fc.constantFrom(-1, 0, 1), height)
      .map(([n, face, h]) => {
        const off = (face * wall.thickness) / 2;
        const [x, y] = wall.a;
        const at: Point = along === 0 ? [x + n * PITCH, y + off] : [x + off, y + n * PITCH];
        return { at, height: h, mount: 'wall' as const, wall: wall.id };
      });
  };
