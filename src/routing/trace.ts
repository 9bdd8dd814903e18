import type { Point } from '../geometry/point.ts';
import { type Shape, spansAlong, spansBeside } from '../geometry/shape.ts';
import type { Attachment, Leg, Place } from './attach.ts';
import type { Course } from './course.ts';
import { crossingsOf } from './crossings.ts';
import type { Finder } from './finder.ts';
import type { Graph } from './graph.ts';
import { sideAt } from './lines.ts';
import { mediumAt, UNITS } from './medium.ts';
import type { Home } from './router.ts';
import { BEND } from './search.ts';
import {
  type CeilingKind,
  ceilingFactor,
  type Lie,
  type Route,
  type RouteCrossing,
  type RouteSegment,
  type SitePlace,
  type SiteRiser,
} from './site.ts';
import { bothStates, levelOfState, type Stack } from './stack.ts';
import { elevationOn, placeOn, type Track } from './tracks.ts';

/** What goes up or down counts for its real length, percent. */
const REAL = 100;

/** A stretch of a leg in one zone at one elevation. */
interface Stretch {
  readonly from: Point;
  readonly to: Point;
  readonly z: number;
  readonly zone: number;
  readonly pathway: number;
  readonly track: string;
  readonly span: readonly [number, number];
}

/** Reads a route back from a course, level by level. */
export function trace(
  stack: Stack,
  course: Course,
  found: Attachment,
  level: number,
  place: Place,
  closet: Home,
): Route {
  const sections = sectionsOf(stack, course, found.state + stack.offsets[level]!);
  const maker = new SegmentMaker(stack.graphs[level]!, place.at, place.height);
  const crossings: RouteCrossing[] = [];
  sections.forEach((section, i) => {
    const graph = stack.graphs[section.level]!;
    const { bodies, zones } = stack.finders[section.level]!;
    const legs = joined([...(i === 0 ? found.legs : []), ...section.legs]);
    crossings.push(...crossingsOf(graph, bodies, legs));
    const stretches = stretchesAlong(graph, zones, legs);
    const { frame } = graph.ground;
    const first = stretches[0]!;
    const origin = section.riser ? frame.into(section.riser.at) : place.at;
    const enter = apart(origin, first.from) ? stretchAtEnd(graph, zones, legs[0]!, 'from') : first;
    if (section.riser) maker.climb(graph, enter.z, section.riser);
    else maker.rise(enter.z, enter.zone, true);
    maker.go(first.from, enter);
    for (const s of stretches) {
      maker.rise(s.z, s.zone, false);
      maker.go(s.to, s);
    }
    const last = stretches[stretches.length - 1]!;
    const next = sections[i + 1]?.riser;
    const goal = frame.into(next ? next.at : closet.at);
    const end = legs[legs.length - 1]!;
    const leave = apart(last.to, goal) ? stretchAtEnd(graph, zones, end, 'to') : last;
    maker.rise(leave.z, leave.zone, false);
    maker.go(goal, leave);
    if (!next) maker.rise(closet.height, leave.zone, true);
  });
  return routeOf(maker, found, closet.id, crossings);
}

function routeOf(
  maker: SegmentMaker,
  found: Attachment,
  closet: string,
  crossings: readonly RouteCrossing[],
): Route {
  const { segments } = maker;
  const sum = (vertical: boolean) =>
    segments.reduce((s, g) => s + ((g.kind !== 'across') === vertical ? g.length : 0), 0);
  const across = sum(false);
  const vertical = sum(true);
  return {
    ok: true,
    closet,
    cost: found.cost / UNITS,
    bends: Math.floor(found.second / BEND),
    across,
    vertical,
    path: across + vertical,
    segments,
    lies: maker.lies,
    points: pointsOf(segments, maker.place()),
    crossings,
    pathways: [...new Set(segments.flatMap((s) => (s.pathway === null ? [] : [s.pathway])))],
  };
}

/** The part of a way on one level, and the riser by which it came there. */
interface Section {
  readonly level: number;
  readonly riser: SiteRiser | null;
  readonly legs: Leg[];
}

function sectionsOf(stack: Stack, course: Course, state: number): Section[] {
  const sections: Section[] = [{ level: levelOfState(stack, state), riser: null, legs: [] }];
  for (let part: Course | null = course, at = state; part; part = part.after) {
    const { next } = part.field;
    // One line or track at a time; a pin ends it, since the way may turn back there.
    for (;;) {
      const section = sections[sections.length - 1]!;
      const graph = stack.graphs[section.level]!;
      const offset = stack.offsets[section.level]!;
      let to = at;
      let after = next[to]!;
      let riser = riserBetween(stack, to, after);
      while (after >= 0 && !riser && keepsTo(graph, to - offset, after - offset)) {
        to = after;
        after = next[to]!;
        riser = riserBetween(stack, to, after);
      }
      section.legs.push(legBetween(graph, at - offset, to - offset));
      at = after < 0 ? to : after;
      if (riser) sections.push({ level: levelOfState(stack, after), riser, legs: [] });
      if (after < 0) break;
    }
  }
  return sections;
}

const riserBetween = (stack: Stack, a: number, b: number): SiteRiser | null =>
  (stack.risers.size > 0 && b >= 0 && stack.risers.get(bothStates(a, b))) || null;

/** Whether two neighbouring states lie on one line of the plane, or on one track. */
function keepsTo(graph: Graph, a: number, b: number): boolean {
  const plane = 2 * graph.nodes;
  if (a >= plane && b >= plane)
    return graph.stopOf[a - plane]!.track === graph.stopOf[b - plane]!.track;
  return a < plane && b < plane && a >> 1 !== b >> 1;
}

/** The way along one line or track between two of its states; of no length when they are one. */
function legBetween(graph: Graph, a: number, b: number): Leg {
  const plane = 2 * graph.nodes;
  if (a >= plane) {
    const { track, index } = graph.stopOf[a - plane]!;
    const stops = graph.stops[track]!;
    const [p, q] = [stops[index]!, stops[graph.stopOf[b - plane]!.index]!];
    return { on: 'track', track, from: p.p, to: q.p, fromSide: p.side, toSide: q.side };
  }
  const axis = (a & 1) as 0 | 1;
  const line = graph.lineOf[axis][a >> 1]!;
  const position = axis === 0 ? graph.x : graph.y;
  return {
    on: 'line',
    axis,
    c: graph.lines[axis].c[line]!,
    side: graph.lines[axis].side[line] as 0 | 1,
    profile: graph.lines[axis].profiles[line]!,
    from: position[a >> 1]!,
    to: position[b >> 1]!,
    fromSide: sideAt(graph, axis, a >> 1),
    toSide: sideAt(graph, axis, b >> 1),
  };
}

/** Puts legs on the same line together. */
function joined(legs: readonly Leg[]): Leg[] {
  const out: Leg[] = [];
  for (const leg of legs) {
    const last = out[out.length - 1];
    if (last && sameLine(last, leg) && last.to === leg.from && goesOn(last, leg))
      out[out.length - 1] = { ...last, to: leg.to, toSide: leg.toSide };
    else out.push(leg);
  }
  return out;
}

/** Whether the second does not turn back. */
const goesOn = (a: Leg, b: Leg): boolean => (a.to - a.from) * (b.to - b.from) >= 0;

function sameLine(a: Leg, b: Leg): boolean {
  if (a.on === 'track') return b.on === 'track' && a.track === b.track;
  return b.on === 'line' && a.axis === b.axis && a.c === b.c && a.side === b.side;
}

const apart = (a: Point, b: Point): boolean =>
  Math.round(a[0]) !== Math.round(b[0]) || Math.round(a[1]) !== Math.round(b[1]);

/**
 * What lies at an end of a leg, on the side of it that the leg begins or ends on: on a border that need not be what the
 * leg runs in, and it is what the way between there and an outlet, riser or closet counts for.
 */
function stretchAtEnd(graph: Graph, zones: Finder, leg: Leg, end: 'from' | 'to'): Stretch {
  const side = end === 'from' ? leg.fromSide : leg.toSide;
  return stretch(graph, zones, leg, leg[end], leg[end], leg[end], side);
}

/**
 * The stretches of all legs. A leg that begins or ends on a border, on the far side of it, rises or falls there as the
 * cost has it: what lies on that side is a stretch of no length, unless it is on the way up or down to what follows.
 */
function stretchesAlong(graph: Graph, zones: Finder, legs: readonly Leg[]): Stretch[] {
  const parts = legs.flatMap((leg) => [
    { z: elevationAtEnd(graph, leg, 'from'), make: () => stretchAtEnd(graph, zones, leg, 'from') },
    ...stretchesOf(graph, zones, leg).map((s) => ({ z: s.z, make: null, s })),
    { z: elevationAtEnd(graph, leg, 'to'), make: () => stretchAtEnd(graph, zones, leg, 'to') },
  ]);
  const out: Stretch[] = [];
  parts.forEach((part, i) => {
    if (part.make === null) {
      out.push(part.s);
      return;
    }
    const before = out[out.length - 1];
    const after = parts[i + 1];
    if (before && after && (part.z - before.z) * (after.z - part.z) < 0) out.push(part.make());
  });
  return out;
}

function elevationAtEnd(graph: Graph, leg: Leg, end: 'from' | 'to'): number {
  const side = end === 'from' ? leg.fromSide : leg.toSide;
  if (leg.on === 'track') return elevationOn(graph.media, graph.tracks[leg.track]!, leg[end], side);
  return graph.media.list[mediumAt(leg.profile, leg[end], side)]!.z;
}

/** Cuts a leg where the zone over it or its elevation changes. */
function stretchesOf(graph: Graph, zones: Finder, leg: Leg): Stretch[] {
  const cuts = cutsOf(graph, zones, leg);
  const ends = leg.from <= leg.to ? [leg.from, ...cuts, leg.to] : [leg.to, ...cuts, leg.from];
  const out: Stretch[] = [];
  for (let i = 0; i + 1 < ends.length; i++) {
    const [p, q] = [ends[i]!, ends[i + 1]!];
    if (p === q && ends.length > 2) continue;
    const side = p === q ? leg.fromSide : 0;
    out.push(stretch(graph, zones, leg, p, q, p === q ? p : (p + q) / 2, side));
  }
  if (leg.from <= leg.to) return out;
  return out.reverse().map((s) => ({
    ...s,
    from: s.to,
    to: s.from,
    span: [s.span[1], s.span[0]] as const,
  }));
}

function stretch(
  graph: Graph,
  zones: Finder,
  leg: Leg,
  p: number,
  q: number,
  middle: number,
  side: 0 | 1,
): Stretch {
  const { media } = graph;
  if (leg.on === 'line') {
    const { profile } = leg;
    const at = (v: number): Point => (leg.axis === 0 ? [v, leg.c] : [leg.c, v]);
    return {
      from: at(p),
      to: at(q),
      z: media.list[mediumAt(profile, middle, side)]!.z,
      zone: zoneBeside(graph, zones, leg.axis, leg.c, leg.side, middle, side),
      pathway: -1,
      track: `${leg.axis === 0 ? 'y' : 'x'}${leg.c}`,
      span: [p, q],
    };
  }
  const track = graph.tracks[leg.track]!;
  const z = elevationOn(media, track, middle, side);
  const name =
    track.line < 0
      ? `face${track.segment}`
      : track.axis === 2
        ? `p${track.line}.${track.segment}`
        : `${track.axis === 0 ? 'y' : 'x'}${track.axis === 0 ? track.ay : track.ax}`;
  let zone: number;
  if (track.axis === 2) zone = zoneAlong(graph, zones, track, middle);
  else {
    const c = track.axis === 0 ? track.ay : track.ax;
    zone = zoneBeside(graph, zones, track.axis, c, 0, middle, side);
    const other = zoneBeside(graph, zones, track.axis, c, 1, middle, side);
    if (elevationOfZone(graph, other) < elevationOfZone(graph, zone)) zone = other;
  }
  return {
    from: placeOn(track, p),
    to: placeOn(track, q),
    z,
    zone,
    pathway: track.line,
    track: name,
    span: [p, q],
  };
}

const elevationOfZone = (graph: Graph, zone: number): number =>
  (graph.site.zones[zone] ?? graph.site.ceiling).elevation;

/** Positions strictly inside a leg where a zone begins or ends. */
function cutsOf(graph: Graph, zones: Finder, leg: Leg): number[] {
  const lo = Math.min(leg.from, leg.to);
  const hi = Math.max(leg.from, leg.to);
  const found: number[] = [];
  if (lo === hi) return found;
  const [ax, ay] = placeOfLeg(graph, leg, lo);
  const [bx, by] = placeOfLeg(graph, leg, hi);
  const box = [Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by)] as const;
  for (const index of zones.near(...box)) {
    const { shape } = graph.ground.zones[index]!;
    if (leg.on === 'line') spansBeside(shape, leg.axis, leg.c, leg.side, found);
    else {
      const t = graph.tracks[leg.track]!;
      if (t.axis === 2) spansAlong(shape, t.ax, t.ay, t.bx, t.by, found);
      else {
        spansBeside(shape, t.axis, t.axis === 0 ? t.ay : t.ax, 0, found);
        spansBeside(shape, t.axis, t.axis === 0 ? t.ay : t.ax, 1, found);
      }
    }
  }
  return [...new Set(found)].filter((p) => p > lo && p < hi).sort((p, q) => p - q);
}

/** The place at a position of a leg. */
function placeOfLeg(graph: Graph, leg: Leg, at: number): Point {
  if (leg.on === 'track') return placeOn(graph.tracks[leg.track]!, at);
  return leg.axis === 0 ? [at, leg.c] : [leg.c, at];
}

/** The last zone at a place for which the spans of a line hold a position of it, or -1. */
function zoneAt(
  graph: Graph,
  zones: Finder,
  [x, y]: Point,
  spansIn: (shape: Shape, out: number[]) => void,
  at: number,
  side: 0 | 1,
): number {
  const spans: number[] = [];
  const near = zones.near(x, y, x, y);
  for (let i = near.length - 1; i >= 0; i--) {
    spans.length = 0;
    spansIn(graph.ground.zones[near[i]!]!.shape, spans);
    if (within(spans, at, side)) return near[i]!;
  }
  return -1;
}

/** Index of the zone at a position of a line, or -1. */
const zoneBeside = (
  graph: Graph,
  zones: Finder,
  axis: 0 | 1,
  c: number,
  side: 0 | 1,
  at: number,
  atSide: 0 | 1,
): number =>
  zoneAt(
    graph,
    zones,
    axis === 0 ? [at, c] : [c, at],
    (shape, out) => spansBeside(shape, axis, c, side, out),
    at,
    atSide,
  );

const zoneAlong = (graph: Graph, zones: Finder, track: Track, at: number): number =>
  zoneAt(
    graph,
    zones,
    placeOn(track, at),
    (shape, out) => spansAlong(shape, track.ax, track.ay, track.bx, track.by, out),
    at,
    0,
  );

function within(spans: readonly number[], at: number, side: 0 | 1): boolean {
  for (let i = 0; i + 1 < spans.length; i += 2)
    if (side === 0 ? at > spans[i]! && at <= spans[i + 1]! : at >= spans[i]! && at < spans[i + 1]!)
      return true;
  return false;
}

/** Lays segments end to end on whole millimetres, so that their lengths add up exactly. */
class SegmentMaker {
  readonly segments: RouteSegment[] = [];
  readonly lies: (Lie | null)[] = [];
  #graph: Graph;
  #x: number;
  #y: number;
  /** Above the floor of the level. */
  #z: number;

  constructor(graph: Graph, at: Point, height: number) {
    this.#graph = graph;
    [this.#x, this.#y] = [Math.round(at[0]), Math.round(at[1])];
    this.#z = Math.round(height);
  }

  place(): SitePlace {
    const { site, ground } = this.#graph;
    const [x, y] = ground.frame.back(this.#x, this.#y);
    return [x, y, this.#z + site.elevation];
  }

  rise(to: number, zone: number, end: boolean): void {
    const z = Math.round(to);
    if (z === this.#z) return;
    const from = this.place();
    const length = Math.abs(z - this.#z);
    const kind = end ? (z > this.#z ? 'up' : 'down') : 'step';
    this.#z = z;
    this.#put(kind, from, length, zone, -1, null);
  }

  /** By a riser to an elevation above the floor of another level. */
  climb(onto: Graph, to: number, riser: SiteRiser): void {
    const from = this.place();
    const { site } = this.#graph;
    this.#graph = onto;
    [this.#x, this.#y] = onto.ground.frame.into(riser.at);
    this.#z = Math.round(to);
    const end = this.place();
    const length = Math.abs(end[2] - from[2]);
    if (length === 0) return;
    this.segments.push({
      kind: 'riser',
      level: site.id,
      from,
      to: end,
      length,
      zone: null,
      ceiling: null,
      pathway: null,
      riser: riser.id,
      factor: REAL,
    });
    this.lies.push(null);
  }

  go(to: Point, s: Stretch): void {
    const x = Math.round(to[0]);
    const y = Math.round(to[1]);
    const dx = Math.abs(x - this.#x);
    const dy = Math.abs(y - this.#y);
    if (dx === 0 && dy === 0) return;
    const own = to === s.to;
    const slanted = own && !/^[xy]/.test(s.track);
    if (dx > 0 && dy > 0 && !slanted) {
      // Into or along a wall to where the plane is entered: along the axes.
      this.go([x, this.#y], s);
      this.go([x, y], s);
      return;
    }
    const from = this.place();
    const track = own ? s.track : dx > 0 ? `y${this.#y}` : `x${this.#x}`;
    const span: readonly [number, number] = own ? s.span : dx > 0 ? [this.#x, x] : [this.#y, y];
    this.#x = x;
    this.#y = y;
    this.#put('across', from, Math.round(Math.hypot(dx, dy)), s.zone, s.pathway, { track, span });
  }

  #put(
    kind: RouteSegment['kind'],
    from: SitePlace,
    length: number,
    zone: number,
    pathway: number,
    lie: Lie | null,
  ): void {
    const { site } = this.#graph;
    const ceiling: CeilingKind = (site.zones[zone] ?? site.ceiling).kind;
    this.segments.push({
      kind,
      level: site.id,
      from,
      to: this.place(),
      length,
      zone: site.zones[zone]?.id ?? null,
      ceiling,
      pathway: site.pathways[pathway]?.id ?? null,
      riser: null,
      factor:
        kind !== 'across'
          ? REAL
          : pathway >= 0
            ? site.prices.pathwayFactor
            : ceilingFactor(ceiling, site.prices),
    });
    this.lies.push(lie);
  }
}

function pointsOf(segments: readonly RouteSegment[], alone: SitePlace): SitePlace[] {
  const first = segments[0];
  return first ? [first.from, ...segments.map((s) => s.to)] : [alone];
}
