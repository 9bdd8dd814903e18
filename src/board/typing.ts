import { type Message, msg } from '../base/message.ts';
import { FAR, hasTooManyInches, parseLength, type Units } from '../base/units.ts';
import { BEYOND } from '../plan/row-places.ts';

/** Keys that begin a typed length, and those that go on with one. */
const BEGINS = /^[0-9.]$/;
const GOES_ON = /^[0-9.,'"/ \-mcftinx×′″’”<]$/i;

const DEGREES = /^-?\d+(?:\.\d+)?$/;

export const beginsLength = (key: string): boolean => BEGINS.test(key);
export const goesOn = (key: string): boolean => GOES_ON.test(key);

/**
 * Reads what was typed while drawing: one length, two with an x between, as sides are said, or a length and a direction
 * with a < between, as in `12'6" < 45`: degrees from the building lines, 0 to the right, 90 up, -90 down.
 *
 * @returns whole mm above zero and degrees, or null when it is no length
 */
export function readTyped(
  text: string,
  units: Units,
): { mm: number; second?: number; angle?: number } | null {
  const [length, direction, ...rest] = text.split('<');
  if (rest.length > 0) return null;
  if (direction !== undefined) {
    const mm = positive(length!, units);
    const angle = DEGREES.test(direction.trim()) ? Number(direction) : Number.NaN;
    return mm === null || !(Math.abs(angle) <= 360) ? null : { mm, angle };
  }
  const [a, b, ...more] = text.split(/[x×]/i);
  if (more.length > 0) return null;
  const mm = positive(a!, units);
  if (mm === null) return null;
  if (b === undefined || b.trim() === '') return { mm };
  const second = positive(b, units);
  return second === null ? null : { mm, second };
}

/** Why what was typed is no length. */
export function whyNoLength(typed: string, units: Units): Message {
  if (typed.split(/[x×<]/i).some((part) => (parseLength(part, units) ?? 0) > FAR)) return BEYOND;
  if (typed.split(/[x×<]/i).some((part) => hasTooManyInches(part, units)))
    return msg(
      '"{typed}" has a foot or more in its inches: after the feet come 0 to 11, as in 12\'-6".',
      { typed },
    );
  return msg(
    '"{typed}" is not a length. Type it as 12\'-6", 12 6, 3.8 m or 380 cm; with a direction as 12\'6" < 45.',
    { typed },
  );
}

function positive(text: string, units: Units): number | null {
  const mm = parseLength(text, units);
  return mm === null || mm < 1 || mm > FAR ? null : Math.round(mm);
}
