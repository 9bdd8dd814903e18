import type { Point } from '../geometry/point.ts';
import { finderOf } from './finder.ts';
import { JOIN_REACH } from './site.ts';
import type { Track } from './track.ts';

/** Numbers of the tracks whose bounds come near those of a track, ascending. */
export type NearTracks = (track: Track) => readonly number[];

/** An index of tracks by their bounds. */
export function nearTracks(tracks: readonly Track[]): NearTracks {
  const box = (t: Track) => ({
    x0: Math.min(t.ax, t.bx) - 1,
    y0: Math.min(t.ay, t.by) - 1,
    x1: Math.max(t.ax, t.bx) + 1,
    y1: Math.max(t.ay, t.by) + 1,
  });
  const finder = finderOf(tracks.map((t) => ({ shape: box(t) })));
  return (track) => {
    const { x0, y0, x1, y1 } = box(track);
    return finder.near(x0, y0, x1, y1);
  };
}

/** The place where two tracks cross or touch, unless they run side by side. */
export function meeting(s: Track, t: Track): Point | null {
  const sx = s.bx - s.ax;
  const sy = s.by - s.ay;
  const tx = t.bx - t.ax;
  const ty = t.by - t.ay;
  const turn = sx * ty - sy * tx;
  if (turn === 0) return null;
  const qx = t.ax - s.ax;
  const qy = t.ay - s.ay;
  const k = (qx * ty - qy * tx) / turn;
  const m = (qx * sy - qy * sx) / turn;
  const slip = 1e-9;
  if (k < -slip || k > 1 + slip || m < -slip || m > 1 + slip) return null;
  if (s.axis === 0 && t.axis === 1) return [t.ax, s.ay];
  if (s.axis === 1 && t.axis === 0) return [s.ax, t.ay];
  if (m < slip) return [t.ax, t.ay];
  if (m > 1 - slip) return [t.bx, t.by];
  if (k < slip) return [s.ax, s.ay];
  if (k > 1 - slip) return [s.bx, s.by];
  return [s.ax + k * sx, s.ay + k * sy];
}

/** The place at a position of a track. */
export function placeOn(track: Track, p: number): Point {
  if (track.axis === 0) return [p, track.ay];
  if (track.axis === 1) return [track.ax, p];
  if (p <= track.pa) return [track.ax, track.ay];
  if (p >= track.pb) return [track.bx, track.by];
  const k = p / track.pb;
  return [track.ax + k * (track.bx - track.ax), track.ay + k * (track.by - track.ay)];
}

/** The position on a track nearest to a place. */
export function nearestOn(track: Track, [x, y]: Point): number {
  const [lo, hi] = [Math.min(track.pa, track.pb), Math.max(track.pa, track.pb)];
  const free =
    track.axis === 0
      ? x
      : track.axis === 1
        ? y
        : ((x - track.ax) * (track.bx - track.ax) + (y - track.ay) * (track.by - track.ay)) /
          track.pb;
  return Math.min(hi, Math.max(lo, free));
}

/** Positions of a pathway's track that a terminal may join from its own height. */
export function reachOf(track: Track, at: Point, floor: boolean): { p: number; lead: number }[] {
  if (track.line < 0) return [];
  const candidates: number[] = [];
  if (track.anywhere) candidates.push(nearestOn(track, at));
  else {
    if (track.openA && (floor || !track.boxA)) candidates.push(track.pa);
    if (track.openB && (floor || !track.boxB)) candidates.push(track.pb);
  }
  if (floor && track.anywhere) return [];
  return candidates.flatMap((p) => {
    const [x, y] = placeOn(track, p);
    const lead = Math.abs(x - at[0]) + Math.abs(y - at[1]);
    return lead <= JOIN_REACH ? [{ p, lead }] : [];
  });
}
