import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FOOT } from '../../../src/base/units.ts';
import { largestScale, standardScales } from '../../../src/sheets/scale.ts';

describe('scale of a sheet', () => {
  it("is one of the architect's scales in feet, one of the 1-2-5 row in metres", () => {
    expect(standardScales('ft').map(({ ratio }) => ratio)).toEqual([
      12, 16, 24, 32, 48, 64, 96, 128, 192, 384,
    ]);
    expect(standardScales('m').map(({ words }) => words)).toEqual([
      '1:20',
      '1:50',
      '1:100',
      '1:200',
      '1:500',
    ]);
  });

  it('says in words what its ratio is', () => {
    for (const { ratio, words } of standardScales('ft')) {
      const inch = /^(?:(\d+)|(\d+)\/(\d+))" = 1'-0"$/.exec(words)!;
      const inches = inch[1] ? Number(inch[1]) : Number(inch[2]) / Number(inch[3]);
      expect(12 / inches).toBe(ratio);
    }
  });

  it('is the largest at which the building fits: 60 × 72 ft on both sides of 1/8" = 1\'-0"', () => {
    const size = { width: 60 * FOOT, height: 72 * FOOT };
    const exact = { width: size.width / 96, height: size.height / 96 };
    expect(largestScale('ft', size, exact)!.words).toBe('1/8" = 1\'-0"');
    expect(largestScale('ft', size, { ...exact, width: exact.width - 0.01 })!.words).toBe(
      '3/32" = 1\'-0"',
    );
    expect(largestScale('ft', size, { ...exact, height: exact.height - 0.01 })!.words).toBe(
      '3/32" = 1\'-0"',
    );
  });

  it('fits, and the next larger one does not', () => {
    const length = fc.integer({ min: 100, max: 150_000 });
    fc.assert(
      fc.property(length, length, fc.constantFrom('ft', 'm' as const), (width, height, units) => {
        const window = { width: 180, height: 150 };
        const scale = largestScale(units, { width, height }, window);
        const fits = (ratio: number) =>
          width / ratio <= window.width && height / ratio <= window.height;
        const all = standardScales(units);
        if (scale === null) return !fits(all.at(-1)!.ratio);
        const larger = all[all.indexOf(scale) - 1];
        return fits(scale.ratio) && !(larger && fits(larger.ratio));
      }),
      { seed: 5 },
    );
  });

  it('is none for a building that even the smallest cannot show', () => {
    expect(
      largestScale('m', { width: 600_000, height: 10 }, { width: 100, height: 100 }),
    ).toBeNull();
  });
});
