import type { Point } from '../geometry/point.ts';
import { JOIN_REACH } from './site.ts';
import type { Track } from './track.ts';

/** Between which coordinates each track lies, along both axes: asked of all tracks for each ray. */
export interface TrackBounds {
  /** Along x, and along y. */
  readonly lo: readonly [Float64Array, Float64Array];
  readonly hi: readonly [Float64Array, Float64Array];
}

/** The bounds of tracks, by their numbers. */
export function boundsOf(tracks: readonly Track[]): TrackBounds {
  return {
    lo: [
      Float64Array.from(tracks, ({ ax, bx }) => Math.min(ax, bx)),
      Float64Array.from(tracks, ({ ay, by }) => Math.min(ay, by)),
    ],
    hi: [
      Float64Array.from(tracks, ({ ax, bx }) => Math.max(ax, bx)),
      Float64Array.from(tracks, ({ ay, by }) => Math.max(ay, by)),
    ],
  };
}

/** Calls back for each track whose bounds are so near to a place that it may be joined from its own height. */
export function eachNear(bounds: TrackBounds, at: Point, visit: (track: number) => void): void {
  // By their places: taking rows apart is slow here, and this is asked once for every look at an outlet.
  const x = at[0];
  const y = at[1];
  const left = bounds.lo[0];
  const right = bounds.hi[0];
  const low = bounds.lo[1];
  const high = bounds.hi[1];
  for (let i = 0; i < left.length; i++)
    if (
      x >= left[i]! - JOIN_REACH &&
      x <= right[i]! + JOIN_REACH &&
      y >= low[i]! - JOIN_REACH &&
      y <= high[i]! + JOIN_REACH
    )
      visit(i);
}
