import type { Point } from './point.ts';

/**
 * Whether a point lies in a polygon (even-odd rule). Points on the border count as inside.
 * Exact for integer coordinates within the plan's range.
 */
export function insidePolygon(outline: readonly Point[], x: number, y: number): boolean {
  let inside = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const [ax, ay] = outline[j]!;
    const [bx, by] = outline[i]!;
    const cross = (bx - ax) * (y - ay) - (by - ay) * (x - ax);
    if (
      cross === 0 &&
      x >= Math.min(ax, bx) &&
      x <= Math.max(ax, bx) &&
      y >= Math.min(ay, by) &&
      y <= Math.max(ay, by)
    ) {
      return true;
    }
    if (ay > y !== by > y && cross > 0 === by > ay) inside = !inside;
  }
  return inside;
}

/** Twice the signed area; positive when the corners run clockwise as drawn (y down). */
export function doubleArea(outline: readonly Point[]): number {
  let sum = 0;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const [ax, ay] = outline[j]!;
    const [bx, by] = outline[i]!;
    sum += ax * by - bx * ay;
  }
  return sum;
}

/** The middle of the area, rounded to mm; the middle of the corners where the area is zero. */
export function middleOf(outline: readonly Point[]): Point {
  const [ox, oy] = outline[0]!;
  let twice = 0;
  let sx = 0;
  let sy = 0;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const ax = outline[j]![0] - ox;
    const ay = outline[j]![1] - oy;
    const bx = outline[i]![0] - ox;
    const by = outline[i]![1] - oy;
    const cross = ax * by - bx * ay;
    twice += cross;
    sx += (ax + bx) * cross;
    sy += (ay + by) * cross;
  }
  if (twice === 0) {
    const n = outline.length;
    const mean = (axis: 0 | 1) => Math.round(outline.reduce((sum, p) => sum + p[axis], 0) / n);
    return [mean(0), mean(1)];
  }
  return [Math.round(ox + sx / (3 * twice)), Math.round(oy + sy / (3 * twice))];
}
