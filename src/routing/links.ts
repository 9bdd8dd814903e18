import type { Point } from '../geometry/point.ts';
import { BEND } from './field.ts';
import type { Graph, Stop } from './graph.ts';
import { UNITS } from './medium.ts';
import { mediumAt } from './profile.ts';
import { type Draft, isBoxed, joinable } from './stops.ts';
import type { Toll } from './toll.ts';
import type { Track } from './track.ts';
import type { NearTracks } from './track-places.ts';
import { trackToll } from './track-tolls.ts';

type Plain = Omit<Graph, 'net' | 'listStretch'>;

/** Ways between two states each, either way: columns, since there are many. */
export class Links {
  count = 0;
  a = new Int32Array(256);
  b = new Int32Array(256);
  cost = new Float64Array(256);
  second = new Float64Array(256);
  maxCost = 0;
  maxSecond = 0;

  add(a: number, b: number, cost: number, second: number): void {
    const i = this.count++;
    if (i === this.a.length) this.#grow();
    this.a[i] = a;
    this.b[i] = b;
    this.cost[i] = cost;
    this.second[i] = second;
    if (cost > this.maxCost) this.maxCost = cost;
    if (second > this.maxSecond) this.maxSecond = second;
  }

  #grow(): void {
    const { a, b, cost, second } = this;
    const room = 2 * a.length;
    this.a = new Int32Array(room);
    this.b = new Int32Array(room);
    this.cost = new Float64Array(room);
    this.second = new Float64Array(room);
    this.a.set(a);
    this.b.set(b);
    this.cost.set(cost);
    this.second.set(second);
  }
}

/**
 * Links along tracks, between tracks, and between tracks and the plane.
 *
 * @param mediumOf the medium of each node on its line along each axis; -1 for none
 * @param near the tracks that come near one, which alone it can pass a cable on to
 */
export function trackLinks(
  graph: Plain,
  drafts: readonly (readonly Draft[])[],
  mediumOf: readonly [Int32Array, Int32Array],
  near: NearTracks,
): Links {
  const { media, tracks, stops } = graph;
  const { pathwayFactor } = graph.site.prices;
  const links = new Links();
  const groups = new Groups();
  const out: Toll = { cost: 0, length: 0 };
  for (let index = 0; index < tracks.length; index++) {
    const track = tracks[index]!;
    const list = stops[index]!;
    const others = near(track).flatMap((number) => (number === index ? [] : [tracks[number]!]));
    for (let i = 0; i < list.length; i++) {
      const stop = list[i]!;
      const after = list[i + 1];
      if (after) {
        trackToll(media, track, stop.p, stop.side, after.p, after.side, pathwayFactor, out);
        if (out.cost >= 0) links.add(stop.state, after.state, out.cost, Math.round(2 * out.length));
      }
      for (const node of drafts[index]![i]!.joins)
        joinNode(graph, track, stop, node, mediumOf, links);
      if (canPass(track, stop) && others.some((other) => comesTo(other, stop.place)))
        groups.add(stop);
    }
  }
  for (const group of groups.all) if (group.length > 1) passOn(graph, group, links);
  return links;
}

/** States of stops that lie at one place, to a quarter of a millimetre. */
class Groups {
  readonly all: number[][] = [];
  readonly #columns = new Map<number, Map<number, number[]>>();

  add({ place, state }: Stop): void {
    const x = Math.round(place[0] * 4);
    const y = Math.round(place[1] * 4);
    let column = this.#columns.get(x);
    if (!column) {
      column = new Map();
      this.#columns.set(x, column);
    }
    const group = column.get(y);
    if (group) {
      group.push(state);
      return;
    }
    const fresh = [state];
    column.set(y, fresh);
    this.all.push(fresh);
  }
}

/** Between the tracks that meet at one place. */
function passOn(graph: Plain, group: readonly number[], links: Links): void {
  const { tracks, stops, stopOf, nodes, bend } = graph;
  for (let i = 0; i < group.length; i++)
    for (let j = i + 1; j < group.length; j++) {
      const p = stopOf[group[i]! - 2 * nodes]!;
      const q = stopOf[group[j]! - 2 * nodes]!;
      if (p.track === q.track) continue;
      const [s, t] = [tracks[p.track]!, tracks[q.track]!];
      const [from, to] = [stops[p.track]![p.index]!, stops[q.track]![q.index]!];
      if (!mayPass(s, from, t, to)) continue;
      const step = Math.abs(from.z - to.z);
      const turned = crossed(s, t);
      links.add(
        from.state,
        to.state,
        step * UNITS + (turned ? bend : 0),
        2 * step + (turned ? BEND : 0),
      );
    }
}

const crossed = (s: Track, t: Track): boolean =>
  (s.bx - s.ax) * (t.by - t.ay) !== (s.by - s.ay) * (t.bx - t.ax);

/**
 * Pieces of one pathway pass a cable on at their common corner; others where both can be joined, at a floor box those
 * under the slab alone.
 */
function mayPass(s: Track, p: Stop, t: Track, q: Stop): boolean {
  if (s.line >= 0 && s.line === t.line && Math.abs(s.segment - t.segment) === 1) {
    const [first, last] = s.segment < t.segment ? [s, t] : [t, s];
    const [end, start] = s.segment < t.segment ? [p, q] : [q, p];
    if (end.p === first.pb && start.p === last.pa) return true;
  }
  if (!joinable(s, p) || !joinable(t, q)) return false;
  return (s.slab && t.slab) || (!isBoxed(s, p) && !isBoxed(t, q));
}

/** Whether a place lies within the bounds of a track, to a millimetre. */
const comesTo = ({ ax, ay, bx, by }: Track, [x, y]: Point): boolean =>
  x >= Math.min(ax, bx) - 1 &&
  x <= Math.max(ax, bx) + 1 &&
  y >= Math.min(ay, by) - 1 &&
  y <= Math.max(ay, by) + 1;

const canPass = (track: Track, stop: Stop): boolean =>
  track.anywhere || stop.p === track.pa || stop.p === track.pb;

/**
 * Between a stop and a node of the plane: the step, a bend unless both go the same way, and inside a wall half a
 * passage, since the hole of a pathway serves nobody who leaves it in the middle.
 */
function joinNode(
  { media, bend }: Plain,
  track: Track,
  stop: Stop,
  node: number,
  mediumOf: readonly [Int32Array, Int32Array],
  links: Links,
): void {
  for (const axis of [0, 1] as const) {
    if (track.axis !== 2 && axis !== track.axis) continue;
    const medium = mediumOf[axis][node]!;
    if (medium < 0 || media.list[medium]!.barred) continue;
    const step = Math.abs(media.list[medium]!.z - stop.z);
    const face = track.line < 0 ? mediumAt(track.profile, stop.p, stop.side) : medium;
    if (media.list[face]!.barred) continue;
    const turned = track.axis === axis ? 0 : 1;
    const wall = track.line < 0 ? media.price(face, medium) : media.entry(medium);
    links.add(
      stop.state,
      2 * node + axis,
      step * UNITS + wall + turned * bend,
      Math.round(2 * step) + turned * BEND,
    );
  }
}
