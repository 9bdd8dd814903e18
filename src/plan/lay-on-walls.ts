import type { Id } from '../base/ids.ts';
import { distance } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { alongOf } from './openings.ts';
import type { Wall } from './plan.ts';

/** How near the face of a wall a side that was drawn by hand may lie and still be meant for it: half a foot. */
const NEAR = 152;
/** How much of a wall and a side must lie side by side. */
const LEAST_OVERLAP = 50;
/** Sine of the angle up to which a wall and a side count as parallel: two degrees. */
const PARALLEL = 0.035;

interface Side {
  readonly a: Point;
  readonly b: Point;
}

const crossOf = (p: Point, q: Point): number => p[0] * q[1] - p[1] * q[0];
const to = ({ a, b }: Side): Point => [b[0] - a[0], b[1] - a[1]];

/** How far a place lies beside the line of a side, with sign. */
const besideOf = (side: Side, p: Point): number =>
  crossOf(to(side), [p[0] - side.a[0], p[1] - side.a[1]]) / (distance(side.a, side.b) || 1);

/** How much of a wall lies along a side, mm; 0 where they are not parallel or too far apart. */
function overlap(wall: Wall, side: Side, near: number): number {
  const length = distance(side.a, side.b);
  const sine = crossOf(to(wall), to(side)) / (length * distance(wall.a, wall.b));
  if (Math.abs(sine) > PARALLEL) return 0;
  const reach = near + wall.thickness / 2;
  const [p, q] = [alongOf(side, wall.a), alongOf(side, wall.b)];
  const from = Math.max(0, Math.min(p, q));
  const end = Math.min(length, Math.max(p, q));
  // Aside where they lie side by side; at its far end a long wall may be anywhere.
  const middle = alongOf(wall, pointAt(side, (from + end) / 2));
  const beside = besideOf(side, pointAt(wall, middle));
  return Math.abs(beside) > reach ? 0 : Math.max(0, end - from);
}

function pointAt(side: Side, along: number): Point {
  const length = distance(side.a, side.b) || 1;
  const [dx, dy] = to(side);
  return [side.a[0] + (dx * along) / length, side.a[1] + (dy * along) / length];
}

/** The walls along a side, the one with the most of it first. */
function wallsAlong(walls: readonly Wall[], side: Side, near: number): Wall[] {
  return walls
    .map((wall) => ({ wall, much: overlap(wall, side, near) }))
    .filter(({ much }) => much >= LEAST_OVERLAP)
    .sort((a, b) => b.much - a.much)
    .map(({ wall }) => wall);
}

/** Where two endless lines cross; null where they are all but parallel. */
function crossing(p: Side, q: Side): Point | null {
  const det = crossOf(to(p), to(q));
  if (Math.abs(det) < PARALLEL * distance(p.a, p.b) * distance(q.a, q.b)) return null;
  const t = crossOf([q.a[0] - p.a[0], q.a[1] - p.a[1]], to(q)) / det;
  return [p.a[0] + to(p)[0] * t, p.a[1] + to(p)[1] * t];
}

/** A side that is on no wall goes to the end of a wall that its neighbour was laid on, where that is near its corner. */
function toWallEnd(side: Side, beside: readonly (Wall | undefined)[], near: number): Side {
  let best: Point | null = null;
  let least = near + 62;
  for (const wall of beside)
    for (const end of wall ? [wall.a, wall.b] : []) {
      const far = Math.min(distance(end, side.a), distance(end, side.b));
      if (Math.abs(besideOf(side, end)) > near || far > least * 2) continue;
      least = far;
      best = end;
    }
  if (!best) return side;
  const [dx, dy] = to(side);
  return { a: best, b: [best[0] + dx, best[1] + dy] };
}

/**
 * Lays the sides of an outline on walls that run along them within half a foot: corners go to where the lines cross.
 * A side of a typed length is laid only on a wall in whose body it lies: what somebody measured stays as it is.
 *
 * @returns the outline, whole mm, and the walls that it was laid on, in no order; an outline far from every wall as it is
 */
export function layOnWalls(
  walls: readonly Wall[],
  outline: readonly Point[],
  typed = false,
): { readonly outline: readonly Point[]; readonly used: readonly Id[] } {
  const sides = outline.map((a, i): Side => ({ a, b: outline[(i + 1) % outline.length]! }));
  const near = typed ? 0 : NEAR;
  const along = sides.map((side) => wallsAlong(walls, side, near));
  const used = [...new Set(along.flat().map((wall) => wall.id))];
  if (used.length === 0) return { outline, used };
  const count = sides.length;
  const lines = sides.map((side, i): Side => {
    const wall = along[i]![0];
    if (wall) return wall;
    const beside = [along[(i + count - 1) % count]![0], along[(i + 1) % count]![0]];
    return toWallEnd(side, beside, near);
  });
  const laid = outline.map((corner, i): Point => {
    const at = crossing(lines[(i + count - 1) % count]!, lines[i]!);
    if (!at || distance(at, corner) > 4 * NEAR) return corner;
    return [Math.round(at[0]) + 0, Math.round(at[1]) + 0];
  });
  return { outline: laid, used };
}
