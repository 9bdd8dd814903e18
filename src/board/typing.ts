import { parseLength, type Units } from '../base/units.ts';

/** Keys that begin a typed length, and those that go on with one. */
const BEGINS = /^[0-9.]$/;
const GOES_ON = /^[0-9.,'"/ \-mcftinx×′″’”]$/i;

export const beginsLength = (key: string): boolean => BEGINS.test(key);
export const goesOn = (key: string): boolean => GOES_ON.test(key);

/**
 * Reads what was typed while drawing: one length, or two with an x between, as sides are said.
 *
 * @returns whole mm above zero, or null when it is no length
 */
export function readTyped(text: string, units: Units): { mm: number; second?: number } | null {
  const [a, b, ...more] = text.split(/[x×]/i);
  if (more.length > 0) return null;
  const mm = positive(a!, units);
  if (mm === null) return null;
  if (b === undefined || b.trim() === '') return { mm };
  const second = positive(b, units);
  return second === null ? null : { mm, second };
}

function positive(text: string, units: Units): number | null {
  const mm = parseLength(text, units);
  return mm === null || mm < 1 ? null : Math.round(mm);
}
