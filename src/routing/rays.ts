import type { Point } from '../geometry/point.ts';
import type { Leg, Place } from './attach.ts';
import type { Beside } from './beside.ts';
import type { Taker } from './best.ts';
import type { Graph } from './graph.ts';
import { covers, lowerBound, sideAt, upperBound } from './lines.ts';
import { mediumAt, sameProfile, type Toll, toll, UNITS } from './medium.ts';
import { type Ray, rayLeg } from './ray.ts';
import { meetTracks } from './ray-tracks.ts';
import { BEND } from './search.ts';
import type { Start } from './starts.ts';
import type { Track } from './tracks.ts';
import { Walk } from './walk.ts';

const SIDES = [0, 1] as const;

/** A pathway by which a terminal comes to the plane, when it joined that from its own height. */
export interface Via {
  readonly track: Track;
  readonly z: number;
  readonly side: 0 | 1;
  readonly leg: Leg;
}

/** Follows the line through a start along one axis, both ways and on both sides, and turns off at every chance. */
export function castRays(
  graph: Graph,
  beside: Beside,
  place: Place,
  goal: Point,
  start: Start,
  axis: 0 | 1,
  via: Via | null,
  best: Taker,
): void {
  const c = axis === 0 ? start.y : start.x;
  const { media } = graph;
  const pair = beside(axis, c);
  const equal = via === null && (pair[0] === pair[1] || sameProfile(pair[0], pair[1]));
  const from = axis === 0 ? start.x : start.y;
  // Towards the goal first, so that what goes the other way is soon given up.
  const toward: readonly (0 | 1)[] = goal[axis] >= from ? [1, 0] : [0, 1];
  for (const side of SIDES) {
    if (side === 1 && equal) continue;
    const profile = pair[side];
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
      const end = meetLines(graph, ray, best);
      meetTracks(graph, ray, end, best);
    }
  }
}

/**
 * Turns off a ray at every line across it, to the node before and the node after. Answers with the position beyond
 * which the ray need not be looked at:
 * - where it meets a node of its own line, since the rest is in the graph;
 * - where nothing beyond can be better than what is known. What is left from a node beside the ray is at most the way
 *   from it to the ray and on along the ray; so the way on along the ray is at least the difference.
 */
function meetLines(graph: Graph, ray: Ray, best: Taker): number {
  const { media, bend } = graph;
  const { c, side, forward } = ray;
  const across = (1 - ray.axis) as 0 | 1;
  const lines = graph.lines[across];
  const list = graph.list[across];
  const position = across === 0 ? graph.x : graph.y;
  const walk = new Walk(media, ray.profile, ray.from, forward);
  const out: Toll = { cost: 0, length: 0 };
  const step = forward ? 1 : -1;
  let i = forward ? lowerBound(lines.c, ray.from) : upperBound(lines.c, ray.from) - 1;
  for (; i >= 0 && i < lines.count; i += step) {
    const d = lines.c[i]!;
    const dSide = lines.side[i] as 0 | 1;
    if (d === ray.from && dSide !== forward) continue;
    if (!covers(lines, i, c, side)) continue;
    if (!walk.to(d, dSide)) return d;
    const cost = ray.cost + walk.cost;
    if (ray.axis === 0 ? best.hopelessFrom(cost, d, c) : best.hopelessFrom(cost, c, d)) return d;
    const low = graph.from[across][i]!;
    const high = graph.from[across][i + 1]!;
    const k = before(graph, across, list, low, high, c, side);
    const own = 2 * Math.abs(d - ray.from);
    for (let j = Math.max(k, low); j <= k + 1 && j < high; j++) {
      const node = list[j]!;
      const p = position[node]!;
      const second = ray.second + walk.second;
      if (p === c && graph.lineOf[ray.axis][node]! >= 0 && sideAt(graph, across, node) === side) {
        if (best.better(cost, second, own, 2 * node + ray.axis))
          best.keep(ray.start, [...ray.legs, rayLeg(ray, d, dSide)]);
        return d;
      }
      const left = best.left(2 * node + across);
      // The least that a turn and the way from the ray to the node can cost.
      const least = bend + best.least(Math.abs(p - c));
      const beyond = cost + left - least > best.most();
      if (!beyond && cost + left + bend > best.most()) continue;
      const mine = walk.medium();
      const profile = lines.profiles[i]!;
      const theirs = mediumAt(profile, c, side);
      if (media.list[theirs]!.barred) continue;
      const pSide = sideAt(graph, across, node);
      if (j === k) toll(media, profile, p, pSide, c, side, out);
      else toll(media, profile, c, side, p, pSide, out);
      if (out.cost < 0) continue;
      const drop = mine === theirs ? 0 : media.step(mine, theirs);
      const price = mine === theirs ? 0 : media.price(mine, theirs);
      const turned = bend + drop * UNITS + price + out.cost;
      if (beyond) {
        if (cost + left - turned > best.most()) return d;
        continue;
      }
      const s = second + BEND + Math.round(2 * (drop + out.length));
      if (!best.better(cost + turned, s, own, 2 * node + across)) continue;
      best.keep(ray.start, [
        ...ray.legs,
        rayLeg(ray, d, dSide),
        {
          on: 'line',
          axis: across,
          c: d,
          side: dSide,
          profile,
          from: c,
          to: p,
          fromSide: side,
          toSide: pSide,
        },
      ]);
    }
  }
  return forward ? Infinity : -Infinity;
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
    if (position[list[mid]!]! <= at) lo = mid + 1;
    else hi = mid;
  }
  lo--;
  while (lo >= from && position[list[lo]!] === at && sideAt(graph, axis, list[lo]!) > side) lo--;
  return lo;
}
