import type { Point } from './point.ts';

/** The place on a straight piece that is nearest to a point, not rounded; its own end where the piece has no length. */
export function nearestOnSegment(a: Point, b: Point, p: Point): Point {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const square = dx * dx + dy * dy;
  if (square === 0) return a;
  const t = Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square));
  return [a[0] + t * dx, a[1] + t * dy];
}

/** The straight distance between two places, mm. */
export const distance = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** The length of a chain of straight pieces. */
export const chainLength = (points: readonly Point[]): number =>
  points.reduce((sum, p, i) => (i === 0 ? 0 : sum + distance(points[i - 1]!, p)), 0);

/**
 * The four corners of a wall: its centreline grown by half the thickness on all sides, ends included. A wall without
 * length is a square.
 */
export function wallCorners(a: Point, b: Point, thickness: number): readonly Point[] {
  const length = distance(a, b);
  const half = thickness / 2;
  const ux = length === 0 ? 1 : (b[0] - a[0]) / length;
  const uy = length === 0 ? 0 : (b[1] - a[1]) / length;
  const along = [ux * half, uy * half] as const;
  const across = [-uy * half, ux * half] as const;
  return [
    [a[0] - along[0] + across[0], a[1] - along[1] + across[1]],
    [b[0] + along[0] + across[0], b[1] + along[1] + across[1]],
    [b[0] + along[0] - across[0], b[1] + along[1] - across[1]],
    [a[0] - along[0] - across[0], a[1] - along[1] - across[1]],
  ];
}

/** The place on a wall's faces that is nearest to a point, from inside the wall as well. */
export function nearestOnWall(a: Point, b: Point, thickness: number, p: Point): Point {
  const corners = wallCorners(a, b, thickness);
  let best = corners[0]!;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 4; i++) {
    const q = nearestOnSegment(corners[i]!, corners[(i + 1) % 4]!, p);
    const d = distance(p, q);
    if (d < least) {
      least = d;
      best = q;
    }
  }
  return best;
}
