import { FAR, parseLength, type Units } from '../base/units.ts';
import type { BUILT_FIELDS, Built } from './built.ts';

export type BuiltField = (typeof BUILT_FIELDS)[number];

/** The value of any field of the record. */
export type BuiltValue = Built[BuiltField];

/** How people write down that a test was passed or failed, or that there was none. */
const TESTS: Readonly<Record<string, Built['test']>> = {
  ...{ p: 'pass', pass: 'pass', passed: 'pass', ok: 'pass', y: 'pass', yes: 'pass', '✓': 'pass' },
  ...{ f: 'fail', fail: 'fail', failed: 'fail', x: 'fail', n: 'fail', no: 'fail', '✗': 'fail' },
  ...{ '': null, '-': null, 'n/t': null, 'not tested': null },
};

/** Reads how a test came out: null is not tested, undefined not understood. */
export const parseTest = (text: string): Built['test'] | undefined =>
  Object.hasOwn(TESTS, text.trim().toLowerCase()) ? TESTS[text.trim().toLowerCase()] : undefined;

const YEAR_FIRST = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/;
const MONTH_FIRST = /^(\d{1,2})\/(\d{1,2})\/(\d{2}|\d{4})$/;
const DAY_FIRST = /^(\d{1,2})\.(\d{1,2})\.(\d{2}|\d{4})$/;

/**
 * Reads a day: `2026-03-01`, `3/1/2026` with the month first, `1.3.2026` with the day first; two digits of a year are
 * of this century. Null for a day that no calendar has.
 */
export function parseDay(text: string): string | null {
  const words = text.trim();
  const [iso, us, dotted] = [YEAR_FIRST, MONTH_FIRST, DAY_FIRST].map((form) => form.exec(words));
  const parts = iso
    ? [iso[1], iso[2], iso[3]]
    : us
      ? [us[3], us[1], us[2]]
      : dotted
        ? [dotted[3], dotted[2], dotted[1]]
        : null;
  if (!parts) return null;
  const [y = 0, m = 0, d = 0] = parts.map(Number);
  const year = y < 100 ? 2000 + y : y;
  if (d < 1 || d > daysIn(year, m)) return null;
  const digits = (n: number, count: number): string => String(n).padStart(count, '0');
  return `${digits(year, 4)}-${digits(m, 2)}-${digits(d, 2)}`;
}

const isLeap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);

/** How many days a month has, from 1; none for one that no year has. */
const daysIn = (year: number, month: number): number =>
  month === 2
    ? isLeap(year)
      ? 29
      : 28
    : ([31, 0, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0);

/** Most letters of words that a plan holds. */
const MOST_LETTERS = 400;

/** Reads a field of the record as people write it; an empty one is not recorded. Undefined where it is not understood. */
export function parseBuilt(field: BuiltField, text: string, units: Units): BuiltValue | undefined {
  const words = text.trim();
  if (field === 'by' || field === 'remark') return words.length <= MOST_LETTERS ? words : undefined;
  if (field === 'on') return words === '' ? '' : (parseDay(words) ?? undefined);
  if (field === 'test') return parseTest(words);
  if (words === '') return null;
  if (field === 'port') return inRange(/^\d+$/.test(words) ? Number(words) : null, 1, 10_000);
  return inRange(parseLength(words, units), 0, FAR);
}

function inRange(value: number | null, least: number, most: number): number | undefined {
  const whole = value === null ? Number.NaN : Math.round(value);
  return whole >= least && whole <= most ? whole : undefined;
}
