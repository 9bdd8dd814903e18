import type { Point } from './point.ts';

/**
 * Takes out what is too small to be meant: coordinates of neighbouring corners that differ by at most `tolerance`
 * in one axis become equal (their rounded mean), so that an edge a hair off the axis lies along it.
 * A chain of two points is a line; `closed` joins the last corner to the first.
 */
export function straighten(
  points: readonly Point[],
  tolerance: number,
  closed: boolean,
): readonly Point[] {
  if (points.length === 2 && !closed) return straightenLine(points[0]!, points[1]!, tolerance);
  const x = level(
    points.map((p) => p[0]),
    points.map((p) => p[1]),
    tolerance,
    closed,
  );
  const y = level(
    points.map((p) => p[1]),
    points.map((p) => p[0]),
    tolerance,
    closed,
  );
  return points.map((_, i) => [x[i]!, y[i]!]);
}

/** The same for the line between two points: most of what a plan holds. */
function straightenLine([ax, ay]: Point, [bx, by]: Point, tolerance: number): readonly Point[] {
  const dx = Math.abs(ax - bx);
  const dy = Math.abs(ay - by);
  if (dx <= tolerance && dy > 10 * tolerance) {
    const x = Math.round((ax + bx) / 2);
    return [
      [x, ay],
      [x, by],
    ];
  }
  if (dy <= tolerance && dx > 10 * tolerance) {
    const y = Math.round((ay + by) / 2);
    return [
      [ax, y],
      [bx, y],
    ];
  }
  return [
    [ax, ay],
    [bx, by],
  ];
}

function level(
  values: number[],
  along: number[],
  tolerance: number,
  closed: boolean,
): readonly number[] {
  const n = values.length;
  const group = values.map((_, i) => i);
  const root = (i: number): number => (group[i] === i ? i : root(group[i]!));
  for (let i = 0; i < n - (closed ? 0 : 1); i++) {
    const j = (i + 1) % n;
    const off = Math.abs(values[i]! - values[j]!);
    const run = Math.abs(along[i]! - along[j]!);
    if (off <= tolerance && run > 10 * tolerance) group[root(j)] = root(i);
  }
  const sums = new Map<number, [sum: number, count: number]>();
  values.forEach((v, i) => {
    const entry = sums.get(root(i)) ?? [0, 0];
    sums.set(root(i), [entry[0] + v, entry[1] + 1]);
  });
  return values.map((v, i) => {
    const [sum, count] = sums.get(root(i))!;
    return count === 1 ? v : Math.round(sum / count);
  });
}
