import { type Media, UNITS } from './medium.ts';
import { type Profile, type Stretches, stretchAt } from './profile.ts';

/** Sum over a stretch of a line: cost in units, and real length. A cost below 0 says that it is not passable. */
export interface Toll {
  cost: number;
  length: number;
}

/** Cost and length from position a to b >= a along a profile, both with their sides. */
export function toll(
  media: Media,
  profile: Profile,
  a: number,
  sideA: 0 | 1,
  b: number,
  sideB: 0 | 1,
  out: Toll,
): void {
  const first = stretchAt(profile, a, sideA);
  const last = stretchAt(profile, b, sideB);
  tollWithin(media, profile.row, first, a, last, b, out);
}

/** Whether a side of one position does not lie beyond a side of another. */
export const isBefore = (a: number, sideA: 0 | 1, b: number, sideB: 0 | 1): boolean =>
  a < b || (a === b && sideA <= sideB);

/** The toll between two positions of a profile, whichever comes first. */
export function tollBetween(
  media: Media,
  profile: Profile,
  a: number,
  sideA: 0 | 1,
  b: number,
  sideB: 0 | 1,
  out: Toll,
): void {
  if (isBefore(a, sideA, b, sideB)) toll(media, profile, a, sideA, b, sideB, out);
  else toll(media, profile, b, sideB, a, sideA, out);
}

/** The toll from a to b >= a, where the stretches of both positions are known: from stretch `first` to stretch `last`. */
export function tollWithin(
  media: Media,
  row: Stretches,
  first: number,
  a: number,
  last: number,
  b: number,
  out: Toll,
): void {
  const { list } = media;
  const { starts, media: stretches } = row;
  if (first === last) {
    // Most neighbours lie in one stretch.
    const { barred, pass, factor } = list[stretches[first]!]!;
    out.cost = barred || (b > a && !pass) ? -1 : Math.round((b - a) * 2 * factor);
    out.length = b - a;
    return;
  }
  let cost = 0;
  let vertical = 0;
  let at = a;
  for (let k = first; ; k++) {
    const medium = list[stretches[k]!]!;
    const end = k < last ? starts[k + 1]! : b;
    if (medium.barred || (end > at && !medium.pass)) {
      out.cost = -1;
      return;
    }
    if (end > at) {
      cost += Math.round((end - at) * 2 * medium.factor);
      at = end;
    }
    if (k >= last) break;
    const step = media.step(stretches[k]!, stretches[k + 1]!);
    vertical += step;
    cost += step * UNITS + media.price(stretches[k]!, stretches[k + 1]!);
  }
  out.cost = cost;
  out.length = b - a + vertical;
}
