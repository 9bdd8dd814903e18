import type { Point } from '../geometry/point.ts';
import { holdsQuadrant, type Shape, spansAlong } from '../geometry/shape.ts';
import { type Place, reachable } from './attach.ts';
import type { Graph } from './graph.ts';
import { mediumAt } from './medium.ts';
import type { Bar, NoRoute, SitePlace } from './site.ts';

/**
 * Why a terminal has no way to a closet: floods the network from the terminal, takes the node nearest to the closet,
 * and names the first thing that bars the straight line from there.
 */
export function whyBlocked(graph: Graph, place: Place, closet: Point): NoRoute {
  const reason = place.floor && reachable(graph, place).length === 0 ? 'no-under-slab' : 'no-way';
  const own = holding(graph, place.at);
  if (own) return { ok: false, reason, by: own, reached: placed(graph, place.at, place.height) };
  const [at, z] = nearestReached(graph, place, closet);
  const by = reason === 'no-under-slab' ? null : firstBar(graph, at, closet);
  return { ok: false, reason, by, reached: placed(graph, at, z) };
}

function placed(graph: Graph, [x, y]: Point, z: number): SitePlace {
  const [u, v] = graph.ground.frame.back(x, y);
  return [u, v, Math.round(z)];
}

/** What a place stands inside of, if that is barred: the keep-out, the wall, or the hard ceiling over it. */
function holding(graph: Graph, [x, y]: Point): Bar | null {
  for (const { shape, bar } of graph.ground.barred) if (holdsAll(shape, x, y)) return bar;
  return null;
}

function holdsAll(shape: Shape, x: number, y: number): boolean {
  const sides = [0, 1] as const;
  return sides.every((sx) => sides.every((sy) => holdsQuadrant(shape, x, y, sx, sy)));
}

function nearestReached(graph: Graph, place: Place, closet: Point): [Point, number] {
  const { net } = graph;
  const plane = 2 * graph.nodes;
  const seen = new Uint8Array(net.states);
  const stack = reachable(graph, place);
  let best: Point = place.at;
  let state = -1;
  let least = distance(place.at, closet);
  const look = (at: Point, s: number): void => {
    const d = distance(at, closet);
    if (d >= least) return;
    least = d;
    best = at;
    state = s;
  };
  while (stack.length) {
    const s = stack.pop()!;
    if (seen[s]) continue;
    seen[s] = 1;
    look(placeOfState(graph, s), s);
    for (let e = net.first[s]!; e < net.first[s + 1]!; e++) {
      const t = net.to[e]!;
      stack.push(t);
      if (s < plane && t < plane) look(nearestBetween(graph, s >> 1, t >> 1, closet), s);
    }
  }
  if (state < 0) return [best, place.height];
  if (state >= plane) return [best, stopAt(graph, state).z];
  const axis = (state & 1) as 0 | 1;
  const line = graph.lineOf[axis][state >> 1]!;
  const medium = mediumAt(graph.lines[axis].profiles[line]!, best[axis]!, 1);
  return [best, graph.media.list[medium]!.z];
}

function placeOfState(graph: Graph, s: number): Point {
  if (s >= 2 * graph.nodes) return stopAt(graph, s).place;
  return [graph.x[s >> 1]!, graph.y[s >> 1]!];
}

/** The place nearest to a target between two neighbouring nodes of one line. */
function nearestBetween(graph: Graph, a: number, b: number, [x, y]: Point): Point {
  const clamp = (v: number, p: number, q: number) =>
    Math.min(Math.max(p, q), Math.max(Math.min(p, q), v));
  return [clamp(x, graph.x[a]!, graph.x[b]!), clamp(y, graph.y[a]!, graph.y[b]!)];
}

function stopAt(graph: Graph, state: number) {
  const { track, index } = graph.stopOf[state - 2 * graph.nodes]!;
  return graph.stops[track]![index]!;
}

const distance = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** The first barred area or hard ceiling on the straight line between two places. */
function firstBar(graph: Graph, from: Point, to: Point): Bar | null {
  const length = distance(from, to);
  let best: Bar | null = null;
  let least = Infinity;
  const look = (shape: Shape, bar: Bar): void => {
    const spans: number[] = [];
    if (length === 0) {
      if (holdsAll(shape, to[0], to[1])) best ??= bar;
      return;
    }
    spansAlong(shape, from[0], from[1], to[0], to[1], spans);
    for (let i = 0; i + 1 < spans.length; i += 2) {
      const enter = Math.max(0, spans[i]!);
      if (spans[i + 1]! <= 0 || enter > length || enter >= least) continue;
      least = enter;
      best = bar;
    }
  };
  for (const { shape, bar } of graph.ground.barred) look(shape, bar);
  const { zones } = graph.ground;
  zones.forEach(({ index, shape }) => {
    const zone = graph.site.zones[index]!;
    if (zone.kind === 'hard') look(shape, { table: 'zones', id: zone.id });
  });
  return best;
}
