import { describe, expect, it } from 'vitest';
import { lightShare } from '../../../src/worker/light-share.ts';

type Rgb = readonly [number, number, number];
const pixels = (...runs: readonly (readonly [count: number, colour: Rgb])[]): Uint8ClampedArray =>
  Uint8ClampedArray.from(
    runs.flatMap(([count, colour]) => Array.from({ length: count }, () => [...colour, 255]).flat()),
  );

describe('The share of a picture that is paper', () => {
  it('is all but the lines of a drawing, white or yellowed, or grey under a lamp', () => {
    for (const paper of [
      [255, 255, 255],
      [240, 232, 205],
      [172, 168, 160],
    ] as const)
      expect(lightShare(pixels([90, paper], [10, [20, 20, 30]]))).toBeCloseTo(0.9, 9);
  });

  it('is little of a photo: grass, brick, sky and shade are none of it', () => {
    for (const colour of [
      [90, 120, 60],
      [170, 90, 70],
      [150, 190, 240],
      [60, 60, 60],
    ] as const)
      expect(lightShare(pixels([70, colour], [30, [230, 230, 230]]))).toBeCloseTo(0.3, 9);
  });

  it('is all of nothing', () => {
    expect(lightShare(pixels())).toBe(1);
  });
});
