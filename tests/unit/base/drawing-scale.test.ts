import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatScale, parseScale, USUAL_SCALES } from '../../../src/base/drawing-scale.ts';

describe('a printed scale', () => {
  test.each([
    ['1/8" = 1\'-0"', 96],
    ['1/8"=1\'', 96],
    ['1/8 in = 1 ft', 96],
    ['1/8 inch equals 1 foot', 96],
    ['1/4 inch to 1 ft', 48],
    ['1/4 inch to 1 ft scale', 48],
    ['1/4 inch to the foot', 48],
    ['1/8" per foot', 96],
    ['1/8" to a foot', 96],
    ['2 cm to the metre', 50],
    ['1/48th scale', 48],
    ['Scale: 3/32" = 1\'-0"', 128],
    ['SCALE 3/16″ = 1′-0″', 64],
    ['1 1/2" = 1\'-0"', 8],
    ['3" = 1\'', 4],
    ['1" = 20\'', 240],
    ["1/8 = 1'", 96],
    ['1" = 1"', 1],
    ['1 cm = 1 m', 100],
    ['2 cm = 1 m', 50],
    ['1:100', 100],
    ['1 : 96', 96],
    ['1/100', 100],
    ['2:1', 0.5],
    ['1 = 100', 100],
    ['1:50 (A1)', 50],
    ['1:12,5', 12.5],
  ])('%s is 1 to %s', (text, ratio) => {
    expect(parseScale(text)).toBeCloseTo(ratio, 9);
  });

  test.each([
    '',
    'as noted',
    'NTS',
    '1:0',
    '0:100',
    '1/8"',
    "= 1'",
    '1/8" = ',
    '1:9999999',
    '1/0" = 1\'',
    'a = b = c',
  ])('%s is none', (text) => {
    expect(parseScale(text)).toBeNull();
  });

  test.each([
    [96, 'ft', '1/8" = 1\'-0"'],
    [48.1, 'ft', '1/4" = 1\'-0"'],
    [240, 'ft', '1" = 20\''],
    [128, 'ft', '3/32" = 1\'-0"'],
    [100, 'ft', '1:100'],
    [96, 'm', '1:96'],
    [100.2, 'm', '1:100'],
    [87.35, 'm', '1:87'],
    [2.5, 'm', '1:2.5'],
    [0.5, 'm', '2:1'],
    [Number.NaN, 'm', '-'],
    [0, 'ft', '-'],
  ] as const)('%s in %s is written %s', (ratio, units, text) => {
    expect(formatScale(ratio, units)).toBe(text);
  });

  test('what is written can be read again, to within half a percent', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 20_000, noNaN: true }),
        fc.constantFrom('ft', 'm'),
        (ratio, units) => {
          const read = parseScale(formatScale(ratio, units));
          expect(Math.abs(read! / ratio - 1)).toBeLessThan(
            0.051 / Math.min(10, Math.max(ratio, 1 / ratio)) + 0.0051,
          );
        },
      ),
      { seed: 11, numRuns: 500 },
    );
  });

  test('the usual scales are written by their names', () => {
    for (const ratio of USUAL_SCALES.ft) expect(formatScale(ratio, 'ft')).toMatch(/" = 1'-0"$/);
    for (const ratio of USUAL_SCALES.m) expect(formatScale(ratio, 'm')).toBe(`1:${ratio}`);
  });
});
