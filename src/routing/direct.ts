import type { Arrival } from './arrival.ts';
import type { LineMeeting, TrackMeeting, Whole } from './best.ts';
import { BEND } from './field.ts';
import type { Graph } from './graph.ts';
import { backwards, type Leg } from './leg.ts';
import { UNITS } from './medium.ts';
import { mediumAt, sameProfile, stretchAt } from './profile.ts';
import { type Ray, rayLeg, rayToll, turnLeg } from './ray.ts';
import { isBefore, type Toll, tollBetween } from './toll.ts';
import { trackToll } from './track-tolls.ts';

/*
 * Ways from a terminal to a closet that touch no node of the network: ray meets ray, or both turn into one line, or
 * come to one track, between the same two nodes or stops. Where a node lies between them the network has the way.
 */

/** By a ray of the terminal and one of the closet: straight on, or round the corner where they cross. */
export function byRays(graph: Graph, ray: Ray, arrival: Arrival, best: Whole): void {
  for (const other of arrival.rays) {
    if (ray.axis === other.axis) {
      if (ray.c === other.c) straightOn(graph, ray, other, best);
      continue;
    }
    if (!leadsTo(ray, other.c, other.side) || !leadsTo(other, ray.c, ray.side)) continue;
    const far = Math.abs(other.c - ray.from) + Math.abs(ray.c - other.from);
    if (ray.cost + other.cost + graph.bend + best.bound.least(far) > best.bound.most()) continue;
    roundCorner(graph, ray, other, best);
  }
}

/** Whether a ray comes to a side of a position; one that sets out the other way comes to the other side of its start. */
const leadsTo = ({ forward, from }: Ray, to: number, side: 0 | 1): boolean =>
  to === from ? side === forward : to > from === (forward === 1);

function straightOn({ media }: Graph, ray: Ray, other: Ray, best: Whole): void {
  if (ray.side !== other.side && !sameProfile(ray.profile, other.profile)) return;
  const out: Toll = { cost: 0, length: 0 };
  tollBetween(media, ray.profile, ray.from, ray.forward, other.from, other.forward, out);
  if (out.cost < 0) return;
  const second = ray.second + Math.round(2 * out.length) + other.second;
  if (!best.whole(ray.cost + out.cost + other.cost, second, 0)) return;
  const leg = rayLeg(ray, other.from, other.forward);
  best.keep(ray.start, [...ray.legs, leg, ...backwards(other.legs)]);
}

function roundCorner({ media, bend }: Graph, ray: Ray, other: Ray, best: Whole): void {
  const out: Toll = { cost: 0, length: 0 };
  const here = stretchAt(ray.profile, other.c, other.side);
  rayToll(media, ray, other.c, here, out);
  if (out.cost < 0) return;
  const { cost, length } = out;
  const there = stretchAt(other.profile, ray.c, ray.side);
  rayToll(media, other, ray.c, there, out);
  if (out.cost < 0) return;
  const mine = ray.profile.row.media[here]!;
  const theirs = other.profile.row.media[there]!;
  const step = media.step(mine, theirs);
  const turn = bend + step * UNITS + media.price(mine, theirs);
  const lengths = Math.round(2 * (length + out.length + step));
  const own = 2 * Math.abs(other.c - ray.from);
  if (
    !best.whole(
      ray.cost + cost + turn + out.cost + other.cost,
      ray.second + BEND + lengths + other.second,
      own,
    )
  )
    return;
  best.keep(ray.start, [
    ...ray.legs,
    rayLeg(ray, other.c, other.side),
    ...backwards([...other.legs, rayLeg(other, ray.c, ray.side)]),
  ]);
}

/** By a line that a ray of the terminal crosses, and one of the closet as well. */
export function byLine(
  graph: Graph,
  line: number,
  mine: LineMeeting,
  theirs: LineMeeting,
  best: Whole,
): void {
  const { media, bend } = graph;
  const { ray, d, dSide } = mine;
  const other = theirs.ray;
  if (mine.gap !== theirs.gap) return;
  const least = mine.cost + theirs.cost + 2 * bend + best.bound.least(Math.abs(ray.c - other.c));
  if (least > best.bound.most()) return;
  const profile = graph.lines[(1 - ray.axis) as 0 | 1].profiles[line]!;
  const out: Toll = { cost: 0, length: 0 };
  tollBetween(media, profile, ray.c, ray.side, other.c, other.side, out);
  if (out.cost < 0) return;
  const near = mediumAt(profile, ray.c, ray.side);
  const far = mediumAt(profile, other.c, other.side);
  const step = media.step(mine.medium, near) + media.step(far, theirs.medium);
  const prices = media.price(mine.medium, near) + media.price(far, theirs.medium);
  const cost = mine.cost + 2 * bend + step * UNITS + prices + out.cost + theirs.cost;
  const second = mine.second + 2 * BEND + Math.round(2 * (out.length + step)) + theirs.second;
  if (!best.whole(cost, second, 2 * Math.abs(d - ray.from))) return;
  best.keep(ray.start, [
    ...ray.legs,
    rayLeg(ray, d, dSide),
    turnLeg(ray, d, dSide, profile, other.c, other.side),
    ...backwards([...other.legs, rayLeg(other, d, dSide)]),
  ]);
}

/** By a track that the terminal comes to, and the closet as well. */
export function byTrack(
  graph: Graph,
  track: number,
  mine: TrackMeeting,
  theirs: TrackMeeting,
  best: Whole,
): void {
  if (mine.gap !== theirs.gap || mine.cost + theirs.cost > best.bound.most()) return;
  const out: Toll = { cost: 0, length: 0 };
  const [a, b] = isBefore(mine.p, mine.side, theirs.p, theirs.side)
    ? [mine, theirs]
    : [theirs, mine];
  const { pathwayFactor } = graph.site.prices;
  trackToll(graph.media, graph.tracks[track]!, a.p, a.side, b.p, b.side, pathwayFactor, out);
  if (out.cost < 0) return;
  const second = mine.second + Math.round(2 * out.length) + theirs.second;
  if (!best.whole(mine.cost + out.cost + theirs.cost, second, mine.own)) return;
  const leg: Leg = {
    on: 'track',
    track,
    from: mine.p,
    to: theirs.p,
    fromSide: mine.side,
    toSide: theirs.side,
  };
  best.keep(mine.start, [...mine.legs, leg, ...backwards(theirs.legs)]);
}
