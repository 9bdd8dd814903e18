import { DOORWAY } from './enclosure.ts';
import { distance, nearestOnSegment } from './nearest.ts';
import type { Point } from './point.ts';
import type { Barrier } from './wall-net.ts';

/** A line that somebody drew along a side of a room that is open. */
export type Side = readonly [Point, Point];

/** How broad such a line counts, mm: its ends meet what a hand just missed. */
const HAND = 300;

/**
 * Open sides as what closes a room. Where one ends beside a wall or another of them, a piece leads on to the nearest,
 * whichever way that is: it was drawn to close, and to nothing else.
 */
export function openSides(sides: readonly Side[], walls: readonly Barrier[]): readonly Barrier[] {
  const drawn = sides.map(([a, b]): Barrier => ({ a, b, thickness: HAND }));
  const links = drawn.flatMap((own) => {
    const others = [...walls, ...drawn.filter((side) => side !== own)];
    return [own.a, own.b].flatMap((end) => linkFrom(end, others));
  });
  return [...drawn, ...links];
}

function linkFrom(end: Point, others: readonly Barrier[]): Barrier[] {
  let nearest: Point | null = null;
  let least = DOORWAY;
  for (const { a, b, thickness } of others) {
    const to = nearestOnSegment(a, b, end);
    const clear = distance(end, to) - (thickness + HAND) / 2;
    if (clear <= 0) return [];
    if (clear > least) continue;
    least = clear;
    nearest = to;
  }
  return nearest ? [{ a: end, b: nearest, thickness: HAND }] : [];
}
