import { FOOT, INCH, parseLength, type Units } from './units.ts';

/** What one inch on paper is by the architect's and the engineer's scales; common practice, no source. */
const ARCHITECT: readonly (readonly [paper: string, inches: number])[] = [
  ['1/32"', 1 / 32],
  ['1/16"', 1 / 16],
  ['3/32"', 3 / 32],
  ['1/8"', 1 / 8],
  ['3/16"', 3 / 16],
  ['1/4"', 1 / 4],
  ['3/8"', 3 / 8],
  ['1/2"', 1 / 2],
  ['3/4"', 3 / 4],
  ['1"', 1],
  ['1 1/2"', 1.5],
  ['3"', 3],
];
const ENGINEER = [10, 20, 30, 40, 50, 60, 80, 100, 200] as const;

/** How many times larger the building is than its drawing, for the scales that are printed most on plans. */
export const USUAL_SCALES: Readonly<Record<Units, readonly number[]>> = {
  ft: ['1/16"', '3/32"', '1/8"', '3/16"', '1/4"', '1/2"'].map(
    (name) => FOOT / (INCH * ARCHITECT.find(([paper]) => paper === name)![1]),
  ),
  m: [50, 100, 200, 500],
};

/** How near a ratio must be to a printed scale to be called by its name. */
const NEAR = 0.005;
const near = (ratio: number, of: number): boolean => Math.abs(ratio / of - 1) <= NEAR;

/**
 * A drawing's scale as people write it: `1/8" = 1'-0"` or `1" = 20'` where it is one of those in feet, else `1:96`.
 *
 * @param ratio how many times larger the building is than the drawing
 */
export function formatScale(ratio: number, units: Units): string {
  if (!(ratio > 0) || !Number.isFinite(ratio)) return '-';
  if (units === 'ft') {
    const named = ARCHITECT.find(([, inches]) => near(ratio, FOOT / (INCH * inches)));
    if (named) return `${named[0]} = 1'-0"`;
    const feet = ENGINEER.find((to) => near(ratio, (to * FOOT) / INCH));
    if (feet !== undefined) return `1" = ${feet}'`;
  }
  if (ratio < 1) return `${trim(1 / ratio)}:1`;
  return `1:${near(ratio, Math.round(ratio)) && ratio >= 10 ? Math.round(ratio) : trim(ratio)}`;
}

const trim = (value: number): string =>
  value >= 100 ? String(Math.round(value)) : String(Math.round(value * 10) / 10);

/** Ratios beyond these are slips: a detail twenty times enlarged, and a map of a country. */
const LEAST = 0.05;
const MOST = 100_000;

const kept = (ratio: number): number | null =>
  Number.isFinite(ratio) && ratio >= LEAST && ratio <= MOST ? ratio : null;

/**
 * Reads a scale as it is printed on a plan: `1/8" = 1'-0"`, `1/8 in = 1 ft`, `3/32"=1'`, `1" = 20'`, `1 cm = 1 m`,
 * `1:100`, `1 : 96`, `1/100`, `Scale: 1/4" = 1'`, and in words: `1/4 inch to the foot`, `1/48th scale`.
 *
 * @returns how many times larger the building is than the drawing, or null when it is no scale. A bare number before
 *   `=` is inches and after it feet; both alike in metric, so `1 = 100` is 1:100.
 */
export function parseScale(text: string): number | null {
  const plain = text
    .trim()
    .replace(/^scale\b[\s:=]*/i, '')
    .replace(/\(.*\)$/, '')
    .trim()
    .replace(/\s+scale$/i, '')
    .replace(/\b(?:the|an?|each|every|per)\s+(?=(?:foot|ft|met(?:re|er)|m)\b)/i, ONE);
  const ratio = /^(\d+(?:[.,]\d+)?)\s*(?::|\/)\s*(\d+(?:[.,]\d+)?)(?:th)?$/i.exec(plain);
  if (ratio) return kept(numberOf(ratio[2]!) / numberOf(ratio[1]!));
  const sides = plain.split(/\s*(?:=|\bequals\b|\bis\b|\bto\b)\s*/i);
  if (sides.length !== 2) return null;
  const [drawn, built] = sides as [string, string];
  if (/^\d+(?:\.\d+)?$/.test(drawn) && /^\d+(?:\.\d+)?$/.test(built))
    return kept(Number(built) / Number(drawn));
  const paper = parseLength(hasUnit(drawn) ? drawn : `${drawn}"`, 'ft');
  const real = parseLength(built, 'ft');
  return paper !== null && real !== null && paper > 0 ? kept(real / paper) : null;
}

/** `to the foot` and `per foot` are both to one foot. */
const ONE = (word: string): string => (/^per/i.test(word) ? '= 1 ' : '1 ');

const numberOf = (text: string): number => Number(text.replace(',', '.'));
const hasUnit = (text: string): boolean =>
  /["'\u2032\u2033\u201c\u201d\u2018\u2019a-z]/i.test(text);
