import type { Point } from '../geometry/point.ts';
import { Best, type Taker, type Toward } from './best.ts';
import type { Graph, Stop } from './graph.ts';
import { covers, lowerBound, sideAt } from './lines.ts';
import { mediumAt, type Profile, sameProfile, type Toll, toll, UNITS } from './medium.ts';
import { BEND } from './search.ts';
import { type Start, startsOf } from './starts.ts';
import { elevationOn, placeOn, reachOf, type Track, trackToll } from './tracks.ts';

/** A stretch of a line of the plane, or of a track; it may have no length and then only says where the cable is. */
export type Leg =
  | {
      readonly on: 'line';
      readonly axis: 0 | 1;
      readonly c: number;
      readonly side: 0 | 1;
      readonly profile: Profile;
      readonly from: number;
      readonly to: number;
      readonly fromSide: 0 | 1;
      readonly toSide: 0 | 1;
    }
  | {
      readonly on: 'track';
      readonly track: number;
      readonly from: number;
      readonly to: number;
      readonly fromSide: 0 | 1;
      readonly toSide: 0 | 1;
    };

/** How a terminal joins the network: the best way found so far. */
export interface Attachment {
  readonly cost: number;
  readonly second: number;
  /** Length that no line of the network shares. */
  readonly own: number;
  readonly state: number;
  /** Where it enters the plane; null when it joins a pathway from its own height. */
  readonly start: Start | null;
  readonly legs: readonly Leg[];
}

export interface Place {
  readonly at: Point;
  readonly height: number;
  /** Index of its wall. */
  readonly wall: number | null;
  /** A floor outlet, which only an under-slab pathway serves. */
  readonly floor: boolean;
}

const SIDES = [0, 1] as const;
const scratch: () => Toll = () => ({ cost: 0, length: 0 });

/** The cheapest way from a terminal to what it is to reach, or null. */
export function attach(graph: Graph, toward: Toward, place: Place): Attachment | null {
  const best = new Best(toward);
  tryAll(graph, place, toward.goal, best);
  return best.found();
}

/** Every state that a terminal can join, whether or not a closet can be reached from there. */
export function reachable(graph: Graph, place: Place): number[] {
  const states: number[] = [];
  tryAll(graph, place, place.at, {
    better: (_cost, _second, _own, state) => {
      states.push(state);
      return false;
    },
    hopelessTo: () => false,
    hopelessFrom: () => false,
    keep: () => {},
  });
  return states;
}

function tryAll(graph: Graph, place: Place, goal: Point, best: Taker): void {
  joinTracks(graph, place, goal, best);
  if (place.floor) return;
  for (const start of startsOf(graph.ground, graph.media, place.at, place.wall))
    for (const axis of SIDES) castRays(graph, place, goal, start, axis, null, best);
}

/** A pathway by which a terminal comes to the plane, when it joined that from its own height. */
interface Via {
  readonly track: Track;
  readonly z: number;
  readonly side: 0 | 1;
  readonly leg: Leg;
}

function joinTracks(graph: Graph, place: Place, goal: Point, best: Taker): void {
  const { media, tracks } = graph;
  for (let index = 0; index < tracks.length; index++) {
    const track = tracks[index]!;
    if (place.floor && graph.ground.lines[track.line]?.pathway.kind !== 'under-slab') continue;
    for (const { p, lead } of reachOf(track, place.at, place.floor))
      for (const side of SIDES) {
        const z = elevationOn(media, track, p, side);
        const rise = Math.abs(z - place.height);
        const cost = rise * UNITS + Math.round(lead * 2 * graph.site.prices.pathwayFactor);
        alongTrack(graph, index, p, side, cost, 2 * (rise + lead), lead, null, [], best);
        if (!track.anywhere || track.axis === 2) continue;
        const leg: Leg = {
          on: 'track',
          track: index,
          from: p,
          to: p,
          fromSide: side,
          toSide: side,
        };
        const [x, y] = placeOn(track, p);
        for (const axis of SIDES)
          castRays(graph, place, goal, { x, y, lead }, axis, { track, z, side, leg }, best);
      }
  }
}

/** From a position of a track to the stops before and after it. */
function alongTrack(
  graph: Graph,
  index: number,
  p: number,
  side: 0 | 1,
  cost: number,
  second: number,
  own: number,
  start: Start | null,
  legs: readonly Leg[],
  best: Taker,
): void {
  const track = graph.tracks[index]!;
  const stops = graph.stops[index]!;
  const out = scratch();
  const factor = graph.site.prices.pathwayFactor;
  let after = 0;
  while (after < stops.length && isBefore(stops[after]!, p, side)) after++;
  for (let i = after - 1; i <= after; i++) {
    const stop = stops[i];
    if (!stop) continue;
    if (i < after) trackToll(graph.media, track, stop.p, stop.side, p, side, factor, out);
    else trackToll(graph.media, track, p, side, stop.p, stop.side, factor, out);
    if (out.cost < 0) continue;
    if (!best.better(cost + out.cost, second + Math.round(2 * out.length), own, stop.state))
      continue;
    best.keep(start, [
      ...legs,
      { on: 'track', track: index, from: p, to: stop.p, fromSide: side, toSide: stop.side },
    ]);
  }
}

const isBefore = (stop: Stop, p: number, side: number): boolean =>
  stop.p < p || (stop.p === p && stop.side < side);

interface Ray {
  readonly axis: 0 | 1;
  readonly c: number;
  readonly side: 0 | 1;
  readonly profile: Profile;
  readonly from: number;
  /** 1 towards more, 0 towards less; also the side of the start. */
  readonly forward: 0 | 1;
  readonly cost: number;
  readonly second: number;
  readonly start: Start;
  readonly legs: readonly Leg[];
}

/** Follows the line through a start along one axis, both ways and on both sides, and turns off at every chance. */
function castRays(
  graph: Graph,
  place: Place,
  goal: Point,
  start: Start,
  axis: 0 | 1,
  via: Via | null,
  best: Taker,
): void {
  const c = axis === 0 ? start.y : start.x;
  const { media } = graph;
  const below = media.beside(axis, c, 0);
  const above = media.beside(axis, c, 1);
  const equal = via === null && sameProfile(below, above);
  const from = axis === 0 ? start.x : start.y;
  // Towards the goal first, so that what goes the other way is soon given up.
  const toward: readonly (0 | 1)[] = goal[axis] >= from ? [1, 0] : [0, 1];
  for (const side of SIDES) {
    if (side === 1 && equal) continue;
    const profile = side === 0 ? below : above;
    for (const forward of toward) {
      const number = mediumAt(profile, from, forward);
      const medium = media.list[number]!;
      if (medium.barred) continue;
      const enter = media.entry(number);
      let rise = Math.abs(medium.z - place.height);
      let lead = Math.round(start.lead * 2 * medium.factor);
      let bends = 0;
      if (via) {
        // It leaves the pathway where it joined it, on the side that it joined.
        if ((via.track.axis === axis ? forward : side) !== via.side) continue;
        rise = Math.abs(via.z - place.height) + Math.abs(medium.z - via.z);
        lead = Math.round(start.lead * 2 * graph.site.prices.pathwayFactor);
        bends = via.track.axis === axis ? 0 : 1;
      }
      const ray: Ray = {
        axis,
        c,
        side,
        profile,
        from,
        forward,
        cost: rise * UNITS + enter + lead + bends * graph.bend,
        second: Math.round(2 * (rise + start.lead)) + bends * BEND,
        start,
        legs: via ? [via.leg] : [],
      };
      meetLines(graph, ray, best);
      meetTracks(graph, ray, best);
    }
  }
}

const rayLeg = (ray: Ray, to: number, toSide: 0 | 1): Leg => ({
  on: 'line',
  axis: ray.axis,
  c: ray.c,
  side: ray.side,
  profile: ray.profile,
  from: ray.from,
  to,
  fromSide: ray.forward,
  toSide,
});

function meetLines(graph: Graph, ray: Ray, best: Taker): void {
  const { media } = graph;
  const across = (1 - ray.axis) as 0 | 1;
  const lines = graph.lines[across];
  const list = graph.list[across];
  const position = across === 0 ? graph.x : graph.y;
  const out = scratch();
  const step = ray.forward ? 1 : -1;
  let i = ray.forward ? lowerBound(lines.c, ray.from) : upperBound(lines.c, ray.from) - 1;
  // Going on from line to line, so that each stretch of the ray is added once.
  let at = ray.from;
  let atSide: 0 | 1 = ray.forward;
  let cost = ray.cost;
  let second = ray.second;
  for (; i >= 0 && i < lines.count; i += step) {
    const d = lines.c[i]!;
    const dSide = lines.side[i] as 0 | 1;
    if (d === ray.from && dSide !== ray.forward) continue;
    if (ray.forward) toll(media, ray.profile, at, atSide, d, dSide, out);
    else toll(media, ray.profile, d, dSide, at, atSide, out);
    if (out.cost < 0) return;
    cost += out.cost;
    second += Math.round(2 * out.length);
    at = d;
    atSide = dSide;
    if (ray.axis === 0 ? best.hopelessFrom(cost, d, ray.c) : best.hopelessFrom(cost, ray.c, d))
      return;
    if (!covers(lines, i, ray.c, ray.side)) continue;
    const mine = mediumAt(ray.profile, d, dSide);
    const profile = lines.profiles[i]!;
    const theirs = mediumAt(profile, ray.c, ray.side);
    if (media.list[theirs]!.barred) continue;
    let turned = graph.bend;
    let drop = 0;
    if (mine !== theirs) {
      drop = media.step(mine, theirs);
      turned += drop * UNITS + media.price(mine, theirs);
    }
    const own = 2 * Math.abs(d - ray.from);
    const lo = graph.from[across][i]!;
    const hi = graph.from[across][i + 1]!;
    const k = before(graph, across, list, lo, hi, ray.c, ray.side);
    for (let j = Math.max(k, lo); j <= k + 1 && j < hi; j++) {
      const node = list[j]!;
      const p = position[node]!;
      const pSide = sideAt(graph, across, node);
      if (p === ray.c && pSide === ray.side && graph.lineOf[ray.axis][node]! >= 0)
        if (best.better(cost, second, own, 2 * node + ray.axis))
          best.keep(ray.start, [...ray.legs, rayLeg(ray, d, dSide)]);
      if (best.hopelessTo(cost + turned, 2 * node + across)) continue;
      if (j === k) toll(media, profile, p, pSide, ray.c, ray.side, out);
      else toll(media, profile, ray.c, ray.side, p, pSide, out);
      if (out.cost < 0) continue;
      const s = second + BEND + Math.round(2 * (drop + out.length));
      if (!best.better(cost + turned + out.cost, s, own, 2 * node + across)) continue;
      best.keep(ray.start, [
        ...ray.legs,
        rayLeg(ray, d, dSide),
        {
          on: 'line',
          axis: across,
          c: d,
          side: dSide,
          profile,
          from: ray.c,
          to: p,
          fromSide: ray.side,
          toSide: pSide,
        },
      ]);
    }
  }
}

function upperBound(sorted: Float64Array, value: number): number {
  let lo = 0;
  let hi = sorted.length;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (sorted[mid]! <= value) lo = mid + 1;
    else hi = mid;
  }
  return lo;
}

/** The last place in a line's list whose node is not after a position. */
function before(
  graph: Graph,
  axis: 0 | 1,
  list: Int32Array,
  from: number,
  to: number,
  at: number,
  side: 0 | 1,
): number {
  const position = axis === 0 ? graph.x : graph.y;
  let lo = from;
  let hi = to;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    const p = position[list[mid]!]!;
    if (p < at || (p === at && sideAt(graph, axis, list[mid]!) <= side)) lo = mid + 1;
    else hi = mid;
  }
  return lo - 1;
}

/** Where the ray meets a track that can be joined anywhere. */
function meetTracks(graph: Graph, ray: Ray, best: Taker): void {
  const { tracks } = graph;
  for (let index = 0; index < tracks.length; index++) {
    const track = tracks[index]!;
    if (!track.anywhere || track.axis === ray.axis) continue;
    const hit = hitOf(track, ray.axis, ray.c);
    if (!hit || (ray.forward ? hit.at < ray.from : hit.at > ray.from)) continue;
    for (const side of SIDES) {
      if (track.axis === 2 ? side === 1 : hit.at === ray.from && side !== ray.forward) continue;
      meetTrack(graph, ray, index, hit, side, best);
    }
  }
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
  const out = scratch();
  if (ray.forward) toll(media, ray.profile, ray.from, 1, hit.at, side, out);
  else toll(media, ray.profile, hit.at, side, ray.from, 0, out);
  if (out.cost < 0) return;
  const medium = mediumAt(ray.profile, hit.at, side);
  const trackSide = track.axis === 2 ? 0 : ray.side;
  const face = track.line < 0 ? mediumAt(track.profile, hit.p, trackSide) : medium;
  if (media.list[face]!.barred || media.list[medium]!.barred) return;
  const drop = Math.abs(media.list[medium]!.z - elevationOn(media, track, hit.p, trackSide));
  const wall = track.line < 0 ? media.price(face, medium) : media.entry(medium);
  alongTrack(
    graph,
    index,
    hit.p,
    trackSide,
    ray.cost + out.cost + drop * UNITS + wall + graph.bend,
    ray.second + BEND + Math.round(2 * (out.length + drop)),
    2 * Math.abs(hit.at - ray.from),
    ray.start,
    [...ray.legs, rayLeg(ray, hit.at, side)],
    best,
  );
}

/** Where a line along `axis` at c crosses a track: position on the ray's line, and on the track. */
function hitOf(track: Track, axis: 0 | 1, c: number): { at: number; p: number } | null {
  const [lo, hi] = [Math.min(track.pa, track.pb), Math.max(track.pa, track.pb)];
  if (track.axis !== 2) {
    if (c < lo || c > hi) return null;
    return { at: track.axis === 0 ? track.ay : track.ax, p: c };
  }
  const k =
    axis === 0 ? (c - track.ay) / (track.by - track.ay) : (c - track.ax) / (track.bx - track.ax);
  if (!(k >= 0 && k <= 1)) return null;
  const at =
    axis === 0 ? track.ax + k * (track.bx - track.ax) : track.ay + k * (track.by - track.ay);
  return { at, p: k * track.pb };
}
