import Flatbush from 'flatbush';
import type { Point } from '../point.ts';
import { without } from './bodies.ts';

/** A wall as a line with a thickness. */
export interface Bar {
  readonly a: Point;
  readonly b: Point;
  readonly thickness: number;
}

/** Two bars run side by side if they turn by no more than this against one another: the sine of 3 degrees. */
const TURN = 0.052;

/** Where bars lie, to be asked for those near another. */
export function barIndex(bars: readonly Bar[]): Flatbush | null {
  if (bars.length === 0) return null;
  const index = new Flatbush(bars.length);
  for (const { a, b, thickness } of bars) {
    const half = thickness / 2;
    index.add(
      Math.min(a[0], b[0]) - half,
      Math.min(a[1], b[1]) - half,
      Math.max(a[0], b[0]) + half,
      Math.max(a[1], b[1]) + half,
    );
  }
  index.finish();
  return index;
}

/** The bars whose boxes come within a reach of another's. */
export function near(index: Flatbush | null, { a, b, thickness }: Bar, reach: number): number[] {
  const by = thickness / 2 + reach;
  return (
    index?.search(
      Math.min(a[0], b[0]) - by,
      Math.min(a[1], b[1]) - by,
      Math.max(a[0], b[0]) + by,
      Math.max(a[1], b[1]) + by,
    ) ?? []
  );
}

/**
 * The stretches of a bar, from its end `a`, that no other lies on along the same line.
 *
 * @param beside mm; where it is given, others count whose faces come so near to those of the bar
 */
export function bareStretches(
  bar: Bar,
  others: readonly Bar[],
  beside?: number,
): [number, number][] {
  const length = Math.hypot(bar.b[0] - bar.a[0], bar.b[1] - bar.a[1]);
  const along: Point = [(bar.b[0] - bar.a[0]) / length, (bar.b[1] - bar.a[1]) / length];
  const at = ([x, y]: Point): Point => [
    (x - bar.a[0]) * along[0] + (y - bar.a[1]) * along[1],
    (y - bar.a[1]) * along[0] - (x - bar.a[0]) * along[1],
  ];
  const covered = others.flatMap((other): [number, number][] => {
    const [p, q] = [at(other.a), at(other.b)];
    const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
    if (Math.abs(dy) > TURN * Math.hypot(dx, dy)) return [];
    const [t, u] = [bar.thickness, other.thickness];
    const reach = beside === undefined ? Math.max(t, u) / 2 : (t + u) / 2 + beside;
    if (Math.abs(p[1] + q[1]) / 2 > reach) return [];
    const half = other.thickness / 2;
    return [[Math.min(p[0], q[0]) - half, Math.max(p[0], q[0]) + half]];
  });
  return without([0, length], covered);
}
