import type { Point } from '../point.ts';
import { type Bar, barIndex, near } from './covering.ts';

/** A bar whose ends were laid where it meets others. */
export interface Joined<B extends Bar> {
  readonly of: B;
  readonly a: Point;
  readonly b: Point;
  /** The others that it meets, by their place in the list. */
  readonly meets: readonly number[];
  /** How many of its ends meet one. */
  readonly ends: number;
}

/** Bars that cross at less than this run side by side: the sine of 10 degrees. */
const SQUARE = 0.17;
/** Faces of walls that meet may miss one another by so much, mm. */
const SLACK = 40;

interface Meeting {
  readonly at: Point;
  readonly with: number;
}

/**
 * Lays the ends of bars on the middle lines of those that they meet, at a corner or against a face; an end that meets
 * none is drawn in by half the thickness, since a wall's body goes on so far beyond it.
 *
 * The ends that come in are those of the bodies.
 */
export function joinEnds<B extends Bar>(bars: readonly B[]): Joined<B>[] {
  const index = barIndex(bars);
  const meets = bars.map(() => new Set<number>());
  const ends = bars.map((bar, i) => {
    const around = near(index, bar, 2 * SLACK).filter((other) => other !== i);
    const meeting = (end: Point, from: Point): Meeting | null => {
      const found = around
        .map((other) => meet(end, from, bar.thickness, bars[other]!, other))
        .filter((one) => one !== null)
        .sort((p, q) => p.far - q.far)[0];
      if (!found) return null;
      meets[i]!.add(found.with);
      meets[found.with]!.add(i);
      return found;
    };
    return [meeting(bar.a, bar.b), meeting(bar.b, bar.a)] as const;
  });
  return bars.map((of, i) => {
    const [a, b] = ends[i]!;
    return {
      of,
      a: a?.at ?? drawnIn(of.a, of.b, of.thickness / 2),
      b: b?.at ?? drawnIn(of.b, of.a, of.thickness / 2),
      meets: [...meets[i]!],
      ends: (a ? 1 : 0) + (b ? 1 : 0),
    };
  });
}

function drawnIn(end: Point, other: Point, by: number): Point {
  const length = Math.hypot(other[0] - end[0], other[1] - end[1]);
  const share = Math.min(by, length / 2) / length;
  return [end[0] + (other[0] - end[0]) * share, end[1] + (other[1] - end[1]) * share];
}

/** Where the end of a body meets the middle line of another; null where it does not. */
function meet(
  end: Point,
  from: Point,
  thickness: number,
  other: Bar,
  number: number,
): (Meeting & { readonly far: number }) | null {
  const u = unit(from, end);
  const v = unit(other.a, other.b);
  const sin = Math.abs(u[0] * v[1] - u[1] * v[0]);
  if (sin < SQUARE) return null;
  const tan = sin / Math.max(0.01, Math.abs(u[0] * v[0] + u[1] * v[1]));
  const det = u[0] * v[1] - u[1] * v[0];
  const [dx, dy] = [other.a[0] - end[0], other.a[1] - end[1]];
  // How far beyond the end the middle lines cross, and how far along the other from its end a.
  const far = (dx * v[1] - dy * v[0]) / det;
  const along = (dx * u[1] - dy * u[0]) / det;
  const out = other.thickness / 2 / sin + thickness / 2 / tan + SLACK;
  if (far > out || far < -out - thickness / 2) return null;
  const room = thickness / 2 / sin + other.thickness / 2 / tan + SLACK;
  const length = Math.hypot(other.b[0] - other.a[0], other.b[1] - other.a[1]);
  if (along < -room || along > length + room) return null;
  return { at: [end[0] + u[0] * far, end[1] + u[1] * far], far: Math.abs(far), with: number };
}

function unit(from: Point, to: Point): Point {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
}
