import type { Point } from '../geometry/point.ts';
import { type Shape, spansAlong, spansBeside } from '../geometry/shape.ts';
import type { Finder } from './finder.ts';
import type { Graph } from './graph.ts';
import type { Leg } from './leg.ts';
import type { Piece } from './piece.ts';
import { mediumAt } from './profile.ts';
import type { Track } from './track.ts';
import { placeOn } from './track-places.ts';
import { elevationOn } from './track-tolls.ts';

/** A stretch of a leg in one zone at one elevation. */
export interface Stretch {
  readonly from: Point;
  readonly to: Point;
  readonly z: number;
  readonly zone: number;
  readonly pathway: number;
  readonly track: string;
  readonly span: readonly [number, number];
}

/**
 * What lies at an end of a leg, on the side of it that the leg begins or ends on: on a border that need not be what the
 * leg runs in, and it is what the way between there and an outlet, riser or closet counts for.
 */
export function stretchAtEnd(graph: Graph, zones: Finder, leg: Leg, end: 'from' | 'to'): Stretch {
  const side = end === 'from' ? leg.fromSide : leg.toSide;
  return stretch(graph, zones, leg, leg[end], leg[end], leg[end], side);
}

/**
 * The stretches of a piece. A leg that begins or ends on a border, on the far side of it, rises or falls there as the
 * cost has it: what lies on that side is a stretch of no length, unless it is on the way up or down to what follows.
 *
 * @param before elevation of what comes before, and after it; undefined where nothing does
 */
export function stretchesBetween(
  graph: Graph,
  zones: Finder,
  before: number | undefined,
  { leg, stretches, zFrom, zTo }: Piece,
  after: number | undefined,
): readonly Stretch[] {
  const enters = turns(before, zFrom, stretches[0]?.z ?? zTo);
  const leaves = turns(stretches[stretches.length - 1]?.z ?? (enters ? zFrom : before), zTo, after);
  if (!enters && !leaves) return stretches;
  return [
    ...(enters ? [stretchAtEnd(graph, zones, leg, 'from')] : []),
    ...stretches,
    ...(leaves ? [stretchAtEnd(graph, zones, leg, 'to')] : []),
  ];
}

/** Whether an elevation is above both of its neighbours, or below both. */
const turns = (before: number | undefined, z: number, after: number | undefined): boolean =>
  before !== undefined && after !== undefined && (z - before) * (after - z) < 0;

/** Elevation of the cable at an end of a leg, on the side of it that the leg begins or ends on. */
export function elevationAtEnd(graph: Graph, leg: Leg, end: 'from' | 'to'): number {
  const side = end === 'from' ? leg.fromSide : leg.toSide;
  if (leg.on === 'track') return elevationOn(graph.media, graph.tracks[leg.track]!, leg[end], side);
  return graph.media.list[mediumAt(leg.profile, leg[end], side)]!.z;
}

/** Cuts a leg where the zone over it or its elevation changes. */
export function stretchesOf(graph: Graph, zones: Finder, leg: Leg): Stretch[] {
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
