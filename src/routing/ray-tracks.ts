import type { Taker } from './best.ts';
import { BEND } from './field.ts';
import type { Graph, Stop } from './graph.ts';
import type { Leg } from './leg.ts';
import { UNITS } from './medium.ts';
import { isInside, mediumAt, stretchAt } from './profile.ts';
import { type Ray, rayLeg, rayToll } from './ray.ts';
import type { Start } from './starts.ts';
import type { Toll } from './toll.ts';
import type { Track } from './track.ts';
import { elevationOn, trackToll } from './track-tolls.ts';

const SIDES = [0, 1] as const;

/** Where the ray meets a track that can be joined anywhere, up to a position of the ray. */
export function meetTracks(graph: Graph, ray: Ray, end: number, best: Taker): void {
  const { tracks, trackBounds } = graph;
  const { c } = ray;
  const across = (1 - ray.axis) as 0 | 1;
  const least = trackBounds.lo[across];
  const most = trackBounds.hi[across];
  const lo = ray.forward ? ray.from : end;
  const hi = ray.forward ? end : ray.from;
  for (let index = 0; index < tracks.length; index++) {
    if (c < least[index]! || c > most[index]!) continue;
    const track = tracks[index]!;
    if (!track.anywhere) continue;
    if (track.axis === ray.axis) {
      setOutAlong(graph, ray, index, best);
      continue;
    }
    const k = track.axis === 2 ? shareAt(track, ray.axis, ray.c) : 0;
    const at = placeAcross(track, ray.axis, k);
    if (at < lo || at > hi) continue;
    const cost = ray.cost + best.bound.least(Math.abs(at - ray.from));
    if (
      ray.axis === 0
        ? best.bound.hopelessFrom(cost, at, ray.c)
        : best.bound.hopelessFrom(cost, ray.c, at)
    )
      continue;
    const hit = { at, p: track.axis === 2 ? k * track.pb : ray.c };
    // Where nothing begins or ends on the ray, one side is as good as the other.
    const one = track.axis === 2 || (at !== ray.from && isInside(ray.profile, at));
    for (const side of SIDES) {
      if (one ? side === 1 : at === ray.from && side !== ray.forward) continue;
      meetTrack(graph, ray, index, hit, side, best);
    }
  }
}

/** How far along a track, as a share of it, a line along an axis at c crosses it. */
const shareAt = (track: Track, axis: 0 | 1, c: number): number =>
  axis === 0 ? (c - track.ay) / (track.by - track.ay) : (c - track.ax) / (track.bx - track.ax);

/** Position along an axis at a share of a track. */
function placeAcross(track: Track, axis: 0 | 1, k: number): number {
  if (axis === 0) return track.ax + k * (track.bx - track.ax);
  return track.ay + k * (track.by - track.ay);
}

/** Where the ray begins on a track that lies along it: it may go on by the track at once. Farther on, nodes join them. */
function setOutAlong(graph: Graph, ray: Ray, index: number, best: Taker): void {
  const { pa, pb } = graph.tracks[index]!;
  if (ray.from < Math.min(pa, pb) || ray.from > Math.max(pa, pb)) return;
  meetTrack(graph, ray, index, { at: ray.from, p: ray.from }, ray.forward, best);
}

function meetTrack(
  graph: Graph,
  ray: Ray,
  index: number,
  hit: { at: number; p: number },
  side: 0 | 1,
  best: Taker,
): void {
  const { media } = graph;
  const track = graph.tracks[index]!;
  const out: Toll = { cost: 0, length: 0 };
  const stretch = stretchAt(ray.profile, hit.at, side);
  rayToll(media, ray, hit.at, stretch, out);
  if (out.cost < 0) return;
  const medium = ray.profile.row.media[stretch]!;
  const turned = track.axis === ray.axis ? 0 : 1;
  const trackSide = track.axis === 2 ? 0 : turned ? ray.side : side;
  const face = track.line < 0 ? mediumAt(track.profile, hit.p, trackSide) : medium;
  if (media.list[face]!.barred || media.list[medium]!.barred) return;
  const drop = Math.abs(media.list[medium]!.z - elevationOn(media, track, hit.p, trackSide));
  const wall = track.line < 0 ? media.price(face, medium) : media.entry(medium);
  alongTrack(
    graph,
    index,
    hit.p,
    trackSide,
    ray.cost + out.cost + drop * UNITS + wall + turned * graph.bend,
    ray.second + turned * BEND + Math.round(2 * (out.length + drop)),
    2 * Math.abs(hit.at - ray.from),
    ray.start,
    () => [...ray.legs, rayLeg(ray, hit.at, side)],
    best,
  );
}

/**
 * From a position of a track to the stops before and after it.
 *
 * @param legs to there, made when they are wanted: few ways are kept
 */
export function alongTrack(
  graph: Graph,
  index: number,
  p: number,
  side: 0 | 1,
  cost: number,
  second: number,
  own: number,
  start: Start | null,
  legs: () => readonly Leg[],
  best: Taker,
): void {
  const track = graph.tracks[index]!;
  const stops = graph.stops[index]!;
  const out: Toll = { cost: 0, length: 0 };
  const factor = graph.site.prices.pathwayFactor;
  const after = firstAfter(stops, p, side);
  if (best.minds(index))
    best.comesTo(index, { p, side, gap: after, cost, second, own, start, legs: legs() });
  for (let i = Math.max(0, after - 1); i <= after && i < stops.length; i++) {
    const stop = stops[i]!;
    if (cost + best.bound.left(stop.state) > best.bound.most()) continue;
    if (i < after) trackToll(graph.media, track, stop.p, stop.side, p, side, factor, out);
    else trackToll(graph.media, track, p, side, stop.p, stop.side, factor, out);
    if (out.cost < 0) continue;
    if (!best.better(cost + out.cost, second + Math.round(2 * out.length), own, stop.state))
      continue;
    best.keep(start, [
      ...legs(),
      { on: 'track', track: index, from: p, to: stop.p, fromSide: side, toSide: stop.side },
    ]);
  }
}

/** The first stop that does not lie before a place. */
function firstAfter(stops: readonly Stop[], p: number, side: number): number {
  let lo = 0;
  let hi = stops.length;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    const stop = stops[mid]!;
    if (stop.p < p || (stop.p === p && stop.side < side)) lo = mid + 1;
    else hi = mid;
  }
  return lo;
}
