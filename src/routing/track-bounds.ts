import type { Point } from '../geometry/point.ts';
import { JOIN_REACH } from './site.ts';
import type { Track } from './tracks.ts';

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

/** Whether a place is so near to the bounds of a track that it may join it from its own height. */
export const isNear = ({ lo, hi }: TrackBounds, track: number, [x, y]: Point): boolean =>
  x >= lo[0][track]! - JOIN_REACH &&
  x <= hi[0][track]! + JOIN_REACH &&
  y >= lo[1][track]! - JOIN_REACH &&
  y <= hi[1][track]! + JOIN_REACH;
