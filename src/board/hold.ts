import type { Point } from '../geometry/point.ts';
import type { SnapKind, TargetLine } from './snap-targets.ts';

/** A line that the place is held on. */
export interface Hold {
  readonly kind: SnapKind;
  readonly from: Point;
  readonly through: Point;
  /** Unit direction; axis-parallel ones are exact. */
  readonly u: Point;
  readonly distance: number;
  /** Ends, where it is a piece and not endless. */
  readonly piece: readonly [Point, Point] | null;
}

/** A line as what holds a place; null where it has no length. */
export function holdOn({ a, b, kind }: TargetLine, p: Point): Hold | null {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length === 0) return null;
  const u: Point = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const distance = Math.abs((p[0] - a[0]) * u[1] - (p[1] - a[1]) * u[0]);
  return { kind, from: a, through: a, u, distance, piece: [a, b] };
}

/** Along the building, east and south. */
export const ACROSS: Point = [1, 0];
export const DOWN: Point = [0, 1];

/** An endless line along the building through a point. */
export const axisHold = (kind: SnapKind, from: Point, u: Point, p: Point): Hold => ({
  kind,
  from,
  through: from,
  u,
  distance: u[0] === 1 ? Math.abs(p[1] - from[1]) : Math.abs(p[0] - from[0]),
  piece: null,
});

/** The line along the building through the anchor that is nearer in direction to the place. */
export function lockHold(p: Point, anchor: Point): Hold {
  const u = Math.abs(p[0] - anchor[0]) >= Math.abs(p[1] - anchor[1]) ? ACROSS : DOWN;
  return axisHold('right-angle', anchor, u, p);
}

/** The hold nearest to the pointer; null where there is none. */
export function nearestHold(holds: readonly Hold[]): Hold | null {
  let best: Hold | null = null;
  for (const hold of holds) if (!best || hold.distance < best.distance) best = hold;
  return best;
}

/** The place on a hold's line that is nearest to a point. */
export function foot({ through, u }: Hold, p: Point): Point {
  if (u[0] === 1) return [p[0], through[1]];
  if (u[1] === 1) return [through[0], p[1]];
  const t = (p[0] - through[0]) * u[0] + (p[1] - through[1]) * u[1];
  return [through[0] + u[0] * t, through[1] + u[1] * t];
}

/** Whether a place on a hold's line lies between its ends, or so much beyond them. */
export function onPiece(hold: Hold, at: Point, slack: number): boolean {
  if (!hold.piece) return true;
  const [a, b] = hold.piece;
  const t = (at[0] - a[0]) * hold.u[0] + (at[1] - a[1]) * hold.u[1];
  return t >= -slack && t <= Math.hypot(b[0] - a[0], b[1] - a[1]) + slack;
}

/** Where two holds cross, if that is near a place and the two are not all but parallel; null otherwise. */
export function crossing(first: Hold, second: Hold, near: Point, reach: number): Point | null {
  const det = first.u[0] * second.u[1] - first.u[1] * second.u[0];
  if (Math.abs(det) < 0.1) return null;
  const dx = second.through[0] - first.through[0];
  const dy = second.through[1] - first.through[1];
  const t = (dx * second.u[1] - dy * second.u[0]) / det;
  const at: Point = [first.through[0] + first.u[0] * t, first.through[1] + first.u[1] * t];
  return Math.hypot(at[0] - near[0], at[1] - near[1]) > reach ? null : at;
}
