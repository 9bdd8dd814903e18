import fc from 'fast-check';
import { expect, test } from 'vitest';
import { formatMoney } from '../../../src/base/units.ts';
import { en } from '../../../src/text/en.ts';
import {
  formatCount,
  formatPercent,
  parseMoney,
  parseWhole,
  t,
  translator,
} from '../../../src/text/index.ts';

test('gaps are filled by their names', () => {
  expect(t('step.undo', { step: 'Move device A3' })).toBe('Undo: Move device A3');
});

test('numbers of things take the plural of the language', () => {
  expect([0, 1, 2].map((n) => t.count('runs.count', n))).toEqual(['0 runs', '1 run', '2 runs']);
});

test('another language is the same keys with other words', () => {
  const loud = Object.fromEntries(Object.entries(en).map(([k, v]) => [k, v.toUpperCase()]));
  expect(translator(loud as typeof en, 'en')('menu.job')).toBe('JOB');
});

test('no text shouts, and none uses signs that the typeface lacks', () => {
  for (const [key, text] of Object.entries(en)) {
    expect(text, key).not.toContain('!');
    expect(text, key).not.toMatch(/[\u2032\u2033]/);
  }
});

test('every pair of one and other is whole', () => {
  const stems = (end: string) =>
    Object.keys(en)
      .filter((key) => key.endsWith(end))
      .map((key) => key.slice(0, -end.length));
  expect(stems('.one')).toEqual(stems('.other'));
});

test('money is read as people type it, to the cent', () => {
  expect(['12', '12.5', '$1,250.00', '12,50', '.5', ' 7 '].map((text) => parseMoney(text))).toEqual(
    [1200, 1250, 125_000, 1250, 50, 700],
  );
  expect(['', 'twelve', '-3', '1.234', '1.2.3', '12 each'].map((text) => parseMoney(text))).toEqual(
    Array(6).fill(null),
  );
});

test('the sign of the price book may be a word, before the amount or behind it', () => {
  expect(['CHF12', '12.50 chf', 'CHF 1,000'].map((text) => parseMoney(text, 'CHF'))).toEqual([
    1200, 1250, 100_000,
  ]);
  expect(parseMoney('12 EUR', 'CHF')).toBeNull();
});

test('money that was written is read as the same', () => {
  const cents = fc.nat({ max: 1_000_000_000 });
  fc.assert(
    fc.property(
      cents,
      fc.constantFrom('$', '€', '', 'CHF', 'Fr.', 'kr ', '﷼', 'руб'),
      (amount, currency) => {
        expect(parseMoney(formatMoney(amount, currency), currency)).toBe(amount);
      },
    ),
    { seed: 32 },
  );
});

test('whole numbers are read with or without their sign', () => {
  expect(['10', '10 %', '45 min'].map(parseWhole)).toEqual([10, 10, 45]);
  expect(['', '1.5', '-2', 'ten'].map(parseWhole)).toEqual([null, null, null, null]);
});

test('shares below ten percent show tenths, larger ones whole percent', () => {
  expect([0.012, 0.0994, 0.0996, 0.31, 1.05, Number.NaN].map(formatPercent)).toEqual([
    '1.2 %',
    '9.9 %',
    '10 %',
    '31 %',
    '105 %',
    '-',
  ]);
  expect(formatCount(3682.4)).toBe('3,682');
});
