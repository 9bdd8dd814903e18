import type { Point } from '../geometry/point.ts';
import { spansAlong, spansBeside } from '../geometry/shape.ts';
import type { Finder } from './finder.ts';
import type { Graph } from './graph.ts';
import type { Body } from './ground.ts';
import type { Leg } from './leg.ts';
import { mediumAt, type Profile, stretchAt } from './profile.ts';
import type { SitePlace } from './site.ts';
import { placeOn } from './track-places.ts';
import { elevationOn } from './track-tolls.ts';

/** A leg's stretch inside a body, by the distance from where the leg begins. */
export interface Inside {
  readonly body: Body;
  readonly from: number;
  readonly to: number;
  /** Halves of the price that the leg pays on its own. */
  readonly halves: number;
  /** Whether it begins, and whether it ends, in the body: the legs before and after say what is paid there. */
  readonly opens: boolean;
  readonly closes: boolean;
  readonly pathway: number;
  readonly place: SitePlace;
  /** Whether the wall reaches the cable although it stops at the grid. */
  readonly reaches: boolean;
}

/** The media that a leg of free travel goes through: the i-th from at[i] to at[i + 1], some of no length. */
export interface Passage {
  readonly media: readonly number[];
  readonly at: readonly number[];
}

/** Whether free travel pays for a body; media know those bodies. */
export const isPriced = (body: Body): boolean => body.passing.price > 0;

/**
 * Where a leg runs inside walls.
 *
 * @param passage of the leg; with one, priced bodies are found where the network charges for them
 */
export function insidesOf(
  graph: Graph,
  bodies: Finder,
  leg: Leg,
  passage: Passage | null,
): Inside[] {
  const found: Inside[] = [];
  for (const body of bodiesNear(graph, bodies, leg))
    if (!passage || !isPriced(body)) freeOf(graph, leg, body, found);
  if (passage) pricedOf(graph, leg, passage, found);
  return found;
}

/** Null on a pathway, where no wall costs anything. */
export function passageOf(graph: Graph, leg: Leg): Passage | null {
  if (leg.on === 'track' && graph.tracks[leg.track]!.line >= 0) return null;
  const profile = leg.on === 'line' ? leg.profile : graph.tracks[leg.track]!.profile;
  const first = stretchAt(profile, leg.from, leg.fromSide);
  const last = stretchAt(profile, leg.to, leg.toSide);
  const way = first <= last ? 1 : -1;
  const { starts, media: numbers } = profile.row;
  const media = [numbers[first]!];
  const at = [leg.from];
  for (let k = first; k !== last; k += way) {
    at.push(starts[way > 0 ? k + 1 : k]!);
    media.push(numbers[k + way]!);
  }
  at.push(leg.to);
  return { media, at };
}

/** The stretches of a leg of free travel inside bodies with a price, with the halves that are paid along it. */
function pricedOf(graph: Graph, leg: Leg, { media, at }: Passage, found: Inside[]): void {
  const holding = media.map((medium) => graph.media.list[medium]!.bodies);
  const end = media.length - 1;
  for (const body of new Set(holding.flat()))
    for (let first = 0; first <= end; first++) {
      if (!holding[first]!.includes(body)) continue;
      let last = first;
      while (last < end && holding[last + 1]!.includes(body)) last++;
      const [a, b] = [at[first]!, at[last + 1]!];
      const middle = (a + b) / 2;
      const z = a === b ? graph.media.list[media[first]!]!.z : elevationAt(graph, leg, middle);
      found.push({
        body: graph.ground.bodies[body]!,
        from: Math.abs(a - leg.from),
        to: Math.abs(b - leg.from),
        halves: Number(first > 0) + Number(last < end),
        opens: first === 0,
        closes: last === end,
        pathway: -1,
        place: placeAt(graph, leg, middle, z),
        reaches: false,
      });
      first = last;
    }
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

/** The stretches of a leg inside a body for which it pays nothing. */
function freeOf(graph: Graph, leg: Leg, body: Body, found: Inside[]): void {
  const lo = Math.min(leg.from, leg.to);
  const hi = Math.max(leg.from, leg.to);
  const forward = leg.from <= leg.to;
  const pathway = leg.on === 'track' ? graph.tracks[leg.track]!.line : -1;
  for (const [a, b] of clip(spansOf(graph, leg, body), lo, hi)) {
    const middle = (a + b) / 2;
    const z = elevationAt(graph, leg, middle);
    if (z < 0) continue;
    found.push({
      body,
      from: forward ? a - lo : hi - b,
      to: forward ? b - lo : hi - a,
      halves: 0,
      opens: false,
      closes: false,
      pathway,
      place: placeAt(graph, leg, middle, z),
      reaches: pathway >= 0 && belowCeiling(graph, leg, middle, z),
    });
  }
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
