import Flatbush from 'flatbush';
import type { Point } from '../point.ts';
import { type Direction, into, type Line, outOf } from './directions.ts';

/** Whether a line stands across a direction at a place, from one height over it to another. */
export type Jambs = (x: number, low: number, high: number) => boolean;

/** How far from the place it may stand, mm: what fastens a pane lies between its end and the jamb. */
const NEAR = 80;
/** It covers so much of the way across at least. */
const MOST = 0.8;
/** It leans by no more than this against what stands square: the tangent of 5 degrees. */
const LEAN = 0.09;

/** Finds what stands across in a drawing; made once, and asked in the frame of each direction. */
export function jambsIn(lines: readonly Line[]): (direction: Direction) => Jambs {
  if (lines.length === 0) return () => () => false;
  const index = new Flatbush(lines.length);
  for (const { a, b } of lines)
    index.add(
      Math.min(a[0], b[0]),
      Math.min(a[1], b[1]),
      Math.max(a[0], b[0]),
      Math.max(a[1], b[1]),
    );
  index.finish();
  return (direction) => (x, low, high) => {
    const [p, q] = [low, high].map((y) => outOf(direction, [x, y])) as [Point, Point];
    const around = index.search(
      Math.min(p[0], q[0]) - NEAR,
      Math.min(p[1], q[1]) - NEAR,
      Math.max(p[0], q[0]) + NEAR,
      Math.max(p[1], q[1]) + NEAR,
    );
    return around.some((i) => {
      const [a, b] = [into(direction, lines[i]!.a), into(direction, lines[i]!.b)];
      if (Math.abs(a[0] - b[0]) > LEAN * Math.abs(a[1] - b[1])) return false;
      const across = Math.min(high, Math.max(a[1], b[1])) - Math.max(low, Math.min(a[1], b[1]));
      return Math.abs((a[0] + b[0]) / 2 - x) <= NEAR && across >= MOST * (high - low);
    });
  };
}
