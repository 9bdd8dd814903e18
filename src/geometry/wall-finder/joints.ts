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
  /** Whether it goes on in another in its line. */
  readonly goesOn: boolean;
}

/** Bars that cross at less than this run side by side: the sine of 10 degrees. */
const SQUARE = 0.17;
/** Bars that turn by no more than this lie in one line: the sine of 2 degrees. */
const STRAIGHT = 0.035;
/** Of the thinner of two that go on in one another so much lies before the thicker. */
const BEFORE = 0.6;
/** What a bar meets with an end lies within so much of its length from that end. */
const NEARER = 0.4;
/** Walls that meet may miss one another by 2½ in., mm: a frame may stand between. */
const SLACK = 64;

interface Meeting {
  readonly at: Point;
  readonly with: number;
  /** How far the end is from where they meet. */
  readonly far: number;
}

/** What an end meets: a bar that it runs into, and one that goes on in its line. */
interface End {
  readonly across: Meeting | null;
  readonly ahead: Meeting | null;
}

/**
 * Lays the ends of bars on the middle lines of those that they meet, at a corner or against a face; an end that meets
 * none is drawn in by half the thickness, since a wall's body goes on so far beyond it. One that goes on in a thicker
 * bar in its line, as a wall does in a pier, ends where the middle line of that one begins.
 *
 * The ends that come in are those of the bodies.
 */
export function joinEnds<B extends Bar>(bars: readonly B[]): Joined<B>[] {
  const index = barIndex(bars);
  const all = bars.map((bar, i) => {
    const around = near(index, bar, 2 * SLACK).filter((other) => other !== i);
    const end = (at: Point, from: Point): End => ({
      across: nearest(around.map((other) => meet(at, from, bar.thickness, bars[other]!, other))),
      ahead: nearest(around.map((other) => goOn(at, from, bar.thickness, bars[other]!, other))),
    });
    return [end(bar.a, bar.b), end(bar.b, bar.a)] as const;
  });
  const held = holding(all);
  const meets = bars.map(() => new Set<number>());
  const ends = all.map((both, i) =>
    both.map(({ across, ahead }) => {
      for (const one of [across, held.has(i) ? ahead : null])
        if (one) {
          meets[i]!.add(one.with);
          meets[one.with]!.add(i);
        }
      return across ?? (held.has(i) ? ahead : null);
    }),
  );
  return bars.map((of, i) => {
    const [a, b] = ends[i]!;
    return {
      of,
      a: a?.at ?? drawnIn(of.a, of.b, of.thickness / 2),
      b: b?.at ?? drawnIn(of.b, of.a, of.thickness / 2),
      meets: [...meets[i]!],
      ends: (a ? 1 : 0) + (b ? 1 : 0),
      goesOn: held.has(i) && all[i]!.some(({ ahead }) => ahead),
    };
  });
}

const nearest = (found: readonly (Meeting | null)[]): Meeting | null =>
  found.filter((one) => one !== null).sort((p, q) => p.far - q.far)[0] ?? null;

/** The bars that run into others or are run into, and all that go on from those: a row of boxes alone holds nothing. */
function holding(all: readonly (readonly [End, End])[]): ReadonlySet<number> {
  const onward = all.map(() => new Set<number>());
  const held = new Set<number>();
  all.forEach((both, i) => {
    for (const { across, ahead } of both) {
      if (across) held.add(i).add(across.with);
      if (!ahead) continue;
      onward[i]!.add(ahead.with);
      onward[ahead.with]!.add(i);
    }
  });
  // A set gives what is added while it is gone through as well.
  for (const i of held) for (const other of onward[i]!) held.add(other);
  return held;
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
): Meeting | null {
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
  // What crosses it nearer to its other end is met by that one.
  if (far < -NEARER * Math.hypot(end[0] - from[0], end[1] - from[1])) return null;
  const room = thickness / 2 / sin + other.thickness / 2 / tan + SLACK;
  const length = Math.hypot(other.b[0] - other.a[0], other.b[1] - other.a[1]);
  if (along < -room || along > length + room) return null;
  return { at: [end[0] + u[0] * far, end[1] + u[1] * far], far: Math.abs(far), with: number };
}

/** Where the end of a body goes on in another in its line; null where it does not. */
function goOn(
  end: Point,
  from: Point,
  thickness: number,
  other: Bar,
  number: number,
): Meeting | null {
  const u = unit(from, end);
  const v = unit(other.a, other.b);
  if (Math.abs(u[0] * v[1] - u[1] * v[0]) > STRAIGHT) return null;
  const [p, q] = [other.a, other.b].map((at): Point => {
    const [dx, dy] = [at[0] - end[0], at[1] - end[1]];
    return [dx * u[0] + dy * u[1], dy * u[0] - dx * u[1]];
  }) as [Point, Point];
  const [gap, aside] = p[0] < q[0] ? p : q;
  if (Math.abs(gap) > SLACK) return null;
  const [own, its] = [thickness / 2, other.thickness / 2];
  const before = Math.min(own, aside + its) - Math.max(-own, aside - its);
  if (before < 2 * BEFORE * Math.min(own, its)) return null;
  const deep = its > own ? Math.min(its, Math.abs(q[0] - p[0]) / 2) : -own;
  const by = Math.max(deep + gap, -Math.hypot(from[0] - end[0], from[1] - end[1]) / 2);
  return { at: [end[0] + u[0] * by, end[1] + u[1] * by], far: Math.abs(gap), with: number };
}

function unit(from: Point, to: Point): Point {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
}
