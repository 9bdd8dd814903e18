import type { Point } from './point.ts';

/**
 * An area of the plane: an axis-parallel box where it is one, and its outline always.
 * Areas are open: what lies on the border is not inside.
 */
export interface Shape {
  /** Bounds, and the area itself when `box` is true. */
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly box: boolean;
  /** Corners, x and y in turn. */
  readonly flat: Float64Array;
}

/** The area of an upright box; x0 <= x1 and y0 <= y1. */
export function boxShape(x0: number, y0: number, x1: number, y1: number): Shape {
  return { x0, y0, x1, y1, box: true, flat: Float64Array.of(x0, y0, x1, y0, x1, y1, x0, y1) };
}

/** The area inside an outline by the even-odd rule. */
export function outlineShape(points: readonly Point[]): Shape {
  const flat = new Float64Array(points.length * 2);
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  points.forEach(([x, y], i) => {
    flat[2 * i] = x;
    flat[2 * i + 1] = y;
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  });
  return isRectangle(points) ? boxShape(x0, y0, x1, y1) : { x0, y0, x1, y1, box: false, flat };
}

function isRectangle(points: readonly Point[]): boolean {
  if (points.length !== 4) return false;
  const [a, b, c, d] = points as [Point, Point, Point, Point];
  const one = a[1] === b[1] && b[0] === c[0] && c[1] === d[1] && d[0] === a[0];
  const other = a[0] === b[0] && b[1] === c[1] && c[0] === d[0] && d[1] === a[1];
  return one || other;
}

/**
 * Where a line just beside a coordinate runs inside the shape: appends pairs of positions to `out`.
 *
 * @param axis 0 for a line along x at y = c, 1 for a line along y at x = c
 * @param side 0 for the limit from below c, 1 from above: on a border the side decides
 */
export function spansBeside(
  shape: Shape,
  axis: 0 | 1,
  c: number,
  side: 0 | 1,
  out: number[],
): number {
  const lo = axis === 0 ? shape.y0 : shape.x0;
  const hi = axis === 0 ? shape.y1 : shape.x1;
  if (side === 0 ? c <= lo || c > hi : c < lo || c >= hi) return 0;
  if (shape.box) {
    const from = axis === 0 ? shape.x0 : shape.y0;
    const to = axis === 0 ? shape.x1 : shape.y1;
    if (from >= to) return 0;
    out.push(from, to);
    return 2;
  }
  return spansOfOutline(shape.flat, axis, c, side, out);
}

function spansOfOutline(
  flat: Float64Array,
  axis: 0 | 1,
  c: number,
  side: 0 | 1,
  out: number[],
): number {
  const start = out.length;
  const across = 1 - axis;
  const n = flat.length;
  for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
    const a = flat[j + across]!;
    const b = flat[i + across]!;
    const above = side === 0 ? a >= c !== b >= c : a > c !== b > c;
    if (!above) continue;
    const u = flat[j + axis]!;
    const v = flat[i + axis]!;
    out.push(u === v ? u : u + ((c - a) / (b - a)) * (v - u));
  }
  if (out.length - start > 2) sortTail(out, start);
  else if (out.length - start === 2 && out[start]! > out[start + 1]!) {
    const first = out[start]!;
    out[start] = out[start + 1]!;
    out[start + 1] = first;
  }
  return out.length - start;
}

function sortTail(out: number[], start: number): void {
  const tail = out.splice(start).sort((a, b) => a - b);
  for (const v of tail) out.push(v);
}

/**
 * Where the straight line from a to b, going on both ways, runs inside the shape: appends pairs of positions
 * along it, in mm from a.
 */
export function spansAlong(
  shape: Shape,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  out: number[],
): number {
  const start = out.length;
  const length = Math.hypot(bx - ax, by - ay);
  const ux = (bx - ax) / length;
  const uy = (by - ay) / length;
  const { flat } = shape;
  const n = flat.length;
  for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
    const px = flat[j]! - ax;
    const py = flat[j + 1]! - ay;
    const qx = flat[i]! - ax;
    const qy = flat[i + 1]! - ay;
    const p = ux * py - uy * px;
    const q = ux * qy - uy * qx;
    if (p > 0 === q > 0) continue;
    const k = p / (p - q);
    out.push(ux * (px + k * (qx - px)) + uy * (py + k * (qy - py)));
  }
  if (out.length - start > 1) sortTail(out, start);
  return out.length - start;
}

/** Whether the quadrant just beside (x, y) lies inside: `sx` and `sy` are 0 towards less, 1 towards more. */
export function holdsQuadrant(
  shape: Shape,
  x: number,
  y: number,
  sx: 0 | 1,
  sy: 0 | 1,
  scratch: number[] = [],
): boolean {
  scratch.length = 0;
  const n = spansBeside(shape, 0, y, sy, scratch);
  for (let i = 0; i < n; i += 2) {
    const from = scratch[i]!;
    const to = scratch[i + 1]!;
    if (sx === 0 ? x > from && x <= to : x >= from && x < to) return true;
  }
  return false;
}
