import { type Media, type Medium, UNITS } from './medium.ts';
import type { Stretches } from './profile.ts';

/** A way along a profile from one position, ever farther: what `toll` says of each stretch, added up as it goes. */
export interface Walk {
  /** In units, and twice the real length, from where it began. */
  cost: number;
  second: number;
  readonly row: Stretches;
  readonly forward: 0 | 1;
  at: number;
  /** Number of the stretch that it is in, what that lies in, and where it ends. */
  stretch: number;
  medium: Medium;
  border: number;
}

/** A walk that has not set out. */
export const walkFrom = (
  media: Media,
  row: Stretches,
  from: number,
  forward: 0 | 1,
  stretch: number,
): Walk => ({
  cost: 0,
  second: 0,
  row,
  forward,
  at: from,
  stretch,
  medium: media.list[row.media[stretch]!]!,
  border: row.starts[forward ? stretch + 1 : stretch]!,
});

/** Goes on to a position and a side of it, not before where it is; false where there is no passage. */
export function walkTo(walk: Walk, media: Media, end: number, side: 0 | 1): boolean {
  const { forward, border } = walk;
  const beyond = forward ? end > border : end < border;
  if (beyond || (end === border && side === forward)) return leave(walk, media, end, side);
  const length = goOn(walk, end);
  walk.second += Math.round(2 * length);
  return length >= 0;
}

/** Goes on by as many stretches as it takes. */
function leave(walk: Walk, media: Media, end: number, side: 0 | 1): boolean {
  const { row, forward } = walk;
  const way = forward ? 1 : -1;
  let length = 0;
  while (way * (end - walk.border) > 0 || (end === walk.border && side === forward)) {
    const going = goOn(walk, walk.border);
    if (going < 0) return false;
    const a = row.media[walk.stretch]!;
    walk.stretch += way;
    const b = row.media[walk.stretch]!;
    const step = media.step(a, b);
    length += going + step;
    walk.cost += step * UNITS + media.price(a, b);
    walk.medium = media.list[b]!;
    walk.border = row.starts[forward ? walk.stretch + 1 : walk.stretch]!;
  }
  const last = goOn(walk, end);
  walk.second += Math.round(2 * (length + last));
  return last >= 0;
}

/** Goes on within its stretch. How far; -1 where that is barred. */
function goOn(walk: Walk, to: number): number {
  const { barred, pass, factor } = walk.medium;
  const length = Math.abs(to - walk.at);
  if (barred || (length > 0 && !pass)) return -1;
  walk.cost += Math.round(length * 2 * factor);
  walk.at = to;
  return length;
}
