import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  aspectOf,
  type Corners,
  homography,
  isConvex,
  mapped,
  straightSize,
} from '../../../src/geometry/homography.ts';
import type { Point } from '../../../src/geometry/point.ts';

const rectangle = (w: number, h: number): Corners => [
  [0, 0],
  [w, 0],
  [w, h],
  [0, h],
];
const PHOTO = { width: 4000, height: 3000 };

/** A rectangle seen by a camera: turned about the vertical and the level axis, then laid through a lens. */
function seen(w: number, h: number, yaw: number, pitch: number, focal: number): Corners {
  const far = 2.2 * Math.max(w, h);
  const at = (x: number, y: number): Point => {
    const [cy, sy] = [Math.cos(yaw), Math.sin(yaw)];
    const [cp, sp] = [Math.cos(pitch), Math.sin(pitch)];
    const [x1, z1] = [x * cy, x * sy];
    const [y2, z2] = [y * cp - z1 * sp, y * sp + z1 * cp];
    const f = focal * Math.hypot(PHOTO.width, PHOTO.height);
    return [2000 + (f * x1) / (far + z2), 1500 + (f * y2) / (far + z2)];
  };
  return [at(-w / 2, -h / 2), at(w / 2, -h / 2), at(w / 2, h / 2), at(-w / 2, h / 2)];
}

const tilt = fc.double({ min: 0.12, max: 0.6, noNaN: true });
const sign = fc.constantFrom(-1, 1);

describe('a map by four corners', () => {
  test('takes each corner to its own, and comes back the same way', () => {
    const jitter = fc.integer({ min: -30, max: 30 });
    const four = fc
      .tuple(...Array.from({ length: 8 }, () => jitter))
      .map(
        (j): Corners =>
          rectangle(100, 80).map(([x, y], i): Point => [x + j[2 * i]!, y + j[2 * i + 1]!]) as never,
      );
    fc.assert(
      fc.property(
        four,
        fc.integer({ min: 10, max: 90 }),
        fc.integer({ min: 10, max: 70 }),
        (from, x, y) => {
          fc.pre(isConvex(from));
          const to = rectangle(640, 480);
          const there = homography(from, to)!;
          const back = homography(to, from)!;
          from.forEach((corner, i) => {
            const [u, v] = mapped(there, corner);
            expect(u).toBeCloseTo(to[i]![0], 6);
            expect(v).toBeCloseTo(to[i]![1], 6);
          });
          const inside = mapped(back, [6 * x, 6 * y]);
          const [u, v] = mapped(there, inside);
          expect(u).toBeCloseTo(6 * x, 4);
          expect(v).toBeCloseTo(6 * y, 4);
        },
      ),
      { seed: 3, numRuns: 300 },
    );
  });

  test('keeps straight lines straight', () => {
    const h = homography(
      [
        [0, 0],
        [90, 10],
        [80, 70],
        [5, 60],
      ],
      rectangle(100, 100),
    )!;
    const [a, b, c] = [mapped(h, [10, 10]), mapped(h, [40, 30]), mapped(h, [70, 50])];
    const area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    expect(area).toBeCloseTo(0, 6);
  });

  test('there is none for corners that cross, fold or lie in a line', () => {
    const [a, b, c, d] = rectangle(10, 10);
    const middle: Point = [5, 0];
    const bad: Corners[] = [
      [a, c, b, d],
      [d, c, b, a],
      [a, b, middle, d],
      [a, b, c, [6, 3]],
      [a, a, c, d],
    ];
    for (const corners of bad) expect(homography(corners, rectangle(5, 5))).toBeNull();
  });
});

describe('the shape of a sheet in a photo', () => {
  test('is found again however the camera was held', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.4, max: 2.5, noNaN: true }),
        tilt,
        tilt,
        sign,
        sign,
        fc.double({ min: 0.5, max: 2, noNaN: true }),
        (aspect, yaw, pitch, a, b, focal) => {
          const corners = seen(aspect * 1000, 1000, a * yaw, b * pitch, focal);
          fc.pre(isConvex(corners));
          expect(aspectOf(corners, PHOTO) / aspect).toBeCloseTo(1, 3);
        },
      ),
      { seed: 5, numRuns: 300 },
    );
  });

  test('is near even where the photo does not tell the lens: looked at from one side only', () => {
    const corners = seen(1500, 1000, 0, 0.4, 0.62);
    expect(aspectOf(corners, PHOTO) / 1.5).toBeCloseTo(1, 1);
  });

  test('of a sheet seen straight on is its own', () => {
    const [a, b, c, d] = rectangle(1200, 900).map(([x, y]): Point => [x + 300, y + 200]);
    expect(aspectOf([a!, b!, c!, d!], PHOTO)).toBeCloseTo(4 / 3, 9);
    expect(straightSize([a!, b!, c!, d!], PHOTO)).toEqual({ width: 1200, height: 900 });
  });

  test('a straight picture is as fine as the photo was on its longer sides', () => {
    const corners: Corners = [
      [1000, 500],
      [3000, 500],
      [3500, 2500],
      [500, 2500],
    ];
    const { width, height } = straightSize(corners, PHOTO);
    expect(width).toBeGreaterThanOrEqual(3000);
    expect(width / height).toBeCloseTo(aspectOf(corners, PHOTO), 2);
  });
});
