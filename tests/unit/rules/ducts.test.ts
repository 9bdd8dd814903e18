import { describe, expect, it } from 'vitest';
import { mostCables } from '../../../src/rules/conduit-fill.ts';
import { bendsOf, TRADE_SIZES, tradeSize } from '../../../src/rules/ducts.ts';

describe('reading a trade size', () => {
  it.each([
    ['1"', '1 in.'],
    ['1 in', '1 in.'],
    ['1 inch EMT', '1 in.'],
    ['1-inch conduit', '1 in.'],
    ['1.25 in.', '1-1/4 in.'],
    ['1-1/4"', '1-1/4 in.'],
    ['1 1/4 in. EMT', '1-1/4 in.'],
    ['1 - 1/4', '1-1/4 in.'],
    ['3/4', '3/4 in.'],
    ['3/4 in.', '3/4 in.'],
    [' 27 mm ', '1 in.'],
    ['103mm', '4 in.'],
  ])('takes %s for %s', (text, name) => {
    expect(tradeSize(text)?.name).toBe(name);
  });

  it.each([
    '',
    '1',
    '2 x 4 in.',
    '2" x 4"',
    '2"x4"',
    '1/2 x 2',
    '2 × 1 in.',
    '25 mm',
    '7 in.',
    '3/0"',
    'big',
  ])('takes %j for none', (text) => {
    expect(tradeSize(text)).toBeNull();
  });
});

/**
 * Areas of metallic tubing in square inches, 100 % column (NEC chapter 9, table 4, as printed in the 2022 California
 * code). The inside diameters that the program holds have to give them.
 */
const AREAS = [0.304, 0.533, 0.864, 1.496, 2.036, 3.356, 5.858, 8.846, 11.545, 14.753];

/**
 * Most cables by diameter in inches: largest n with n (pi/4) d² within 53, 31 and 40 % of the area, reckoned apart from
 * the program from the areas above; no line for 3-1/2 in.
 */
const MOST: Readonly<Record<string, readonly number[]>> = {
  '0.19': [4, 7, 12, 21, 28, 47, 82, 124, 208],
  '0.2': [3, 6, 11, 19, 25, 42, 74, 112, 187],
  '0.22': [3, 5, 9, 15, 21, 35, 61, 93, 155],
  '0.24': [2, 4, 7, 13, 18, 29, 51, 78, 130],
  '0.25': [1, 4, 7, 12, 16, 27, 47, 72, 120],
  '0.3': [1, 3, 4, 8, 11, 18, 33, 50, 83],
  '0.34': [1, 1, 3, 6, 8, 14, 25, 38, 64],
};

describe('trade sizes of conduit', () => {
  it('have the areas that the code prints', () => {
    TRADE_SIZES.forEach((trade, i) => {
      const area = (Math.PI / 4) * (trade.inside / 25.4) ** 2;
      expect(Math.abs(area / AREAS[i]! - 1)).toBeLessThan(0.002);
    });
  });

  it.each(Object.entries(MOST))(
    'hold as many cables of %s in. as the shares allow',
    (across, most) => {
      const sizes = TRADE_SIZES.filter((trade) => trade.inches !== 3.5);
      expect(sizes.map((trade) => mostCables(trade, Number(across) * 25.4, 0))).toEqual(most);
    },
  );

  it('hold 28 % with two right angles: 40 % less 15 % for each', () => {
    // Worked example of the handbook. A cable of which a hundred fill the inside whole is counted out to 28.
    const trade = TRADE_SIZES[5]!;
    expect(mostCables(trade, trade.inside / 10, 180)).toBe(28);
    expect(mostCables(trade, trade.inside / 10, 0)).toBe(40);
    expect(mostCables(trade, trade.inside / 10, 600)).toBe(0);
  });
});

describe('the bends of a chain', () => {
  it('turn either way, by the angle between pieces', () => {
    const bends = bendsOf([
      [0, 0],
      [10, 0],
      [10, 0],
      [10, 10],
      [20, 0],
      [30, 0],
    ]);
    expect(bends.map(({ degrees }) => Math.round(degrees))).toEqual([90, 135, 45]);
    expect(bends[1]!.at).toEqual([10, 10]);
  });

  it('are none where the chain goes straight on', () => {
    expect(
      bendsOf([
        [0, 0],
        [10, 0],
        [20, 0],
        [30, 0],
      ]),
    ).toEqual([]);
    expect(
      bendsOf([
        [0, 0],
        [10, 0],
      ]),
    ).toEqual([]);
  });
});
