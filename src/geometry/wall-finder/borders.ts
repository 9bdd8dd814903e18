import type { Point } from '../point.ts';
import type { Line } from './directions.ts';
import type { Joined } from './joints.ts';
import type { Piece } from './straight.ts';

/** A side of a border is this much of the whole drawing long, and lies so near to its edge. */
const LONG = 0.9;
const EDGE = 0.03;

/** The corners of the least convex shape that holds some lines. */
export function hullOf(lines: readonly Line[]): readonly Point[] {
  const places = lines.flatMap(({ a, b }) => [a, b]).sort((p, q) => p[0] - q[0] || p[1] - q[1]);
  const half = (sorted: readonly Point[]): Point[] => {
    const out: Point[] = [];
    for (const p of sorted) {
      while (out.length > 1 && turn(out.at(-2)!, out.at(-1)!, p) <= 0) out.pop();
      out.push(p);
    }
    return out.slice(0, -1);
  };
  return [...half(places), ...half(places.reverse())];
}

const turn = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Walls without borders: those close round the drawing at its edge, and of the plan inside no wall meets them. */
export function withoutBorders(
  walls: readonly Joined<Piece>[],
  hull: readonly Point[],
): Joined<Piece>[] {
  const isBorder = walls.map(({ of, ends }) => ends > 0 && isSide(of, hull));
  // Where nothing lies inside, it is the plan itself.
  if (!isBorder.includes(false)) return [...walls];
  // What hangs together with the plan is of the plan.
  const fresh = walls.flatMap((_, i) => (isBorder[i] ? [] : [i]));
  for (let i = fresh.pop(); i !== undefined; i = fresh.pop())
    for (const other of walls[i]!.meets)
      if (isBorder[other]) {
        isBorder[other] = false;
        fresh.push(other);
      }
  return walls.filter((_, i) => !isBorder[i]);
}

/** Whether a piece runs along a whole side of the drawing. */
function isSide({ a, b }: Line, hull: readonly Point[]): boolean {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [u, v] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  let [from, to, low, high] = [0, 0, 0, 0];
  for (const [x, y] of hull) {
    const along = (x - a[0]) * u + (y - a[1]) * v;
    const across = (y - a[1]) * u - (x - a[0]) * v;
    [from, to] = [Math.min(from, along), Math.max(to, along)];
    [low, high] = [Math.min(low, across), Math.max(high, across)];
  }
  return length >= LONG * (to - from) && Math.min(-low, high) <= EDGE * (high - low);
}
