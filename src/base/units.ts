/**
 * Lengths, money and how people write them.
 *
 * Lengths are plain numbers of millimetres; stored ones are integers. Money is integer cents, branded so that
 * only `toCents` makes it. Feet and inches exist only here, at the edge.
 */

/** The unit system in which a job is shown and typed. */
export type Units = 'ft' | 'm';

/** Integer cents. Made by `toCents` alone. */
export type Cents = number & { readonly __cents: true };

/** International inch and foot, exact by definition (1959 agreement): 1 in = 25.4 mm. */
export const INCH = 25.4;
export const FOOT = 304.8;
export const METRE = 1000;

/** Largest coordinate that a plan may hold, in mm; differences stay below 2^26, so orientation signs are exact. */
export const FAR = 33_000_000;

/**
 * The one rounding of money: half away from zero, to whole cents.
 *
 * @throws when the amount is no number: a broken contract between our own functions
 */
export function toCents(amount: number): Cents {
  if (!Number.isFinite(amount)) throw new Error(`${amount} is no amount of money`);
  const size = Math.abs(amount);
  // A product such as 1.005 * 100 falls just short of the half in binary; the nudge is far below a cent.
  return (Math.sign(amount) * Math.floor(size + 0.5 + size * Number.EPSILON) || 0) as Cents;
}

/** `$1,234.50`; the sign of the currency comes from the price book. */
export function formatMoney(cents: number, currency = '$', decimals = true): string {
  const whole = decimals ? Math.abs(cents) / 100 : Math.round(Math.abs(cents) / 100);
  const digits = whole.toFixed(decimals ? 2 : 0).replace(/\B(?=(\d{3})+(?!\d))/g, ',');
  return `${cents < 0 && whole > 0 ? '-' : ''}${currency}${digits}`;
}

function fraction(parts: number, denominator: number): string {
  let over = denominator;
  let top = parts;
  while (top > 0 && top % 2 === 0 && over > 1) {
    top /= 2;
    over /= 2;
  }
  return top === 0 ? '' : `${top}/${over}`;
}

/**
 * A length as people read it: `12'-6 1/2"` or `3.81 m`.
 *
 * @param mm length in millimetres
 * @param denominator smallest fraction of an inch shown (1 = whole inches); metric shows cm for 1, mm otherwise
 */
export function formatLength(mm: number, units: Units, denominator = 1): string {
  if (!Number.isFinite(mm)) return '-';
  const size = Math.abs(mm);
  if (units === 'm') {
    // Rounded as a whole number: 232.755 falls to either side in binary, and printed sums would not add up.
    const digits = denominator === 1 ? 2 : 3;
    const metres = (Math.round((size * 10 ** digits) / METRE) / 10 ** digits).toFixed(digits);
    return `${mm < 0 && Number(metres) > 0 ? '-' : ''}${metres} m`;
  }
  const ticks = Math.round((size / INCH) * denominator);
  const sign = mm < 0 && ticks > 0 ? '-' : '';
  const feet = Math.floor(ticks / (12 * denominator));
  const inches = Math.floor((ticks - feet * 12 * denominator) / denominator);
  const rest = fraction(ticks - (feet * 12 + inches) * denominator, denominator);
  if (feet === 0 && ticks !== 0)
    return `${sign}${inches || rest === '' ? `${inches}${rest ? ` ${rest}` : ''}` : rest}"`;
  if (inches === 0 && rest === '') return `${sign}${feet}'`;
  return `${sign}${feet}'-${inches}${rest ? ` ${rest}` : ''}"`;
}

/** A long total, in whole feet or whole metres: `3,682 ft`, `1,122 m`. */
export function formatTotal(mm: number, units: Units): string {
  const value = Math.round(mm / (units === 'ft' ? FOOT : METRE));
  return `${String(value).replace(/\B(?=(\d{3})+(?!\d))/g, ',')} ${units === 'ft' ? 'ft' : 'm'}`;
}

const NUMBER = String.raw`(\d+(?:\.\d+)?|\.\d+)`;
const FRACTION = String.raw`(?:(\d+)[\s-]+)?(\d+)\/(\d+)`;
const METRIC = new RegExp(`^${NUMBER}(mm|cm|m)$`);
const FEET_INCHES = new RegExp(
  String.raw`^(?:${NUMBER}'[\s-]*)?(?:(?:${FRACTION}|${NUMBER})(?:")?)?$`,
);
const BARE_PAIR = new RegExp(String.raw`^(\d+)(?:\s*-\s*|\s+)(?:${FRACTION}|${NUMBER})"?$`);

/**
 * Reads a length as people write it: `12`, `12'`, `12-6`, `12'6"`, `12 6 1/2`, `12.5'`, `6 1/2"`, `3.8m`, `380cm`,
 * with straight or curly quotes, primes and decimal commas in metric.
 *
 * @param units what a bare number means: feet or metres
 * @returns millimetres, not rounded, or null when it is not a length; so is `12'-13"`, which is a slip of the finger
 */
export function parseLength(text: string, units: Units): number | null {
  const mm = readLength(text, units);
  // Digits without end make an infinite number, and "-0" a negative zero.
  return typeof mm === 'number' && Number.isFinite(mm) ? mm + 0 : null;
}

/** Whether a text would be a length but for twelve inches or more after its feet. */
export const hasTooManyInches = (text: string, units: Units): boolean =>
  readLength(text, units) === 'inches';

/** Feet and inches in mm; inches that make another foot are refused. */
const feetAndInches = (feet: number, inches: number): number | 'inches' =>
  inches < 12 ? feet * FOOT + inches * INCH : 'inches';

function readLength(text: string, units: Units): number | 'inches' | null {
  let s = text
    .trim()
    .toLowerCase()
    .replace(/[\u2018\u2019\u2032\u00b4`]/g, "'")
    .replace(/[\u201c\u201d\u2033]/g, '"')
    .replace(/''/g, '"')
    .replace(/[\u2012-\u2015\u2212]/g, '-')
    .replace(/\s*(?:feet|foot|ft)\.?/g, "'")
    .replace(/\s*(?:inches|inch|in)\.?/g, '"')
    .replace(/\s*(?:millimet(?:er|re)s?|mm)$/, 'mm')
    .replace(/\s*(?:centimet(?:er|re)s?|cm)$/, 'cm')
    .replace(/\s*(?:met(?:er|re)s?|m)$/, 'm');
  let sign = 1;
  if (s.startsWith('-')) {
    sign = -1;
    s = s.slice(1).trim();
  }
  if (s === '') return null;
  const metric = METRIC.exec(s.replace(',', '.'));
  if (metric) {
    const scale = metric[2] === 'mm' ? 1 : metric[2] === 'cm' ? 10 : METRE;
    return sign * Number(metric[1]) * scale;
  }
  const inchesOf = (whole?: string, top?: string, over?: string, plain?: string): number | null => {
    if (top !== undefined && over !== undefined) {
      if (Number(over) === 0) return null;
      return Number(whole ?? 0) + Number(top) / Number(over);
    }
    return plain === undefined ? 0 : Number(plain);
  };
  if (!s.includes("'") && !s.includes('"')) {
    const bare = new RegExp(`^${NUMBER}$`).exec(units === 'm' ? s.replace(',', '.') : s);
    if (bare) return sign * Number(bare[1]) * (units === 'ft' ? FOOT : METRE);
    if (units === 'm') return null;
  }
  if (!s.includes("'")) {
    const pair = BARE_PAIR.exec(s);
    // `6 1/2"` is six and a half inches; `12 6 1/2` and `12-6` are feet and inches.
    const halfInch = /^\d+[\s-]+\d+\/\d+"$/.test(s);
    if (pair && !halfInch) {
      const inches = inchesOf(pair[2], pair[3], pair[4], pair[5]);
      return inches === null ? null : signed(feetAndInches(Number(pair[1]), inches), sign);
    }
    if (!s.includes('"')) return null;
  }
  const match = FEET_INCHES.exec(s);
  if (!match) return null;
  const inches = inchesOf(match[2], match[3], match[4], match[5]);
  if (inches === null) return null;
  if (match[1] === undefined) return sign * inches * INCH;
  return signed(feetAndInches(Number(match[1]), inches), sign);
}

const signed = (length: number | 'inches', sign: number): number | 'inches' =>
  length === 'inches' ? length : sign * length;
