import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distance, nearestOnSegment } from '../../../src/geometry/nearest.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { bareStretches } from '../../../src/geometry/wall-finder/covering.ts';
import {
  type Drawn,
  findWalls,
  type WallOffer,
} from '../../../src/geometry/wall-finder/find-walls.ts';

type Line = Drawn['lines'][number];
const run = { seed: 90_411, numRuns: 120 };

const line = (ax: number, ay: number, bx: number, by: number, width = 5): Line => ({
  a: [ax, ay],
  b: [bx, by],
  width,
});
const ring = (...corners: readonly Point[]): Line[] =>
  corners.map((a, i) => ({ a, b: corners[(i + 1) % corners.length]!, width: 5 }));
const box = (x0: number, y0: number, x1: number, y1: number): Point[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];
const strokes = (...lines: readonly Line[]): Drawn => ({ lines, fills: [] });
const offersOf = (drawn: Drawn) => findWalls(drawn).offers;
/** A room as plans draw it: its inner and its outer outline. */
const room = (x0: number, y0: number, x1: number, y1: number, t: number): Line[] => [
  ...ring(...box(x0, y0, x1, y1)),
  ...ring(...box(x0 - t, y0 - t, x1 + t, y1 + t)),
];
const ends = ({ a, b }: WallOffer): string => [a, b].map(String).sort().join(' – ');

describe('Walls in what a drawing shows', () => {
  it('are the four sides of a room drawn as two outlines, with their thickness, joined at the corners', () => {
    const offers = offersOf(strokes(...room(0, 0, 6000, 4000, 124)));
    expect(offers.map(ends).sort()).toEqual(
      [
        '-62,-62 – 6062,-62',
        '-62,-62 – -62,4062',
        '-62,4062 – 6062,4062',
        '6062,-62 – 6062,4062',
      ].sort(),
    );
    for (const offer of offers)
      expect(offer).toMatchObject({ thickness: 124, how: 'pair', doubts: [] });
  });

  it('go on past a wall that comes in, and that one ends on their middle line', () => {
    const lines = [
      line(0, 0, 8000, 0),
      line(0, 200, 3000, 200),
      line(3100, 200, 8000, 200),
      line(3000, 200, 3000, 3000),
      line(3100, 200, 3100, 3000),
    ];
    expect(
      offersOf(strokes(...lines))
        .map(ends)
        .sort(),
    ).toEqual(['100,100 – 7900,100', '3050,100 – 3050,2950']);
  });

  it('stop at a doorway, where their bodies end', () => {
    const offers = offersOf(
      strokes(
        ...room(0, 0, 6000, 4000, 100).filter(({ a, b }) => a[1] === b[1] || a[0] > 3000),
        ...[-100, 0].flatMap((x) => [line(x, x, x, 1500), line(x, 2400, x, x === 0 ? 4000 : 4100)]),
        line(-100, 1500, 0, 1500),
        line(-100, 2400, 0, 2400),
      ),
    );
    expect(offers.map(ends)).toContain('-50,-50 – -50,1450');
    expect(offers.map(ends)).toContain('-50,2450 – -50,4050');
    expect(offers).toHaveLength(5);
  });

  it('are put together from the pieces in which a program wrote their lines', () => {
    const broken = (ax: number, ay: number, bx: number, by: number): Line[] =>
      Array.from({ length: 20 }, (_, i) => {
        const at = (k: number): Point => [ax + ((bx - ax) * k) / 20, ay + ((by - ay) * k) / 20];
        return { a: at(i + 1), b: at(i), width: 3 };
      });
    const [offer, ...more] = offersOf(
      strokes(...broken(0, 0, 9000, 3000), ...broken(-60, 180, 8940, 3180)),
    );
    expect(more).toEqual([]);
    expect(offer).toMatchObject({ thickness: 190, how: 'pair', doubts: ['alone'] });
  });

  it('are found in filled bars and rings, whatever way they are turned, and not twice where those have an outline', () => {
    const turn = ([x, y]: Point): Point => [x * 0.8 - y * 0.6, x * 0.6 + y * 0.8];
    const rings = [box(-150, -150, 5150, 3150), box(0, 0, 5000, 3000)].map((r) => r.map(turn));
    const offers = offersOf({ lines: rings.flatMap((r) => ring(...r)), fills: [rings] });
    expect(offers).toHaveLength(4);
    for (const offer of offers) expect(offer).toMatchObject({ thickness: 150, how: 'filled' });
    const corners = box(-75, -75, 5075, 3075).map(turn);
    for (const corner of corners)
      expect(
        offers.filter(({ a, b }) => distance(a, corner) < 2 || distance(b, corner) < 2),
      ).toHaveLength(2);
  });

  it('are the legs of a filled angle, and a stroke as broad as a wall', () => {
    const angle: Point[] = [
      [0, 0],
      [4000, 0],
      [4000, 200],
      [200, 200],
      [200, 3000],
      [0, 3000],
    ];
    expect(
      offersOf({ lines: [], fills: [[angle]] })
        .map(ends)
        .sort(),
    ).toEqual(['100,100 – 100,2900', '100,100 – 3900,100']);
    expect(offersOf(strokes(line(0, 0, 4000, 0, 120)))).toMatchObject([
      { a: [60, 0], b: [3940, 0], thickness: 120, how: 'filled', doubts: ['alone'] },
    ]);
  });

  it.each<[string, Line[]]>([
    ['a hatch', Array.from({ length: 30 }, (_, i) => line(0, i * 100, 3000, i * 100))],
    ['the steps of a stair', Array.from({ length: 12 }, (_, i) => line(i * 280, 0, i * 280, 1200))],
    ['a border of two lines', room(0, 0, 40_000, 28_000, 400)],
    ['a table', [...ring(...box(0, 0, 1600, 600))]],
    ['columns', [0, 1, 2, 3].flatMap((i) => ring(...box(i * 4000, 0, i * 4000 + 400, 400)))],
    ['a single line', [line(0, 0, 9000, 0)]],
    ['lines that are too far apart', [line(0, 0, 9000, 0), line(0, 900, 9000, 900)]],
    ['lines that are all but one', [line(0, 0, 9000, 0), line(0, 40, 9000, 40)]],
    ['letters', Array.from({ length: 40 }, (_, i) => line(i * 90, 0, i * 90, 140))],
  ])('are not seen in %s', (_, lines) => {
    const inside = room(10_000, 10_000, 16_000, 14_000, 124);
    const offers = offersOf(strokes(...lines, ...inside));
    expect(offers).toHaveLength(4);
    expect(offers.every(({ thickness }) => thickness === 124)).toBe(true);
  });

  it('are offered with doubt where a window lies between their faces', () => {
    const glass = [70, 130].flatMap((y) => [line(2000, y, 6500, y)]);
    const wall = [line(0, 0, 8000, 0), line(0, 200, 8000, 200)];
    expect(offersOf(strokes(...wall, ...glass))).toMatchObject([
      { a: [100, 100], b: [7900, 100], thickness: 200, doubts: ['alone', 'between'] },
    ]);
  });

  /** A wall of 305 mm with jambs from face to face, and two panes between each pair of them. */
  const glazed = (jambs: readonly (readonly [number, number])[]): Line[] => [
    ...[0, 305].map((y) => line(0, y, 9000, y)),
    ...[0, 100].map((x) => line(x, 305, x, 4000)),
    ...jambs.flatMap(([from, to]) => [
      line(from, 0, from, 305),
      line(to, 0, to, 305),
      ...[140, 165].map((y) => line(from + 30, y, to - 30, y)),
    ]),
  ];

  it('are sure where what lies between their faces is a window from jamb to jamb, and tell where', () => {
    const [wall] = offersOf(
      strokes(
        ...glazed([
          [2000, 4000],
          [5000, 7500],
        ]),
      ),
    ).filter(({ thickness }) => thickness === 305);
    expect(wall).toMatchObject({ doubts: [] });
    const width = Math.abs(wall!.a[0] - wall!.b[0]);
    const along = wall!.windows.map((w) => (wall!.a[0] < wall!.b[0] ? w.along : width - w.along));
    const from = Math.min(wall!.a[0], wall!.b[0]);
    expect(along.map((far) => far + from).sort()).toEqual([3000, 6250]);
    expect(wall!.windows.map((window) => window.width).sort()).toEqual([1940, 2440]);
  });

  it('are in doubt where one of two such stretches has no jambs', () => {
    const bare = [140, 165].map((y) => line(5030, y, 7470, y));
    const [wall] = offersOf(strokes(...glazed([[2000, 4000]]), ...bare)).filter(
      ({ thickness }) => thickness === 305,
    );
    expect(wall!.doubts).toEqual(['between']);
    expect(wall!.windows).toHaveLength(1);
  });

  /** Two pieces of one wall with a corner at the left; between them lines at some heights. */
  const parted = (heights: readonly number[]): Line[] => [
    ...[0, 300].flatMap((y) => [line(0, y, 3000, y), line(6000, y, 9000, y)]),
    ...[3000, 6000, 9000].map((x) => line(x, 0, x, 300)),
    ...[0, 100, 8900, 9000].map((x) => line(x, 300, x, 4000)),
    ...heights.map((y) => line(3000, y, 6000, y)),
  ];
  const between = (lines: readonly Line[]) =>
    offersOf(strokes(...lines)).filter(
      ({ a, b }) => Math.min(a[0], b[0]) > 2000 && Math.max(a[0], b[0]) < 7000,
    );

  it('go on as a window where thin lines within their depth lead from piece to piece', () => {
    const [window, ...more] = between(parted([20, 90, 150, 170, 280]));
    expect(more).toEqual([]);
    expect(window).toMatchObject({ thickness: 260, doubts: [] });
    expect(window!.windows).toHaveLength(1);
    expect(window!.windows[0]!.width).toBe(3000);
  });

  it('go on as a window from pier to pier, and not once more from the wall before a pier', () => {
    const piers = [3000, 14_000].flatMap((x) => ring(...box(x, 0, x + 1000, 400)));
    const walls = [0, 300].flatMap((y) => [line(0, y, 3000, y), line(15_000, y, 18_000, y)]);
    const panes = [20, 150, 280].map((y) => line(4000, y, 14_000, y));
    const cross = [0, 100].map((x) => line(x, 300, x, 4000));
    const offers = offersOf(strokes(...piers, ...walls, ...panes, ...cross));
    expect(offers.flatMap(({ windows }) => windows)).toMatchObject([{ width: 10_000 }]);
    expect(offers.map(({ thickness }) => thickness).sort()).toEqual([100, 260, 300, 300, 400, 400]);
  });

  it.each<[string, number[]]>([
    ['only two lines lead across', [90, 170]],
    ['the lines are much thinner together than the wall', [140, 150, 160]],
    ['the lines lie before it', [500, 570, 630, 650, 760]],
  ])('do not go on as a window where %s', (_, heights) => {
    expect(between(parted(heights)).flatMap(({ windows }) => windows)).toEqual([]);
  });

  it('go on in piers, which are as sure as they are', () => {
    const pier = ring(...box(4000, -150, 5000, 450));
    const walls = [0, 300].flatMap((y) => [line(0, y, 4000, y), line(5000, y, 9000, y)]);
    const cross = [0, 100].map((x) => line(x, 300, x, 4000));
    const offers = offersOf(strokes(...pier, ...walls, ...cross));
    expect(offers.map(({ thickness, doubts }) => [thickness, ...doubts]).sort()).toEqual([
      [100],
      [300],
      [300],
      [600],
    ]);
    // The middle of each wall ends where that of the pier begins.
    expect(offers.filter(({ thickness }) => thickness === 300).map(ends)).toContain(
      '4300,150 – 50,150',
    );
  });

  it('that go on in one another are offered with doubt where nothing runs into them', () => {
    const boxes = [ring(...box(0, 0, 3000, 300)), ring(...box(3000, -60, 6000, 360))].flat();
    for (const { doubts } of offersOf(strokes(...boxes, ...room(20_000, 0, 26_000, 4000, 124))))
      if (doubts.length > 0) expect(doubts).toContain('alone');
    expect(offersOf(strokes(...boxes)).filter(({ doubts }) => doubts.length === 0)).toEqual([]);
  });

  it('are not made of the leaf of a door and what it stands open before', () => {
    const leaf = ring(...box(1000, 300, 1914, 335));
    const shelf = [line(700, 535, 4000, 535)];
    const offers = offersOf(strokes(...room(0, 0, 6000, 4000, 124), ...leaf, ...shelf));
    expect(offers).toHaveLength(4);
    expect(offers.every(({ thickness }) => thickness === 124)).toBe(true);
  });

  it('are offered with doubt where another seems to run right beside them', () => {
    const two = [0, 200, 300, 430].map((y) => line(0, y, 8000, y));
    const cross = [line(3000, 430, 3000, 4000), line(3120, 430, 3120, 4000)];
    const offers = offersOf(strokes(...two, ...cross));
    expect(offers.map(({ thickness, doubts }) => [thickness, ...doubts])).toEqual([
      [200, 'alone', 'beside'],
      [130, 'beside'],
      [120],
    ]);
  });

  it('go on beyond a doorway, however short they are there', () => {
    const wall = [0, 100].flatMap((y) => [line(0, y, 4000, y), line(4900, y, 5200, y)]);
    const cross = [line(0, 100, 0, 3000), line(100, 100, 100, 3000)];
    const offers = offersOf(strokes(...wall, ...cross));
    expect(offers.map(ends).sort()).toEqual([
      '3950,50 – 50,50',
      '4950,50 – 5150,50',
      '50,2950 – 50,50',
    ]);
    expect(offers.every(({ doubts }) => doubts.length === 0)).toBe(true);
  });

  it('are seen behind the open leaf of a door that lies before them', () => {
    const leaf = ring(...box(10, -120, 950, -80));
    const wall = [line(0, 0, 900, 0), line(0, 100, 900, 100), ...room(-3124, 0, -124, 3000, 124)];
    const joint = [line(0, -124, 0, 100)];
    expect(
      offersOf(strokes(...leaf, ...wall, ...joint)).map(({ thickness }) => thickness),
    ).toContain(100);
  });

  it('leave what was not understood, and say how much', () => {
    expect(findWalls(strokes(line(0, 0, 9000, 0), line(0, 5000, 300, 5000))).left).toBe(1);
    expect(findWalls(strokes(...room(0, 0, 6000, 4000, 124))).left).toBe(0);
    expect(findWalls({ lines: [], fills: [] })).toEqual({ offers: [], left: 0 });
  });
});

/** A dwelling of rooms in a row, turned and laid anywhere, drawn as pairs of lines, each a little off. */
const dwelling = fc.record({
  widths: fc.array(fc.integer({ min: 1500, max: 9000 }), { minLength: 1, maxLength: 5 }),
  depth: fc.integer({ min: 1500, max: 9000 }),
  thick: fc.integer({ min: 70, max: 350 }),
  turn: fc.double({ min: 0, max: 6.2, noNaN: true }),
  at: fc.tuple(fc.integer({ min: -1e6, max: 1e6 }), fc.integer({ min: -1e6, max: 1e6 })),
  noise: fc.array(fc.double({ min: -0.5, max: 0.5, noNaN: true }), {
    minLength: 97,
    maxLength: 97,
  }),
});
type Dwelling = typeof dwelling extends fc.Arbitrary<infer D> ? D : never;

function drawn({ widths, depth, thick: t, turn, at, noise }: Dwelling) {
  let count = 0;
  const off = () => noise[count++ % noise.length]!;
  const place = ([x, y]: Point): Point => [
    at[0] + x * Math.cos(turn) - y * Math.sin(turn),
    at[1] + x * Math.sin(turn) + y * Math.cos(turn),
  ];
  const noisy = (p: Point): Point => {
    const [x, y] = place(p);
    return [x + off(), y + off()];
  };
  const lines: Line[] = [];
  const middles: [Point, Point][] = [];
  const total = widths.reduce((sum, w) => sum + w + t, t);
  const add = (corners: readonly Point[]) => {
    for (const [i, a] of corners.entries())
      lines.push({ a: noisy(a), b: noisy(corners[(i + 1) % corners.length]!), width: 4 });
  };
  add(box(0, 0, total, depth + 2 * t));
  let x = t;
  for (const w of widths) {
    add(box(x, t, x + w, t + depth));
    middles.push([place([x - t / 2, t / 2]), place([x - t / 2, depth + 1.5 * t])]);
    x += w + t;
  }
  middles.push([place([x - t / 2, t / 2]), place([x - t / 2, depth + 1.5 * t])]);
  for (const y of [t / 2, depth + 1.5 * t])
    middles.push([place([t / 2, y]), place([total - t / 2, y])]);
  return { lines, middles };
}

describe('Walls of drawn rooms', () => {
  it('are all found to within 2 mm, and nothing else', () => {
    fc.assert(
      fc.property(dwelling, (home) => {
        const { lines, middles } = drawn(home);
        const offers = offersOf(strokes(...lines));
        expect(offers).toHaveLength(middles.length);
        for (const [a, b] of middles) {
          const near = offers.find(
            (o) =>
              Math.min(distance(o.a, a) + distance(o.b, b), distance(o.a, b) + distance(o.b, a)) <
              4,
          );
          expect(near, String([a, b])).toBeDefined();
          const off = Math.min(
            Math.max(distance(near!.a, a), distance(near!.b, b)),
            Math.max(distance(near!.a, b), distance(near!.b, a)),
          );
          expect(off).toBeLessThanOrEqual(2);
          expect(Math.abs(near!.thickness - home.thick)).toBeLessThanOrEqual(1.5);
        }
      }),
      run,
    );
  });

  it('lie between two drawn lines, whatever is drawn', () => {
    const scribble = fc.array(
      fc.record({
        x: fc.integer({ min: 0, max: 60 }),
        y: fc.integer({ min: 0, max: 60 }),
        long: fc.integer({ min: 1, max: 40 }),
        upright: fc.boolean(),
      }),
      { maxLength: 70 },
    );
    fc.assert(
      fc.property(scribble, (pieces) => {
        const lines = pieces.map(({ x, y, long, upright }) =>
          upright
            ? line(x * 100, y * 100, x * 100, (y + long) * 100)
            : line(x * 100, y * 100, (x + long) * 100, y * 100),
        );
        for (const offer of offersOf(strokes(...lines)))
          expect(shareBetween(offer, lines)).toBeGreaterThan(0.5);
      }),
      { ...run, numRuns: 400 },
    );
  });
});

/** The share of a wall's length along which both its faces are drawn. */
function shareBetween({ a, b, thickness: t }: WallOffer, lines: readonly Line[]): number {
  const length = distance(a, b);
  const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const steps = 100;
  let both = 0;
  for (let i = 0; i <= steps; i++) {
    const far = (length * i) / steps;
    const faced = [-t / 2, t / 2].every((by) => {
      const p: Point = [a[0] + ux * far - uy * by, a[1] + uy * far + ux * by];
      return lines.some((l) => distance(nearestOnSegment(l.a, l.b, p), p) <= 3);
    });
    if (faced) both++;
  }
  return both / (steps + 1);
}

describe('Stretches that nothing lies on', () => {
  const bar = { a: [0, 0] as Point, b: [5000, 0] as Point, thickness: 100 };
  it('are cut round what lies in the same line, and by nothing else', () => {
    expect(bareStretches(bar, [])).toEqual([[0, 5000]]);
    expect(bareStretches(bar, [{ a: [3000, 20], b: [1000, 20], thickness: 100 }])).toEqual([
      [0, 950],
      [3050, 5000],
    ]);
    expect(bareStretches(bar, [{ a: [1000, 200], b: [3000, 200], thickness: 100 }])).toEqual([
      [0, 5000],
    ]);
    expect(bareStretches(bar, [{ a: [2000, -900], b: [2000, 900], thickness: 100 }])).toEqual([
      [0, 5000],
    ]);
  });
});
