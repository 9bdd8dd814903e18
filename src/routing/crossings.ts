import type { Point } from '../geometry/point.ts';
import { spansAlong, spansBeside } from '../geometry/shape.ts';
import type { Leg } from './attach.ts';
import type { Finder } from './finder.ts';
import type { Graph } from './graph.ts';
import type { Body } from './ground.ts';
import { mediumAt, type Profile } from './medium.ts';
import type { RouteCrossing, SitePlace } from './site.ts';
import { elevationOn, placeOn } from './tracks.ts';
import { passing } from './wall-work.ts';

/** Whether free travel sets out at the start of a leg, or arrives at its end. */
interface Ends {
  readonly begins: boolean;
  readonly ends: boolean;
}

/** Whether nothing lies before (-1) or after (1) a leg, or a pathway does; legs of no length are looked past. */
function isEdge(graph: Graph, legs: readonly Leg[], index: number, way: -1 | 1): boolean {
  for (let i = index + way; ; i += way) {
    const leg = legs[i];
    if (!leg) return true;
    if (leg.on === 'track') return graph.tracks[leg.track]!.line >= 0;
    if (leg.from !== leg.to) return false;
  }
}

/** One leg's stretch inside a body, by the distance travelled so far. */
interface Inside {
  from: number;
  to: number;
  /** Halves of the price that were paid: entry and exit in free travel. */
  halves: number;
  pathway: number;
  place: SitePlace;
  /** Whether the wall reaches the cable although it stops at the grid. */
  reaches: boolean;
}

/**
 * The walls that a route passes, in order. Entering and leaving one body is one crossing, whether the way goes straight
 * through or turns inside it. A wall without a price that the route starts or ends inside is not crossed.
 */
export function crossingsOf(graph: Graph, bodies: Finder, legs: readonly Leg[]): RouteCrossing[] {
  const found: { at: number; crossing: RouteCrossing }[] = [];
  const lengths = legs.map((leg) => Math.abs(leg.to - leg.from));
  const total = lengths.reduce((a, b) => a + b, 0);
  const insides = new Map<Body, Inside[]>();
  let travelled = 0;
  legs.forEach((leg, i) => {
    const ends: Ends = { begins: isEdge(graph, legs, i, -1), ends: isEdge(graph, legs, i, 1) };
    for (const body of bodiesNear(graph, bodies, leg))
      for (const inside of insideOf(graph, leg, body, travelled, ends)) add(insides, body, inside);
    travelled += lengths[i]!;
  });
  for (const [body, list] of insides)
    for (const inside of list) {
      if (body.passing.price === 0 && startsInside(legs, body, inside, total)) continue;
      found.push({ at: inside.from, crossing: crossing(graph, body, inside) });
    }
  return found
    .sort((a, b) => a.at - b.at || (a.crossing.wall < b.crossing.wall ? -1 : 1))
    .map((f) => f.crossing);
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

function insideOf(graph: Graph, leg: Leg, body: Body, travelled: number, ends: Ends): Inside[] {
  const lo = Math.min(leg.from, leg.to);
  const hi = Math.max(leg.from, leg.to);
  if (lo === hi) return [];
  const track = leg.on === 'track' ? graph.tracks[leg.track]! : null;
  const pathway = track ? track.line : -1;
  if (track && pathway < 0) return faceInside(graph, leg, body, travelled);
  const spans: number[] = [];
  if (leg.on === 'line') spansBeside(body.shape, leg.axis, leg.c, leg.side, spans);
  else if (track!.axis === 2)
    spansAlong(body.shape, track!.ax, track!.ay, track!.bx, track!.by, spans);
  else {
    const c = track!.axis === 0 ? track!.ay : track!.ax;
    // On the border of a wall a pathway runs beside it, not through it.
    const one: number[] = [];
    if (spansBeside(body.shape, track!.axis, c, 0, one))
      spansBeside(body.shape, track!.axis, c, 1, spans);
  }
  return clip(spans, lo, hi).flatMap(([a, b, span]) => {
    const middle = (a + b) / 2;
    const z = elevationAt(graph, leg, middle);
    if (z < 0) return [];
    const forward = leg.from <= leg.to;
    return [
      {
        from: travelled + (forward ? a - lo : hi - b),
        to: travelled + (forward ? b - lo : hi - a),
        halves: pathway >= 0 ? 0 : paidAt(leg, span, ends),
        pathway,
        place: placeAt(graph, leg, middle, z),
        reaches: pathway >= 0 && belowCeiling(graph, leg, middle, z),
      },
    ];
  });
}

function faceInside(graph: Graph, leg: Leg, body: Body, travelled: number): Inside[] {
  if (leg.on !== 'track') return [];
  const track = graph.tracks[leg.track]!;
  const spans: number[] = [];
  spansAlong(body.shape, track.ax, track.ay, track.bx, track.by, spans);
  const lo = Math.min(leg.from, leg.to);
  const hi = Math.max(leg.from, leg.to);
  return clip(spans, lo, hi).map(([a, b]) => {
    const middle = (a + b) / 2;
    return {
      from: travelled + (leg.from <= leg.to ? a - lo : hi - b),
      to: travelled + (leg.from <= leg.to ? b - lo : hi - a),
      halves: (a > lo ? 1 : 0) + (b < hi ? 1 : 0),
      pathway: -1,
      place: placeAt(graph, leg, middle, elevationAt(graph, leg, middle)),
      reaches: false,
    };
  });
}

/**
 * How often a leg of free travel that runs inside a body pays half: at a face of the body that it comes through, and
 * where free travel sets out or arrives inside.
 */
function paidAt(leg: Leg, [low, high]: readonly [number, number], { begins, ends }: Ends): number {
  const forward = leg.from <= leg.to;
  const [lo, hi] = forward ? [leg.from, leg.to] : [leg.to, leg.from];
  const [loSide, hiSide] = forward ? [leg.fromSide, leg.toSide] : [leg.toSide, leg.fromSide];
  const one = low > lo || (low === lo && loSide === 0) || (low <= lo && (forward ? begins : ends));
  const two =
    high < hi || (high === hi && hiSide === 1) || (high >= hi && (forward ? ends : begins));
  return (one ? 1 : 0) + (two ? 1 : 0);
}

/** The parts of spans between lo and hi, each with the whole span that it is part of. */
function clip(
  spans: readonly number[],
  lo: number,
  hi: number,
): [from: number, to: number, span: readonly [number, number]][] {
  const out: [number, number, readonly [number, number]][] = [];
  for (let i = 0; i + 1 < spans.length; i += 2) {
    const a = Math.max(lo, spans[i]!);
    const b = Math.min(hi, spans[i + 1]!);
    if (b > a) out.push([a, b, [spans[i]!, spans[i + 1]!]]);
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
    price: (body.passing.price * Math.min(2, inside.halves)) / 2,
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
