import { formatMoney } from '../base/units.ts';

/** Thousands with commas: `3,682`. */
export const formatCount = (count: number): string =>
  String(Math.round(count)).replace(/\B(?=(\d{3})+(?!\d))/g, ',');

/** A share of 1 in whole percent, or with tenths below ten: `31 %`, `1.2 %`. Not a number gives `-`. */
export function formatPercent(share: number): string {
  if (!Number.isFinite(share)) return '-';
  const percent = share * 100;
  return `${Math.abs(percent) < 9.95 ? Number(percent.toFixed(1)) : Math.round(percent)} %`;
}

/** The time of day of a moment, `14:32`. */
export function formatClock(at: number): string {
  const date = new Date(at);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${two(date.getHours())}:${two(date.getMinutes())}`;
}

/** Hours to the tenth: `41.5 h`. */
export const formatHours = (hours: number): string => `${Number(hours.toFixed(1))} h`;

/** Money without cents where it is a large round-up figure: `$9,840`. */
export const formatMoneyShort = (cents: number, currency: string): string =>
  formatMoney(cents, currency, false);

/**
 * Reads money as people write it: `12`, `12.5`, `$1,250.00`, `12,50`.
 *
 * @param currency the sign of the price book, which may be a word: it may stand before the amount or behind it
 * @returns integer cents, or null when it is not an amount or below zero
 */
export function parseMoney(text: string, currency = ''): number | null {
  const amount = withoutSign(text.trim(), currency.trim());
  if (/\p{L}/u.test(amount)) return null;
  const plain = amount.replace(/[^\d.,-]/g, '');
  // A comma with two figures after it at the end is a decimal comma; every other comma parts thousands.
  const dotted = /,\d{1,2}$/.test(plain) && !plain.includes('.') ? plain.replace(',', '.') : plain;
  const digits = dotted.replace(/,/g, '');
  if (!/^(\d+(\.\d{0,2})?|\.\d{1,2})$/.test(digits)) return null;
  return Math.round(Number(digits) * 100);
}

function withoutSign(text: string, sign: string): string {
  if (sign === '') return text;
  const [written, own] = [text.toLowerCase(), sign.toLowerCase()];
  if (written.startsWith(own)) return text.slice(sign.length);
  return written.endsWith(own) ? text.slice(0, -sign.length) : text;
}

/** Reads a whole number at or above zero, with or without its sign of percent or minutes; null when it is none. */
export function parseWhole(text: string): number | null {
  const match = /^\s*(\d{1,7})\s*(%|min|minutes)?\s*$/i.exec(text);
  return match ? Number(match[1]) : null;
}
