import type { Point } from './point.ts';

/** A turn about the origin and back. */
export interface Frame {
  /** A place in the turned frame, on whole mm. */
  readonly into: (p: Point) => Point;
  /** Back again, on whole mm. */
  readonly back: (x: number, y: number) => Point;
}

/** The frame whose x axis lies `degrees` clockwise (as drawn, y down) of east. At 0 nothing is rounded. */
export function frameAt(degrees: number): Frame {
  const quarter = ((degrees % 90) + 90) % 90 === 0;
  if (degrees === 0)
    return {
      // A point of its own: those of a plan are frozen, and engines read frozen arrays many times more slowly.
      into: (p) => [p[0], p[1]],
      back: (x, y) => [Math.round(x), Math.round(y)],
    };
  const turn = (degrees * Math.PI) / 180;
  const cos = quarter ? Math.round(Math.cos(turn)) : Math.cos(turn);
  const sin = quarter ? Math.round(Math.sin(turn)) : Math.sin(turn);
  return {
    into: ([x, y]) => [Math.round(x * cos + y * sin) + 0, Math.round(y * cos - x * sin) + 0],
    back: (x, y) => [Math.round(x * cos - y * sin) + 0, Math.round(x * sin + y * cos) + 0],
  };
}
