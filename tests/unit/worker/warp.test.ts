import { describe, expect, it } from 'vitest';
import { type Corners, homography } from '../../../src/geometry/homography.ts';
import { type Pixels, warp } from '../../../src/worker/warp.ts';

const blank = (width: number, height: number): Pixels => ({
  data: new Uint8ClampedArray(4 * width * height),
  width,
  height,
});

function painted(width: number, height: number, red: (x: number, y: number) => number): Pixels {
  const pixels = blank(width, height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) pixels.data.set([red(x, y), 7, 9, 255], 4 * (y * width + x));
  return pixels;
}

const redAt = ({ data, width }: Pixels, x: number, y: number): number => data[4 * (y * width + x)]!;
const corners = (w: number, h: number): Corners => [
  [0, 0],
  [w, 0],
  [w, h],
  [0, h],
];

describe('A picture drawn anew through a map', () => {
  it('stays as it is where nothing moves', () => {
    const from = painted(9, 7, (x, y) => 20 * x + y);
    const to = blank(9, 7);
    warp(from, to, [1, 0, 0, 0, 1, 0, 0, 0]);
    expect(to.data).toEqual(from.data);
  });

  it('takes what lies within four corners: a sheet seen aslant is upright again', () => {
    // A checkerboard of 8 by 6 fields, seen by a camera from the left and below.
    const seen: Corners = [
      [40, 30],
      [300, 60],
      [260, 220],
      [70, 250],
    ];
    const toSheet = homography(seen, corners(8, 6))!;
    const from = painted(340, 280, (x, y) => {
      const w = toSheet[6]! * (x + 0.5) + toSheet[7]! * (y + 0.5) + 1;
      const u = (toSheet[0]! * (x + 0.5) + toSheet[1]! * (y + 0.5) + toSheet[2]!) / w;
      const v = (toSheet[3]! * (x + 0.5) + toSheet[4]! * (y + 0.5) + toSheet[5]!) / w;
      return (Math.floor(u) + Math.floor(v)) % 2 === 0 ? 240 : 10;
    });
    const to = blank(320, 240);
    warp(from, to, homography(corners(320, 240), seen)!);
    for (let row = 0; row < 6; row++)
      for (let column = 0; column < 8; column++)
        expect(redAt(to, 40 * column + 20, 40 * row + 20)).toBe((row + column) % 2 ? 10 : 240);
  });

  it('mixes neighbours between pixels, and is white beyond the picture', () => {
    const from = painted(2, 1, (x) => 100 * x);
    const to = blank(4, 1);
    warp(from, to, [0.5, 0, 0, 0, 1, 0, 0, 0]);
    expect([0, 1, 2, 3].map((x) => redAt(to, x, 0))).toEqual([0, 25, 75, 100]);
    warp(from, to, [1, 0, 5, 0, 1, 0, 0, 0]);
    expect([...to.data.subarray(0, 4)]).toEqual([255, 255, 255, 255]);
  });
});
