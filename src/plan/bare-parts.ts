import { distance } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { alongOf } from './openings.ts';
import type { Wall } from './plan.ts';

/** What stands along a side. */
type Bar = Pick<Wall, 'a' | 'b' | 'thickness'>;

/** How far aside of a side a wall may lie and still cover it, mm: slanted ones are rounded. */
const ASIDE = 2;
/** No piece of wall is drawn that is shorter than half a wall is thick: the ends of its neighbours fill it. */
export const SLIVER = 62;

const onLine = (): number => ASIDE;

/** How far aside a side may lie and still be in the body of a wall. */
export const inBody = ({ thickness }: Bar): number => thickness / 2;

/** Whether a wall lies in line with the side from a to b, no farther aside than is said. */
export const inLine = (wall: Bar, a: Point, b: Point, aside: (wall: Bar) => number): boolean =>
  besideOf({ a, b }, wall.a) <= aside(wall) && besideOf({ a, b }, wall.b) <= aside(wall);

/** The stretches of a side along which no wall stands yet: walls in line with it cover theirs. */
export function bareParts(
  standing: readonly Bar[],
  a: Point,
  b: Point,
  aside: (wall: Bar) => number = onLine,
): [Point, Point][] {
  const side = { a, b };
  const covered = standing
    .filter((wall) => inLine(wall, a, b, aside))
    .map((w): [Point, Point] => (alongOf(side, w.a) < alongOf(side, w.b) ? [w.a, w.b] : [w.b, w.a]))
    .sort((p, q) => alongOf(side, p[0]) - alongOf(side, q[0]));
  const before = (p: Point, q: Point): boolean => alongOf(side, p) < alongOf(side, q);
  const parts: [Point, Point][] = [];
  let from = a;
  for (const [start, end] of covered) {
    if (!before(from, end) || !before(start, b)) continue;
    if (before(from, start)) parts.push([from, start]);
    from = end;
  }
  if (before(from, b)) parts.push([from, b]);
  return parts.filter(([p, q]) => covered.length === 0 || distance(p, q) > SLIVER);
}

/** How far beside the line through a and b a place lies. */
const besideOf = ({ a, b }: { a: Point; b: Point }, p: Point): number =>
  Math.abs(doubleTriangle(a, b, p)) / (distance(a, b) || 1);

/** Twice the area of the triangle of a straight piece and a point: zero when they are in line. */
const doubleTriangle = (a: Point, b: Point, p: Point): number =>
  (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
