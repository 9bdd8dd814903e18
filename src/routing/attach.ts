import type { Point } from '../geometry/point.ts';
import { type Graph, lowerBound, type Stop, sideAt } from './graph.ts';
import { covers } from './lines.ts';
import { mediumAt, type Profile, type Toll, toll, UNITS } from './medium.ts';
import { BEND, type Field, type Seed } from './search.ts';
import { JOIN_REACH } from './site.ts';
import { type Start, startsOf } from './starts.ts';
import { elevationOn, nearestOn, placeOn, type Track, trackToll } from './tracks.ts';

/** A stretch of a line of the plane, or of a track; it may have no length and then only says where the cable is. */
export type Leg =
  | {
      readonly on: 'line';
      readonly axis: 0 | 1;
      readonly c: number;
      readonly side: 0 | 1;
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

/** States at which a closet is reached, with what the rest of the way costs. */
export function seedsOf(graph: Graph, at: Point, height: number): Seed[] {
  const { ground, media } = graph;
  const seeds: Seed[] = [];
  for (const start of startsOf(ground, media, at, null)) {
    for (let node = 0; node < graph.nodes; node++) {
      if (graph.x[node] !== start.x || graph.y[node] !== start.y) continue;
      for (const axis of SIDES) {
        const line = graph.lineOf[axis][node]!;
        if (line < 0) continue;
        const position = axis === 0 ? start.x : start.y;
        const medium =
          media.list[
            mediumAt(graph.lines[axis].profiles[line]!, position, sideAt(graph, axis, node))
          ]!;
        if (medium.barred) continue;
        const rise = Math.abs(medium.z - height);
        seeds.push({
          state: 2 * node + axis,
          cost: rise * UNITS + Math.round(start.lead * 2 * medium.factor),
          second: Math.round(2 * (rise + start.lead)),
        });
      }
    }
  }
  graph.tracks.forEach((track, index) => {
    for (const { p, lead } of reachOf(track, at, false))
      for (const stop of graph.stops[index]!) {
        if (stop.p !== p) continue;
        const rise = Math.abs(stop.z - height);
        seeds.push({
          state: stop.state,
          cost: Math.round((rise + lead) * UNITS),
          second: Math.round(2 * (rise + lead)),
        });
      }
  });
  return seeds;
}

/** Positions of a pathway's track that a terminal may join from its own height. */
function reachOf(track: Track, at: Point, floor: boolean): { p: number; lead: number }[] {
  if (track.line < 0) return [];
  const candidates: number[] = [];
  if (track.anywhere) candidates.push(nearestOn(track, at));
  else {
    if (track.openA) candidates.push(track.pa);
    if (track.openB) candidates.push(track.pb);
  }
  if (floor && track.anywhere) return [];
  return candidates.flatMap((p) => {
    const [x, y] = placeOn(track, p);
    const lead = Math.abs(x - at[0]) + Math.abs(y - at[1]);
    return lead <= JOIN_REACH ? [{ p, lead }] : [];
  });
}

/** The cheapest way from a terminal into a field, or null. */
export function attach(graph: Graph, field: Field, place: Place): Attachment | null {
  const best = new Best(field);
  joinTracks(graph, place, best);
  if (place.floor) return best.found;
  for (const start of startsOf(graph.ground, graph.media, place.at, place.wall))
    for (const axis of SIDES) castRays(graph, place, start, axis, best);
  return best.found;
}

/** Every state that a terminal can join, whether or not a closet can be reached from there. */
export function reachable(graph: Graph, place: Place): number[] {
  const states: number[] = [];
  const all = {
    take: (_c: number, _s: number, _o: number, state: number) => {
      states.push(state);
    },
  };
  joinTracks(graph, place, all);
  if (!place.floor)
    for (const start of startsOf(graph.ground, graph.media, place.at, place.wall))
      for (const axis of SIDES) castRays(graph, place, start, axis, all);
  return states;
}

interface Taker {
  take(
    cost: number,
    second: number,
    own: number,
    state: number,
    start: Start | null,
    legs: () => readonly Leg[],
  ): void;
}

class Best implements Taker {
  found: Attachment | null = null;
  readonly #field: Field;

  constructor(field: Field) {
    this.#field = field;
  }

  /** Ties: fewest bends, shortest, then what shares most of its way, then the lowest state. */
  take(
    cost: number,
    second: number,
    own: number,
    state: number,
    start: Start | null,
    legs: () => readonly Leg[],
  ): void {
    const rest = this.#field.cost[state]!;
    const c = cost + rest;
    if (c === Infinity) return;
    const old = this.found;
    if (old && c > old.cost) return;
    const s = second + this.#field.second[state]!;
    if (old && c === old.cost) {
      if (s > old.second) return;
      if (s === old.second && (own > old.own || (own === old.own && state >= old.state))) return;
    }
    this.found = { cost: c, second: s, own, state, start, legs: legs() };
  }
}

function joinTracks(graph: Graph, place: Place, best: Taker): void {
  const { media, tracks } = graph;
  tracks.forEach((track, index) => {
    if (place.floor && graph.ground.lines[track.line]?.pathway.kind !== 'under-slab') return;
    for (const { p, lead } of reachOf(track, place.at, place.floor))
      for (const side of SIDES) {
        const rise = Math.abs(elevationOn(media, track, p, side) - place.height);
        const cost = Math.round((rise + lead) * UNITS);
        alongTrack(graph, index, p, side, cost, 2 * (rise + lead), lead, null, [], best);
      }
  });
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
  const out = scratch();
  const factor = graph.site.prices.pathwayFactor;
  const [before, after] = neighbours(graph.stops[index]!, p, side);
  for (const stop of [before, after]) {
    if (!stop) continue;
    if (stop === before) trackToll(graph.media, track, stop.p, stop.side, p, side, factor, out);
    else trackToll(graph.media, track, p, side, stop.p, stop.side, factor, out);
    if (out.cost < 0) continue;
    best.take(cost + out.cost, second + Math.round(2 * out.length), own, stop.state, start, () => [
      ...legs,
      { on: 'track', track: index, from: p, to: stop.p, fromSide: side, toSide: stop.side },
    ]);
  }
}

function neighbours(
  stops: readonly Stop[],
  p: number,
  side: 0 | 1,
): [before: Stop | undefined, after: Stop | undefined] {
  let i = 0;
  while (i < stops.length && (stops[i]!.p < p || (stops[i]!.p === p && stops[i]!.side < side))) i++;
  return [stops[i - 1], stops[i]];
}

/** Follows the line through a start along one axis, both ways and on both sides, and turns off at every chance. */
function castRays(graph: Graph, place: Place, start: Start, axis: 0 | 1, best: Taker): void {
  const c = axis === 0 ? start.y : start.x;
  const { media } = graph;
  const below = media.beside(axis, c, 0);
  const above = media.beside(axis, c, 1);
  const equal =
    below.media.length === above.media.length &&
    below.media.every((m, i) => m === above.media[i] && below.starts[i] === above.starts[i]);
  for (const side of SIDES) {
    if (side === 1 && equal) continue;
    const profile = side === 0 ? below : above;
    const from = axis === 0 ? start.x : start.y;
    for (const forward of SIDES) {
      const medium = media.list[mediumAt(profile, from, forward)]!;
      if (medium.barred) continue;
      const rise = Math.abs(medium.z - place.height);
      const ray: Ray = {
        axis,
        c,
        side,
        profile,
        from,
        forward,
        cost: rise * UNITS + Math.round(start.lead * 2 * medium.factor),
        second: Math.round(2 * (rise + start.lead)),
        start,
      };
      meetLines(graph, ray, best);
      meetTracks(graph, ray, best);
    }
  }
}

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
}

function rayToll(graph: Graph, ray: Ray, to: number, toSide: 0 | 1, out: Toll): void {
  if (ray.forward) toll(graph.media, ray.profile, ray.from, 1, to, toSide, out);
  else toll(graph.media, ray.profile, to, toSide, ray.from, 0, out);
}

const rayLeg = (ray: Ray, to: number, toSide: 0 | 1): Leg => ({
  on: 'line',
  axis: ray.axis,
  c: ray.c,
  side: ray.side,
  from: ray.from,
  to,
  fromSide: ray.forward,
  toSide,
});

function meetLines(graph: Graph, ray: Ray, best: Taker): void {
  const { media } = graph;
  const across = (1 - ray.axis) as 0 | 1;
  const lines = graph.lines[across];
  const out = scratch();
  const turn = scratch();
  const first = lowerBound(lines.c, ray.from);
  const step = ray.forward ? 1 : -1;
  let i = ray.forward ? first : upperBound(lines.c, ray.from) - 1;
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
    if (!covers(lines, i, ray.c, ray.side)) continue;
    const mine = mediumAt(ray.profile, d, dSide);
    const theirs = mediumAt(lines.profiles[i]!, ray.c, ray.side);
    if (media.list[theirs]!.barred) continue;
    const drop = mine === theirs ? 0 : media.step(mine, theirs);
    const turned = graph.bend + (mine === theirs ? 0 : drop * UNITS + media.price(mine, theirs));
    const list = graph.list[across];
    const lo = graph.from[across][i]!;
    const hi = graph.from[across][i + 1]!;
    const k = before(graph, across, list, lo, hi, ray.c, ray.side);
    for (const j of [k, k + 1]) {
      if (j < lo || j >= hi) continue;
      const node = list[j]!;
      const p = across === 0 ? graph.x[node]! : graph.y[node]!;
      const pSide = sideAt(graph, across, node);
      if (p === ray.c && pSide === ray.side && graph.lineOf[ray.axis][node]! >= 0)
        best.take(cost, second, 2 * Math.abs(d - ray.from), 2 * node + ray.axis, ray.start, () => [
          rayLeg(ray, d, dSide),
        ]);
      if (j === k) toll(media, lines.profiles[i]!, p, pSide, ray.c, ray.side, turn);
      else toll(media, lines.profiles[i]!, ray.c, ray.side, p, pSide, turn);
      if (turn.cost < 0) continue;
      best.take(
        cost + turned + turn.cost,
        second + BEND + Math.round(2 * (drop + turn.length)),
        2 * Math.abs(d - ray.from),
        2 * node + across,
        ray.start,
        () => [
          rayLeg(ray, d, dSide),
          {
            on: 'line',
            axis: across,
            c: d,
            side: dSide,
            from: ray.c,
            to: p,
            fromSide: ray.side,
            toSide: pSide,
          },
        ],
      );
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
  const { media, tracks } = graph;
  const out = scratch();
  tracks.forEach((track, index) => {
    if (!track.anywhere || track.axis === ray.axis) return;
    const hit = hitOf(track, ray.axis, ray.c);
    if (!hit || (ray.forward ? hit.at < ray.from : hit.at > ray.from)) return;
    for (const side of SIDES) {
      if (track.axis === 2 ? side === 1 : hit.at === ray.from && side !== ray.forward) continue;
      rayToll(graph, ray, hit.at, side, out);
      if (out.cost < 0) continue;
      const medium = mediumAt(ray.profile, hit.at, side);
      const trackSide = track.axis === 2 ? 0 : ray.side;
      const face = track.line < 0 ? mediumAt(track.profile, hit.p, trackSide) : medium;
      if (media.list[face]!.barred || media.list[medium]!.barred) continue;
      const drop = Math.abs(media.list[medium]!.z - elevationOn(media, track, hit.p, trackSide));
      alongTrack(
        graph,
        index,
        hit.p,
        trackSide,
        ray.cost + out.cost + drop * UNITS + media.price(face, medium) + graph.bend,
        ray.second + BEND + Math.round(2 * (out.length + drop)),
        2 * Math.abs(hit.at - ray.from),
        ray.start,
        [rayLeg(ray, hit.at, side)],
        best,
      );
    }
  });
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
