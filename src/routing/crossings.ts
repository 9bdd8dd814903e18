import type { Point } from '../geometry/point.ts';
import { spansAlong, spansBeside } from '../geometry/shape.ts';
import type { Finder } from './finder.ts';
import type { Graph } from './graph.ts';
import type { Body } from './ground.ts';
import type { Leg } from './leg.ts';
import { mediumAt, type Profile, stretchAt } from './medium.ts';
import type { RouteCrossing, SitePlace } from './site.ts';
import { elevationOn, placeOn } from './tracks.ts';
import { passing } from './wall-work.ts';

/** One leg's stretch inside a body, by the distance travelled so far. */
interface Inside {
  from: number;
  to: number;
  /** Halves of the price that the cost holds. */
  halves: number;
  pathway: number;
  place: SitePlace;
  /** Whether the wall reaches the cable although it stops at the grid. */
  reaches: boolean;
}

/** The media that a leg of free travel goes through: the i-th from at[i] to at[i + 1], some of no length. */
interface Passage {
  readonly media: readonly number[];
  readonly at: readonly number[];
}

/**
 * The walls that a route passes, in order. Entering and leaving one body is one crossing, whether the way goes straight
 * through or turns inside it. A wall without a price that the route starts or ends inside is not crossed.
 *
 * The prices are those that the cost of the way holds: each half is found where the network charges it, at a change of
 * medium along a leg or from one leg to the next.
 */
export function crossingsOf(graph: Graph, bodies: Finder, legs: readonly Leg[]): RouteCrossing[] {
  const found: { at: number; crossing: RouteCrossing }[] = [];
  const lengths = legs.map((leg) => Math.abs(leg.to - leg.from));
  const total = lengths.reduce((a, b) => a + b, 0);
  const passages = legs.map((leg) => passageOf(graph, leg));
  const insides = new Map<Body, Inside[]>();
  let travelled = 0;
  legs.forEach((leg, i) => {
    for (const body of bodiesNear(graph, bodies, leg)) {
      if (passages[i] && isPriced(body)) continue;
      for (const inside of insideOf(graph, leg, body, travelled)) add(insides, body, inside);
    }
    for (const [body, inside] of pricedOf(graph, legs, passages, i, travelled))
      add(insides, body, inside);
    travelled += lengths[i]!;
  });
  for (const [body, list] of insides)
    for (const inside of list) {
      if (!isPriced(body) && startsInside(legs, body, inside, total)) continue;
      // To be at a place inside, and no longer, is no crossing unless it costs.
      if (inside.from === inside.to && inside.halves === 0) continue;
      found.push({ at: inside.from, crossing: crossing(graph, body, inside) });
    }
  return found
    .sort((a, b) => a.at - b.at || (a.crossing.wall < b.crossing.wall ? -1 : 1))
    .map((f) => f.crossing);
}

/** Whether free travel pays for a body; media know those bodies. */
const isPriced = (body: Body): boolean => body.passing.price > 0;

/** Null on a pathway, where no wall costs anything. */
function passageOf(graph: Graph, leg: Leg): Passage | null {
  if (leg.on === 'track' && graph.tracks[leg.track]!.line >= 0) return null;
  const profile = leg.on === 'line' ? leg.profile : graph.tracks[leg.track]!.profile;
  const first = stretchAt(profile, leg.from, leg.fromSide);
  const last = stretchAt(profile, leg.to, leg.toSide);
  const way = first <= last ? 1 : -1;
  const media = [profile.media[first]!];
  const at = [leg.from];
  for (let k = first; k !== last; k += way) {
    at.push(profile.starts[way > 0 ? k + 1 : k]!);
    media.push(profile.media[k + way]!);
  }
  at.push(leg.to);
  return { media, at };
}

/** The stretches of a leg of free travel inside bodies with a price, with the halves that are paid at their ends. */
function pricedOf(
  graph: Graph,
  legs: readonly Leg[],
  passages: readonly (Passage | null)[],
  index: number,
  travelled: number,
): [Body, Inside][] {
  const passage = passages[index];
  if (!passage) return [];
  const leg = legs[index]!;
  const { media, at } = passage;
  const holding = media.map((medium) => graph.media.list[medium]!.bodies);
  const end = media.length - 1;
  const paid = (body: number, way: -1 | 1): number =>
    paysBetween(graph, legs, passages, index, way, body) ? 1 : 0;
  const found: [Body, Inside][] = [];
  for (const body of new Set(holding.flat()))
    for (let first = 0; first <= end; first++) {
      if (!holding[first]!.includes(body)) continue;
      let last = first;
      while (last < end && holding[last + 1]!.includes(body)) last++;
      const [a, b] = [at[first]!, at[last + 1]!];
      const middle = (a + b) / 2;
      const z = a === b ? graph.media.list[media[first]!]!.z : elevationAt(graph, leg, middle);
      found.push([
        graph.ground.bodies[body]!,
        {
          from: travelled + Math.abs(a - leg.from),
          to: travelled + Math.abs(b - leg.from),
          halves: (first > 0 ? 1 : paid(body, -1)) + (last < end ? 1 : paid(body, 1)),
          pathway: -1,
          place: placeAt(graph, leg, middle, z),
          reaches: false,
        },
      ]);
      first = last;
    }
  return found;
}

/**
 * Whether half the price of a body that holds the start (-1) or the end (1) of a leg is paid there: where the way begins
 * or ends, where a pathway is left or joined in the plane, and where the leg before or after is not in the body.
 */
function paysBetween(
  graph: Graph,
  legs: readonly Leg[],
  passages: readonly (Passage | null)[],
  index: number,
  way: -1 | 1,
  body: number,
): boolean {
  const next = legs[index + way];
  if (!next) return true;
  // Tracks pass a cable on for nothing.
  if (legs[index]!.on === 'track' && next.on === 'track') return false;
  const passage = passages[index + way];
  if (!passage) return true;
  const medium = passage.media[way > 0 ? 0 : passage.media.length - 1]!;
  return !graph.media.list[medium]!.bodies.includes(body);
}

function add(insides: Map<Body, Inside[]>, body: Body, inside: Inside): void {
  const list = insides.get(body);
  const last = list?.[list.length - 1];
  if (!list || !last) insides.set(body, [inside]);
  else if (inside.from - last.to < 1e-6) merge(last, inside);
  else list.push(inside);
}

/** The bodies whose bounds a leg touches. */
function bodiesNear(graph: Graph, bodies: Finder, leg: Leg): Body[] {
  if (leg.from === leg.to) return [];
  const [ax, ay] = placeOf(graph, leg, leg.from);
  const [bx, by] = placeOf(graph, leg, leg.to);
  return bodies
    .near(Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by))
    .map((index) => graph.ground.bodies[index]!);
}

function placeOf(graph: Graph, leg: Leg, at: number): Point {
  if (leg.on === 'track') return placeOn(graph.tracks[leg.track]!, at);
  return leg.axis === 0 ? [at, leg.c] : [leg.c, at];
}

function merge(into: Inside, next: Inside): void {
  if (next.to - next.from > into.to - into.from) into.place = next.place;
  into.to = next.to;
  into.halves += next.halves;
  into.pathway = into.pathway >= 0 ? into.pathway : next.pathway;
  into.reaches ||= next.reaches;
}

/** Whether the route begins or ends inside the body, rather than at its face. */
function startsInside(legs: readonly Leg[], body: Body, inside: Inside, total: number): boolean {
  const holds = (leg: Leg, p: number): boolean => {
    if (leg.on === 'track') return false;
    const spans: number[] = [];
    spansBeside(body.shape, leg.axis, leg.c, leg.side, spans);
    return spans.some((v, i) => i % 2 === 0 && p > v && p < spans[i + 1]!);
  };
  const first = legs[0]!;
  const last = legs[legs.length - 1]!;
  if (inside.from < 1e-6 && holds(first, first.from)) return true;
  return inside.to > total - 1e-6 && holds(last, last.to);
}

/** The stretches of a leg inside a body for which it pays nothing. */
function insideOf(graph: Graph, leg: Leg, body: Body, travelled: number): Inside[] {
  const lo = Math.min(leg.from, leg.to);
  const hi = Math.max(leg.from, leg.to);
  const forward = leg.from <= leg.to;
  const pathway = leg.on === 'track' ? graph.tracks[leg.track]!.line : -1;
  return clip(spansOf(graph, leg, body), lo, hi).flatMap(([a, b]) => {
    const middle = (a + b) / 2;
    const z = elevationAt(graph, leg, middle);
    if (z < 0) return [];
    return [
      {
        from: travelled + (forward ? a - lo : hi - b),
        to: travelled + (forward ? b - lo : hi - a),
        halves: 0,
        pathway,
        place: placeAt(graph, leg, middle, z),
        reaches: pathway >= 0 && belowCeiling(graph, leg, middle, z),
      },
    ];
  });
}

/** Where the line of a leg runs inside a body. */
function spansOf(graph: Graph, leg: Leg, { shape }: Body): number[] {
  const spans: number[] = [];
  if (leg.on === 'line') {
    spansBeside(shape, leg.axis, leg.c, leg.side, spans);
    return spans;
  }
  const { axis, ax, ay, bx, by } = graph.tracks[leg.track]!;
  if (axis === 2) spansAlong(shape, ax, ay, bx, by, spans);
  else {
    const c = axis === 0 ? ay : ax;
    // On the border of a wall a pathway runs beside it, not through it.
    if (spansBeside(shape, axis, c, 0, [])) spansBeside(shape, axis, c, 1, spans);
  }
  return spans;
}

/** The parts of spans between lo and hi. */
function clip(spans: readonly number[], lo: number, hi: number): [from: number, to: number][] {
  const out: [number, number][] = [];
  for (let i = 0; i + 1 < spans.length; i += 2) {
    const a = Math.max(lo, spans[i]!);
    const b = Math.min(hi, spans[i + 1]!);
    if (b > a) out.push([a, b]);
  }
  return out;
}

function elevationAt(graph: Graph, leg: Leg, at: number): number {
  if (leg.on === 'track') return elevationOn(graph.media, graph.tracks[leg.track]!, at, 0);
  return graph.media.list[mediumAt(leg.profile, at, 0)]!.z;
}

function placeAt(graph: Graph, leg: Leg, at: number, z: number): SitePlace {
  const [x, y] = placeOf(graph, leg, at);
  const [u, v] = graph.ground.frame.back(x, y);
  return [u, v, Math.round(z) + graph.site.elevation];
}

/** Whether a pathway with an elevation of its own hangs below the finished ceiling here. */
function belowCeiling(graph: Graph, leg: Leg, at: number, z: number): boolean {
  if (leg.on !== 'track') return false;
  const track = graph.tracks[leg.track]!;
  if (track.elevation === null) return false;
  const zone = zoneOfProfile(graph, track.profile, at);
  return zone !== null && z < zone;
}

/** Finished height over a position, or null under an open ceiling. */
function zoneOfProfile(graph: Graph, profile: Profile, at: number): number | null {
  const { z, kind } = graph.media.list[mediumAt(profile, at, 0)]!;
  if (kind === 'open') return null;
  const { zones, ceiling } = graph.site;
  const match = [...zones, ceiling].find((c) => c.kind === kind && c.elevation === z);
  return match ? match.height : null;
}

function crossing(graph: Graph, body: Body, inside: Inside): RouteCrossing {
  const { site } = graph;
  const index = wallAt(graph, body, inside.place);
  const wall = site.walls[index]!;
  const work = passing(wall, site.prices, inside.reaches);
  return {
    level: site.id,
    wall: wall.id,
    construction: wall.construction,
    at: inside.place,
    work: work.work,
    firestop: work.firestop && work.work !== 'none',
    price: (body.passing.price * inside.halves) / 2,
    pathway: inside.pathway >= 0 ? site.pathways[inside.pathway]!.id : null,
  };
}

/** Which of a body's walls holds a place: the first whose centreline reaches it, else the nearest. */
function wallAt(graph: Graph, body: Body, [x, y]: SitePlace): number {
  let best = body.walls[0]!;
  let least = Infinity;
  for (const index of body.walls) {
    const { a, b } = graph.site.walls[index]!;
    const dx = Math.max(Math.min(a[0], b[0]) - x, 0, x - Math.max(a[0], b[0]));
    const dy = Math.max(Math.min(a[1], b[1]) - y, 0, y - Math.max(a[1], b[1]));
    if (dx + dy >= least) continue;
    least = dx + dy;
    best = index;
  }
  return best;
}
