import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import { type Drawn, findWalls } from '../../../src/geometry/wall-finder/find-walls.ts';

type Line = Drawn['lines'][number];

const line = (ax: number, ay: number, bx: number, by: number): Line => ({
  a: [ax, ay],
  b: [bx, by],
  width: 18,
});
const row = (count: number, draw: (i: number) => readonly Line[]): Line[] =>
  Array.from({ length: count }, (_, i) => draw(i)).flat();
const box = (x: number, y: number, w: number, h: number): Line[] => [
  line(x, y, x + w, y),
  line(x + w, y, x + w, y + h),
  line(x + w, y + h, x, y + h),
  line(x, y + h, x, y),
];
/** An upright axis, solid or as dashes and dots that are lines of their own. */
const axis = (x: number, dashed: boolean): Line[] =>
  dashed
    ? row(15, (i) => [
        line(x, 3000 + i * 1200, x, 3900 + i * 1200),
        line(x, 4030 + i * 1200, x, 4070 + i * 1200),
      ])
    : [line(x, 3000, x, 20_500)];

/** The walls of a building of 20 × 12 m, and nothing else. */
function walls(): Drawn {
  const [x0, y0, x1, y1, t] = [6000, 6000, 26_000, 18_000, 300];
  const door = (x: number): Line[] => [line(x, y0 + t, x, 8000), line(x, 8900, x, y1 - t)];
  return {
    lines: [
      ...box(x0, y0, x1 - x0, y1 - y0),
      ...box(x0 + t, y0 + t, x1 - x0 - 2 * t, y1 - y0 - 2 * t),
      ...door(12_000),
      ...door(12_100),
      line(12_000, 8000, 12_100, 8000),
      line(12_000, 8900, 12_100, 8900),
      line(12_100, 11_000, x1 - t, 11_000),
      line(12_100, 11_124, x1 - t, 11_124),
    ],
    fills: [
      [
        [
          [19_000, 11_124],
          [19_200, 11_124],
          [19_200, y1 - t],
          [19_000, y1 - t],
        ],
      ],
    ],
  };
}
const WALLS = [
  '12050,11062 25850,11062 124',
  '12050,6150 12050,7950 100',
  '12050,8950 12050,17850 100',
  '19100,11062 19100,17850 200',
  '25850,6150 25850,17850 300',
  '6150,17850 25850,17850 300',
  '6150,6150 25850,6150 300',
  '6150,6150 6150,17850 300',
];

const arc = (x: number, y: number, r: number): Line[] =>
  row(16, (i) => {
    const at = (k: number): Point => [
      x + r * Math.cos((k * Math.PI) / 32),
      y + r * Math.sin((k * Math.PI) / 32),
    ];
    return [{ a: at(i), b: at(i + 1), width: 13 }];
  });

/** What else stands on a sheet at 1:100. */
const PARTS: Readonly<Record<string, readonly Line[]>> = {
  border: [...box(1000, 1000, 40_000, 27_700), ...box(1500, 1500, 39_000, 26_700)],
  'title block': [
    ...box(30_500, 24_200, 10_000, 4000),
    ...row(7, (i) => [line(30_500, 24_700 + i * 500, 40_500, 24_700 + i * 500)]),
    line(33_500, 24_200, 33_500, 28_200),
  ],
  legend: [
    ...row(9, (i) => [line(28_500, 8000 + i * 400, 34_500, 8000 + i * 400)]),
    ...[28_500, 30_000, 34_500].map((x) => line(x, 8000, x, 11_200)),
  ],
  'hatch of a wall': row(133, (i) => [line(6000 + i * 150, 6300, 6300 + i * 150, 6000)]),
  'a door': [...box(12_100, 8000, 900, 40), ...arc(12_100, 8000, 900)],
  'a stair': [
    ...row(13, (i) => [line(7000 + i * 280, 15_000, 7000 + i * 280, 16_200)]),
    line(7000, 15_000, 10_360, 15_000),
    line(7000, 16_200, 10_360, 16_200),
  ],
  furniture: [
    ...row(4, (i) => box(13_500 + i * 2600, 7000, 1600, 800)),
    ...row(3, (i) => box(13_500 + i * 2600, 9800, 2000, 400)),
    ...box(20_500, 13_000, 2400, 600),
    ...box(20_500, 14_500, 450, 1800),
  ],
  'a counter along a wall': [line(6300, 6900, 11_900, 6900)],
  columns: [...box(15_000, 13_500, 400, 400), ...box(22_000, 13_500, 400, 400)],
  dimensions: [4500, 5000].flatMap((y) => [
    line(6000, y, 26_000, y),
    ...[6000, 8000, 12_000, 16_000, 19_000, 26_000].flatMap((x) => [
      line(x, y - 200, x, y + 250),
      line(x - 80, y + 80, x + 80, y - 80),
    ]),
  ]),
  axes: [6150, 12_050, 25_850].flatMap((x) => axis(x, false)),
  'axes of dashes': [6150, 12_050, 25_850].flatMap((x) => axis(x, true)),
  letters: row(300, (i) => {
    const [x, y] = [31_000 + (i % 60) * 130, 20_000 + Math.floor(i / 60) * 400];
    return [line(x, y, x, y + 180), line(x, y, x + 90, y)];
  }),
};

const found = ({ lines, fills }: Drawn): string[] =>
  findWalls({ lines, fills })
    .offers.map(({ a, b, thickness }) => {
      const [p, q] = [a, b].sort((m, n) => m[0] - n[0] || m[1] - n[1]);
      return `${p!.join()} ${q!.join()} ${thickness}`;
    })
    .sort();

describe('The walls of a sheet', () => {
  it('are found where nothing else is drawn', () => {
    expect(found(walls())).toEqual(WALLS);
  });

  it.each(Object.keys(PARTS))('are the same with %s on it', (part) => {
    const { lines, fills } = walls();
    expect(found({ lines: [...lines, ...PARTS[part]!], fills })).toEqual(WALLS);
  });

  it('are found among a hundred thousand lines without a long wait', () => {
    const rooms = row(100, (i) => {
      const [x, y] = [(i % 10) * 20_000, Math.floor(i / 10) * 20_000];
      return [...box(x, y, 6000, 4000), ...box(x - 124, y - 124, 6248, 4248)];
    });
    const hatch = row(600, (i) => {
      const [x, y] = [(i % 25) * 8000, Math.floor(i / 25) * 8000 + 5000];
      return row(120, (k) => [line(x + k * 20, y, x + k * 20 + 1500, y + 1500)]);
    });
    const words = row(28_000, (i) => {
      const [x, y] = [(i % 400) * 500, Math.floor(i / 400) * 2600 + 13_000];
      return [line(x, y, x + (i % 7) * 9 + 20, y + (i % 11) * 8)];
    });
    const lines = [...rooms, ...hatch, ...words];
    expect(lines.length).toBeGreaterThan(100_000);
    const { offers } = findWalls({ lines, fills: [] });
    expect(offers.filter(({ thickness }) => thickness === 124)).toHaveLength(400);
    expect(offers).toHaveLength(400);
  });

  it('are the same with all of it, and whatever way it lies', () => {
    const { lines, fills } = walls();
    const all = { lines: [...lines, ...Object.values(PARTS).flat()], fills };
    expect(found(all)).toEqual(WALLS);
    const turned = ([x, y]: Point): Point => [x * 0.28 - y * 0.96 - 7e5, x * 0.96 + y * 0.28];
    const { offers } = findWalls({
      lines: all.lines.map(({ a, b, width }) => ({ a: turned(a), b: turned(b), width })),
      fills: fills.map((rings) => rings.map((ring) => ring.map(turned))),
    });
    expect(offers.map(({ thickness }) => thickness).sort()).toEqual(
      WALLS.map((wall) => Number(wall.split(' ').at(-1))).sort(),
    );
  });
});
