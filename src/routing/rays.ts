import type { Point } from '../geometry/point.ts';
import type { Place } from './attach.ts';
import type { Sides } from './beside.ts';
import type { Taker } from './best.ts';
import { BEND } from './field.ts';
import type { Graph } from './graph.ts';
import type { Leg } from './leg.ts';
import { UNITS } from './medium.ts';
import { type Stretches, stretchAt, stretchFrom } from './profile.ts';
import { type Ray, rayLeg, turnLeg } from './ray.ts';
import { meetTracks } from './ray-tracks.ts';
import type { Start } from './starts.ts';
import { type Toll, tollWithin } from './toll.ts';
import type { Track } from './track.ts';
import { walkFrom, walkTo } from './walk.ts';

const SIDES = [0, 1] as const;

/** Which ways along an axis are gone first. */
const UP_FIRST: readonly (0 | 1)[] = [1, 0];
const DOWN_FIRST: readonly (0 | 1)[] = [0, 1];

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
  sides: readonly [Sides, Sides],
  place: Place,
  goal: Point,
  start: Start,
  axis: 0 | 1,
  via: Via | null,
  best: Taker,
): void {
  const c = axis === 0 ? start.y : start.x;
  const { media } = graph;
  const { below, above, alike } = sides[axis];
  const equal = via === null && alike;
  const legs = via ? [via.leg] : [];
  const first = sides[(1 - axis) as 0 | 1].line;
  const from = axis === 0 ? start.x : start.y;
  // Towards the goal first, so that what goes the other way is soon given up.
  const toward = goal[axis] >= from ? UP_FIRST : DOWN_FIRST;
  for (const side of SIDES) {
    if (side === 1 && equal) continue;
    const profile = side === 0 ? below : above;
    const after = stretchAt(profile, from, 1);
    const until = profile.row.starts[after] === from ? after - 1 : after;
    for (const forward of toward) {
      const stretch = forward ? after : until;
      const number = profile.row.media[stretch]!;
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
      const cost = rise * UNITS + enter + lead + bends * graph.bend;
      if (best.bound.hopelessFrom(cost, start.x, start.y)) continue;
      const ray: Ray = {
        axis,
        c,
        side,
        profile,
        from,
        forward,
        stretch,
        cost,
        second: Math.round(2 * (rise + start.lead)) + bends * BEND,
        start,
        legs,
      };
      const end = meetLines(graph, ray, first, best);
      meetTracks(graph, ray, end, best);
      // Last, since a way that is known by now often spares the look at it.
      best.sets(ray);
    }
  }
}

/**
 * Turns off a ray at every line across it, to the node before and the node after. Answers with the position beyond
 * which the ray need not be looked at:
 * - where it meets a node of its own line, since the rest is in the graph;
 * - where nothing beyond can be better than what is known. What is left from a node beside the ray is at most the way
 *   from it to the ray and on along the ray; so the way on along the ray is at least the difference. That holds for
 *   ways by nodes. Those that come to the closet by none are still looked for, and those that join a slanted track
 *   between two of its stops.
 */
function meetLines(graph: Graph, ray: Ray, first: number, best: Taker): number {
  const { bend } = graph;
  const { bound } = best;
  const { c, side, forward, axis, from: origin } = ray;
  const across = (1 - axis) as 0 | 1;
  const lines = graph.lines[across];
  const { c: at, side: sides, lo, hi, count, row } = lines;
  const list = graph.list[across];
  const from = graph.from[across];
  const positions = graph.listPosition[across];
  const nodeSides = graph.listSide[across];
  const stretches = graph.listStretch[across];
  const marks = best.marks(ray);
  const { media } = graph;
  const mine = ray.profile.row;
  const walk = walkFrom(media, mine, origin, forward, ray.stretch);
  const turned: Toll = { cost: 0, length: 0 };
  const step = forward ? 1 : -1;
  let byNodes = true;
  let guess = 0;
  let i = first;
  if (!forward) {
    while (i < count && at[i] === origin) i++;
    i--;
  }
  for (; i >= 0 && i < count; i += step) {
    const a = lo[i]!;
    const b = hi[i]!;
    // The side of the ray that it runs on has to be one that the line reaches.
    if (c < a || c > b || (side === 0 ? c === a : c === b)) continue;
    const d = at[i]!;
    const dSide = sides[i] as 0 | 1;
    if (d === origin && dSide !== forward) continue;
    if (!walkTo(walk, media, d, dSide)) return d;
    const cost = ray.cost + walk.cost;
    if (axis === 0 ? bound.hopelessFrom(cost, d, c) : bound.hopelessFrom(cost, c, d)) return d;
    const low = from[i]!;
    const high = from[i + 1]!;
    const marked = marks !== null && marks[i] === 1;
    if (!marked && (low === high || !byNodes)) continue;
    const k = before(graph, across, low, high, c, side, low + guess);
    guess = k - low;
    if (marked) {
      const second = ray.second + walk.second;
      best.crosses(i, { ray, d, dSide, gap: k, medium: mine.media[walk.stretch]!, cost, second });
    }
    // Between two nodes in one stretch the line is in it as well.
    const even = k >= low && k + 1 < high && stretches[k] === stretches[k + 1];
    for (let j = Math.max(k, low); byNodes && j <= k + 1 && j < high; j++) {
      const node = list[j]!;
      const p = positions[j]!;
      if (p === c && nodeSides[j] === side && graph.lineOf[axis][node]! >= 0) {
        const second = ray.second + walk.second;
        if (best.better(cost, second, 2 * Math.abs(d - origin), 2 * node + axis))
          best.keep(ray.start, [...ray.legs, rayLeg(ray, d, dSide)]);
        return d;
      }
      const left = cost + bound.left(2 * node + across);
      const most = bound.most();
      // The least that a turn and the way from the ray to the node can cost.
      const least = bend + bound.least(Math.abs(p - c));
      if (left - least <= most && left + least > most) continue;
      const there = stretches[j]!;
      const here = even ? there : stretchFrom(row, there, c, side);
      turnOff(graph, c, mine.media[walk.stretch]!, row, here, p, there, j === k, turned);
      if (turned.cost < 0) continue;
      if (left - turned.cost > most) {
        if (marks === null && !graph.slanted) return d;
        byNodes = false;
        break;
      }
      if (left + turned.cost > most) continue;
      const second = ray.second + walk.second + BEND + Math.round(2 * turned.length);
      const own = 2 * Math.abs(d - origin);
      if (!best.better(cost + turned.cost, second, own, 2 * node + across)) continue;
      best.keep(ray.start, [
        ...ray.legs,
        rayLeg(ray, d, dSide),
        turnLeg(ray, d, dSide, lines.profiles[i]!, p, nodeSides[j] as 0 | 1),
      ]);
    }
  }
  return forward ? Infinity : -Infinity;
}
/**
 * Cost and length of turning off a ray, in its medium, to a position of a line across, whose stretch there is known; a
 * cost below 0 where that is barred.
 */
function turnOff(
  { media, bend }: Graph,
  c: number,
  mine: number,
  row: Stretches,
  here: number,
  p: number,
  there: number,
  back: boolean,
  out: Toll,
): void {
  const theirs = row.media[here]!;
  if (back) tollWithin(media, row, there, p, here, c, out);
  else tollWithin(media, row, here, c, there, p, out);
  if (out.cost < 0 || media.list[theirs]!.barred) {
    out.cost = -1;
    return;
  }
  out.cost += bend;
  if (mine === theirs) return;
  const drop = media.step(mine, theirs);
  out.cost += drop * UNITS + media.price(mine, theirs);
  out.length += drop;
}

/** The last place in a line's list whose node is not after a position; looked for from a place that may be near. */
function before(
  graph: Graph,
  axis: 0 | 1,
  from: number,
  to: number,
  at: number,
  side: 0 | 1,
  guess: number,
): number {
  const positions = graph.listPosition[axis];
  const sides = graph.listSide[axis];
  // All before `lo` are not after it, all from `hi` on are.
  let lo = from;
  let hi = to;
  let step = 1;
  let mid = Math.min(Math.max(guess, from), to - 1);
  while (lo < hi) {
    if (positions[mid]! <= at) {
      lo = mid + 1;
      mid = lo + step < hi ? lo + step - 1 : (lo + hi) >> 1;
    } else {
      hi = mid;
      mid = hi - step >= lo ? hi - step : (lo + hi) >> 1;
    }
    step *= 2;
  }
  lo--;
  while (lo >= from && positions[lo] === at && sides[lo]! > side) lo--;
  return lo;
}
