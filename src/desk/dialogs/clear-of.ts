import type { Point } from '../../geometry/point.ts';
import type { Spot } from '../menu/place.ts';
import type { Seen } from '../seen.ts';

interface Size {
  readonly width: number;
  readonly height: number;
}

/** A line on the screen, by its two ends, px. */
export type ScreenLine = readonly [Point, Point];

/** Air to the edges of the screen and to the line; a dialog may grow by a line of words meanwhile. */
export const AIR = 12;
const CLEAR = 28;
/** Places along the line at which one looks whether it is covered. */
const LOOKS = 60;

/**
 * Where a dialog of a size stands within what is seen so that a line on the screen stays in sight: below its middle, above it or beside it,
 * else in the corner where it covers least of it.
 */
export function clearOf([a, b]: ScreenLine, size: Size, seen: Seen): Spot {
  const least = { left: seen.left + AIR, top: seen.top + AIR };
  const most = {
    left: seen.left + seen.width - size.width - AIR,
    top: seen.top + seen.height - size.height - AIR,
  };
  const within = (left: number, top: number): Spot => ({
    left: Math.max(least.left, Math.min(left, most.left)),
    top: Math.max(least.top, Math.min(top, most.top)),
  });
  const [x0, x1] = [Math.min(a[0], b[0]), Math.max(a[0], b[0])];
  const [y0, y1] = [Math.min(a[1], b[1]), Math.max(a[1], b[1])];
  const centred = { left: (x0 + x1 - size.width) / 2, top: (y0 + y1 - size.height) / 2 };
  const spots = [
    within(centred.left, y1 + CLEAR),
    within(centred.left, y0 - CLEAR - size.height),
    within(x1 + CLEAR, centred.top),
    within(x0 - CLEAR - size.width, centred.top),
    within(least.left, least.top),
    within(most.left, least.top),
    within(least.left, most.top),
    within(most.left, most.top),
  ];
  const covered = spots.map((spot) => share(a, b, spot, size));
  return spots[covered.indexOf(Math.min(...covered))]!;
}

/** How much of a line a dialog covers, with some air round it: of the places that are looked at. */
function share(a: Point, b: Point, { left, top }: Spot, { width, height }: Size): number {
  let hidden = 0;
  for (let i = 0; i <= LOOKS; i++) {
    const x = a[0] + ((b[0] - a[0]) * i) / LOOKS;
    const y = a[1] + ((b[1] - a[1]) * i) / LOOKS;
    const beside = x < left - AIR || x > left + width + AIR;
    if (!beside && y >= top - AIR && y <= top + height + AIR) hidden++;
  }
  return hidden;
}
