import type { Id } from '../base/ids.ts';
import { distance, nearestOnSegment } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { onLevel, type Plan, type Wall } from '../plan/plan.ts';

/** On which side of the line through a and b a point lies: the sign; 0 on it. */
const side = (a: Point, b: Point, p: Point): number =>
  Math.sign((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]));

const within = (wall: Wall, p: Point): boolean =>
  distance(p, nearestOnSegment(wall.a, wall.b, p)) <= wall.thickness / 2;

const crosses = (wall: Wall, p: Point, q: Point): boolean =>
  side(wall.a, wall.b, p) * side(wall.a, wall.b, q) < 0 &&
  side(p, q, wall.a) * side(p, q, wall.b) < 0;

/**
 * The snapped place, unless snapping took it into a wall or through one from where the pointer is: then the pointer's
 * own place, in whole mm. A wall that the pointer itself is in holds nothing back.
 */
export function besideWalls(plan: Plan, level: Id, at: Point, raw: Point): Point {
  const taken = onLevel(plan, 'walls', level).some(
    (wall) => !within(wall, raw) && (within(wall, at) || crosses(wall, raw, at)),
  );
  return taken ? [Math.round(raw[0]), Math.round(raw[1])] : at;
}
