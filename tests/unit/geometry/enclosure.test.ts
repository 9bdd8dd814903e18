import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { enclosure } from '../../../src/geometry/enclosure.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { doubleArea, insidePolygon } from '../../../src/geometry/polygon.ts';
import type { Barrier } from '../../../src/geometry/wall-net.ts';

const wall = (x0: number, y0: number, x1: number, y1: number, thickness = 124): Barrier => ({
  a: [x0, y0],
  b: [x1, y1],
  thickness,
});
const box = [
  wall(0, 0, 6000, 0),
  wall(6000, 0, 6000, 4000),
  wall(6000, 4000, 0, 4000),
  wall(0, 4000, 0, 0),
];
const corners = (found: ReturnType<typeof enclosure>): string[] =>
  found.closed ? found.outline.map(String).sort() : [];
const BOX = ['0,0', '0,4000', '6000,0', '6000,4000'];

describe('What closes round a place', () => {
  it('is the outline along the middle of the walls, clockwise', () => {
    const found = enclosure(box, [3000, 2000]);
    expect(corners(found)).toEqual(BOX);
    expect(found.closed && doubleArea(found.outline) > 0).toBe(true);
  });

  it('is nothing outside, and nothing where no wall stands', () => {
    expect(enclosure(box, [9000, 2000])).toEqual({ closed: false, leaks: [], outline: [] });
    expect(enclosure([], [0, 0])).toEqual({ closed: false, leaks: [], outline: [] });
  });

  it('is one side of a partition that ends at the faces of the walls', () => {
    const walls = [...box, wall(2500, 62, 2500, 3938)];
    expect(corners(enclosure(walls, [1000, 1000]))).toEqual([
      '0,0',
      '0,4000',
      '2500,0',
      '2500,4000',
    ]);
    expect(corners(enclosure(walls, [3000, 1000]))).toEqual([
      '2500,0',
      '2500,4000',
      '6000,0',
      '6000,4000',
    ]);
  });

  it('goes round walls that cross, and over those that lead nowhere or stand free', () => {
    const crossing = [...box, wall(-500, 2000, 6500, 2000)];
    expect(corners(enclosure(crossing, [3000, 1000]))).toEqual([
      '0,0',
      '0,2000',
      '6000,0',
      '6000,2000',
    ]);
    const stub = [...box, wall(3000, 0, 3000, 1500), wall(4000, 1000, 4500, 1000)];
    expect(corners(enclosure(stub, [1000, 1000]))).toEqual(BOX);
  });

  it('is the innermost of rooms in one another', () => {
    const inner = [
      wall(2000, 1000, 4000, 1000),
      wall(4000, 1000, 4000, 3000),
      wall(4000, 3000, 2000, 3000),
      wall(2000, 3000, 2000, 1000),
    ];
    expect(corners(enclosure([...box, ...inner], [3000, 2000]))).toEqual([
      '2000,1000',
      '2000,3000',
      '4000,1000',
      '4000,3000',
    ]);
    expect(corners(enclosure([...box, ...inner], [1000, 2000]))).toEqual(BOX);
  });

  /** The bodies of walls go on beyond their ends by half their thickness; the gap is that between them. */
  const withGap = (gap: number): Barrier[] => [
    ...box.slice(1),
    wall(0, 0, 2000 - 62, 0),
    wall(2000 + gap + 62, 0, 6000, 0),
  ];

  it('passes over a doorway in a wall, up to 1.2 m and not a millimetre more', () => {
    const found = enclosure(withGap(1200), [3000, 2000]);
    expect(corners(found)).toEqual(BOX);
    expect(found.closed && found.bridged.length).toBeGreaterThan(0);
    expect(enclosure(withGap(1201), [3000, 2000]).closed).toBe(false);
  });

  it('passes over a doorway at a corner, on to the wall ahead', () => {
    const walls = [...box.slice(1), wall(1000, 0, 6000, 0)];
    expect(corners(enclosure(walls, [3000, 2000]))).toEqual(BOX);
  });

  it('passes over a doorway in a thick wall as over one in a thin wall', () => {
    const thick = (gap: number) => [
      ...box.slice(1),
      wall(0, 0, 2000 - 200, 0, 400),
      wall(2000 + gap + 200, 0, 6000, 0, 400),
    ];
    expect(corners(enclosure(thick(1200), [3000, 2000]))).toEqual(BOX);
    expect(enclosure(thick(1201), [3000, 2000]).closed).toBe(false);
  });

  it('has a corner where two walls lack no more than that', () => {
    const walls = [...box.slice(1, 3), wall(300, 0, 6000, 0), wall(0, 4000, 0, 1000)];
    expect(corners(enclosure(walls, [3000, 2000]))).toEqual(BOX);
    const apart = [...box.slice(1, 3), wall(1000, 0, 6000, 0), wall(0, 4000, 0, 1000)];
    expect(enclosure(apart, [3000, 2000]).closed).toBe(false);
  });

  it('says where it leaks', () => {
    const found = enclosure(withGap(1800), [3000, 2000]);
    expect(found).toMatchObject({ closed: false });
    expect(!found.closed && found.leaks.map((leak) => leak.map(String).sort())).toEqual([
      ['2000,0', '3800,0'],
    ]);
  });

  it('says of a hall only where it leaks to the outside, not where its rooms open into it', () => {
    const hall = [
      wall(0, 0, 3000, 0),
      wall(6000, 0, 12_000, 0),
      wall(12_000, 0, 12_000, 8000),
      wall(12_000, 8000, 0, 8000),
      wall(0, 8000, 0, 0),
      // A room in the corner, open over 2 m, and a stub across from its jamb.
      wall(8000, 8000, 8000, 4000),
      wall(8000, 4000, 9000, 4000),
      wall(11_000, 4000, 12_000, 4000),
      wall(4000, 8000, 4000, 6000),
    ];
    const inHall = enclosure(hall, [2000, 2000]);
    expect(!inHall.closed && inHall.leaks.map((leak) => leak.map(String).sort())).toEqual([
      ['3062,0', '5938,0'],
    ]);
    expect(doubleArea(inHall.outline) / 2e6).toBe(96);
    const inRoom = enclosure(hall, [10_000, 6000]);
    expect(!inRoom.closed && inRoom.leaks.map((leak) => leak.map(String).sort())).toEqual([
      ['10938,4000', '9062,4000'],
    ]);
    expect(doubleArea(inRoom.outline) / 2e6).toBe(16);
  });

  it('goes on in a wall that touches the last one beside its end', () => {
    const beside = [
      ...box.slice(1),
      wall(0, 0, 2000, 0),
      // Bodies that touch at a corner: the middles are 45 degrees off the way that either wall goes.
      wall(2130, 130, 4000, 130),
      wall(4130, 0, 6000, 0),
    ];
    expect(enclosure(beside, [3000, 2000])).toMatchObject({ closed: true });
  });

  it('finds rooms whose walls are slanted and a little apart', () => {
    const walls = [wall(0, 0, 5000, 30), wall(5040, 0, 2500, 4000), wall(2540, 3990, 20, 30)];
    const found = enclosure(walls, [2500, 1500]);
    expect(found.closed && found.outline.length).toBe(3);
  });

  it('tiles a grid of rooms: every cell once, none missing', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 4 }),
        fc.uniqueArray(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 0, max: 9999 }),
        fc.integer({ min: 0, max: 9999 }),
        (across, down, x, y) => {
          const xs = [0, ...across.map((n) => n * 1000), 10_000].sort((a, b) => a - b);
          const ys = [0, ...down.map((n) => n * 1000), 10_000].sort((a, b) => a - b);
          const walls = [
            ...xs.map((v) => wall(v, 0, v, 10_000)),
            ...ys.map((v) => wall(0, v, 10_000, v)),
          ];
          const at: Point = [x + 0.5, y + 0.5];
          const found = enclosure(walls, at);
          const next = (list: number[], v: number) => list.find((n) => n > v)!;
          const last = (list: number[], v: number) => list.filter((n) => n <= v).at(-1)!;
          const size = (next(xs, at[0]) - last(xs, at[0])) * (next(ys, at[1]) - last(ys, at[1]));
          expect(found.closed && doubleArea(found.outline) / 2).toBe(size);
          expect(found.closed && insidePolygon(found.outline, ...at)).toBe(true);
        },
      ),
      { seed: 5, numRuns: 80 },
    );
  });
});
