import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  FOOT,
  formatLength,
  formatMoney,
  formatTotal,
  hasTooManyInches,
  INCH,
  parseLength,
  toCents,
} from '../../../src/base/units.ts';

const seed = { seed: 1959, numRuns: 500 };

describe('reading a length in a job in feet', () => {
  it.each([
    ['12', 12 * FOOT],
    ["12'", 12 * FOOT],
    ['12 ft', 12 * FOOT],
    ['12 feet', 12 * FOOT],
    ['12-6', 12 * FOOT + 6 * INCH],
    ['12 - 6', 12 * FOOT + 6 * INCH],
    ['12 6', 12 * FOOT + 6 * INCH],
    ['12\'6"', 12 * FOOT + 6 * INCH],
    ['12\'-6"', 12 * FOOT + 6 * INCH],
    ['12\' 6"', 12 * FOOT + 6 * INCH],
    ["12'6", 12 * FOOT + 6 * INCH],
    ['12 ft 6 in', 12 * FOOT + 6 * INCH],
    ['12ft. 6in.', 12 * FOOT + 6 * INCH],
    ['12 6 1/2', 12 * FOOT + 6.5 * INCH],
    ['12-6 1/2', 12 * FOOT + 6.5 * INCH],
    ['12\'-6 1/2"', 12 * FOOT + 6.5 * INCH],
    ['12\'6-1/2"', 12 * FOOT + 6.5 * INCH],
    ["12.5'", 12.5 * FOOT],
    ['12.5', 12.5 * FOOT],
    ['.5', 0.5 * FOOT],
    ['6"', 6 * INCH],
    ['6 1/2"', 6.5 * INCH],
    ['6-1/2"', 6.5 * INCH],
    ['1/2"', 0.5 * INCH],
    ['12\u2019 6\u201d', 12 * FOOT + 6 * INCH],
    ['12\u2032 6\u2033', 12 * FOOT + 6 * INCH],
    ["12' 6''", 12 * FOOT + 6 * INCH],
    ['12\u20136', 12 * FOOT + 6 * INCH],
    ['3.8m', 3800],
    ['3.8 metres', 3800],
    ['380cm', 380 * 10],
    ['3810 mm', 3810],
    ['3,8 m', 3800],
    ['  12  ', 12 * FOOT],
    ["-1'6", -(FOOT + 6 * INCH)],
    ['0', 0],
  ])('takes %s', (text, mm) => {
    expect(parseLength(text, 'ft')).toBeCloseTo(mm, 6);
  });

  it.each([
    '',
    ' ',
    '-',
    "'",
    '"',
    'abc',
    '12x',
    "6'6'",
    '12\'6"3',
    '1/0"',
    "1'2/0",
    '1e3',
    '--5"',
    '1 2 3',
    '12,5',
    '9'.repeat(400),
    'Infinity',
    'NaN',
    '12..5',
    "12'6' 1/2",
    '12\'-13"',
    "12'12",
    '12-12',
    '0 14 1/2',
    '-1\'12.5"',
  ])('does not take %s for one', (text) => {
    expect(parseLength(text, 'ft')).toBeNull();
  });

  it('tells twelve inches and more after the feet from what is no length at all', () => {
    for (const text of ['12\'-13"', '12-12', '12 12 1/2', '1\'12.0"'])
      expect(hasTooManyInches(text, 'ft')).toBe(true);
    for (const text of ['12\'-11 15/16"', '13"', '144"', '13', 'abc', ''])
      expect(hasTooManyInches(text, 'ft')).toBe(false);
  });

  it('takes inches alone, however many', () => {
    expect(parseLength('13"', 'ft')).toBeCloseTo(13 * INCH, 6);
    expect(parseLength('29 1/2"', 'ft')).toBeCloseTo(29.5 * INCH, 6);
  });

  it('reads -0 as zero, not as a negative zero', () => {
    expect(Object.is(parseLength('-0', 'ft'), 0)).toBe(true);
  });
});

describe('reading a length in a job in metres', () => {
  it.each([
    ['3.8', 3800],
    ['3,8', 3800],
    ['3', 3000],
    ['12\'6"', 12 * FOOT + 6 * INCH],
    ['50 cm', 500],
  ])('takes %s', (text, mm) => {
    expect(parseLength(text, 'm')).toBeCloseTo(mm, 6);
  });

  it.each(['12-6', '12 6'])(
    'does not take %s, which is feet and inches without saying so',
    (text) => {
      expect(parseLength(text, 'm')).toBeNull();
    },
  );
});

describe('writing a length', () => {
  it.each([
    [3810, 'ft', 1, '12\'-6"'],
    [3822.7, 'ft', 2, '12\'-6 1/2"'],
    [304.8, 'ft', 1, "1'"],
    [152.4, 'ft', 1, '6"'],
    [12.7, 'ft', 2, '1/2"'],
    [165.1, 'ft', 2, '6 1/2"'],
    [317.5, 'ft', 2, '1\'-0 1/2"'],
    [304.7, 'ft', 1, "1'"],
    [0, 'ft', 1, "0'"],
    [-3810, 'ft', 1, '-12\'-6"'],
    [-0.2, 'ft', 1, "0'"],
    [-0.2, 'm', 1, '0.00 m'],
    [3810, 'm', 1, '3.81 m'],
    [3810, 'm', 2, '3.810 m'],
    [Number.NaN, 'ft', 1, '-'],
  ] as const)('%d mm in %s to 1/%d is %s', (mm, units, denominator, text) => {
    expect(formatLength(mm, units, denominator)).toBe(text);
  });

  it('never writes twelve inches, and reads back to within half of its smallest step', () => {
    const length = fc.integer({ min: -33_000_000, max: 33_000_000 });
    const steps = fc.constantFrom(1, 2, 4, 8, 16);
    fc.assert(
      fc.property(length, steps, (mm, denominator) => {
        const text = formatLength(mm, 'ft', denominator);
        expect(text).not.toMatch(/(^|'-)12[ "]/);
        const back = parseLength(text, 'ft');
        expect(Math.abs(back! - mm)).toBeLessThanOrEqual(INCH / denominator / 2 + 1e-6);
      }),
      { ...seed, examples: [[-3658, 1]] },
    );
  });

  it('reads back in metres to within half a centimetre', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 33_000_000 }), (mm) => {
        expect(Math.abs(parseLength(formatLength(mm, 'm'), 'm')! - mm)).toBeLessThanOrEqual(
          5.000001,
        );
      }),
      seed,
    );
  });

  it('writes totals in whole units with thousands', () => {
    expect(formatTotal(1_122_274, 'ft')).toBe('3,682 ft');
    expect(formatTotal(1_122_274, 'm')).toBe('1,122 m');
  });
});

describe('money', () => {
  it('rounds half a cent away from zero, also where binary falls just short', () => {
    expect(toCents(0.5)).toBe(1);
    expect(toCents(-0.5)).toBe(-1);
    expect(toCents(1.005 * 100)).toBe(101);
    expect(toCents(0.49)).toBe(0);
    expect(Object.is(toCents(-0.1), 0)).toBe(true);
  });

  it('throws for what is no amount', () => {
    expect(() => toCents(Number.NaN)).toThrow();
    expect(() => toCents(Number.POSITIVE_INFINITY)).toThrow();
  });

  it.each([
    [123_450, true, '$1,234.50'],
    [-5, true, '-$0.05'],
    [984_000, false, '$9,840'],
    [-40, false, '$0'],
    [123_456_789_00, true, '$123,456,789.00'],
  ])('%d cents read as they are said', (cents, decimals, text) => {
    expect(formatMoney(cents, '$', decimals)).toBe(text);
  });
});
