import type { Point } from '../geometry/point.ts';
import { holdsQuadrant, type Shape, spansAlong } from '../geometry/shape.ts';
import { type Place, reachable } from './attach.ts';
import type { Graph } from './graph.ts';
import { mediumAt } from './medium.ts';
import type { Home } from './router.ts';
import type { Bar, NoRoute, SitePlace } from './site.ts';
import type { Stack } from './stack.ts';

/**
 * Why a terminal has no way to a closet: floods the network from the terminal, takes the place nearest to the closet,
 * and names the first thing that bars the straight line from there. While the level of the closet is not reached, the
 * nearest riser stands for the closet.
 */
export function whyBlocked(stack: Stack, level: number, place: Place, closet: Home): NoRoute {
  const graph = stack.graphs[level]!;
  const here = (at: Point, z: number): SitePlace => placed(graph, at, z);
  const joins = reachable(graph, place);
  const reason = place.floor && joins.length === 0 ? 'no-under-slab' : 'no-way';
  const own = holding(graph, place.at);
  if (own) return { ok: false, reason, by: own, reached: here(place.at, place.height) };
  const offset = stack.offsets[level]!;
  const seen = flood(
    stack,
    joins.map((state) => state + offset),
  );
  const goals = goalsOf(stack, level, seen, closet);
  if (goals.points.length === 0) return { ok: false, reason: 'no-riser', by: null, reached: null };
  const start = goals.level === level ? place : null;
  const { at, z, goal } = nearestReached(stack, goals.level, seen, start, goals.points);
  const last = stack.graphs[goals.level]!;
  const by = reason === 'no-under-slab' ? null : firstBar(last, at, goal);
  return { ok: false, reason, by, reached: placed(last, at, z) };
}

/** The level on which the way ends, and what it ought to come to there: the closet, or else any riser. */
function goalsOf(
  stack: Stack,
  level: number,
  seen: Uint8Array,
  closet: Home,
): { level: number; points: readonly Point[] } {
  const on = (l: number) => stack.graphs[l]!.ground;
  const [from, to] = [stack.offsets[closet.level]!, stack.offsets[closet.level + 1]!];
  if (closet.level === level || seen.subarray(from, to).includes(1))
    return { level: closet.level, points: [on(closet.level).frame.into(closet.at)] };
  const { closets, landings } = on(level);
  return { level, points: landings.slice(closets.length) };
}

function placed(graph: Graph, [x, y]: Point, z: number): SitePlace {
  const [u, v] = graph.ground.frame.back(x, y);
  return [u, v, Math.round(z) + graph.site.elevation];
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

/** Which states of a stack can be got to from some of them. */
function flood({ net }: Stack, from: readonly number[]): Uint8Array {
  const seen = new Uint8Array(net.states);
  const queue = [...from];
  while (queue.length) {
    const s = queue.pop()!;
    if (seen[s]) continue;
    seen[s] = 1;
    for (let e = net.first[s]!; e < net.first[s + 1]!; e++) queue.push(net.to[e]!);
  }
  return seen;
}

interface Nearest {
  at: Point;
  z: number;
  goal: Point;
}

/** The place, of those seen on a level and of the terminal's own, that is nearest to one of some goals. */
function nearestReached(
  stack: Stack,
  level: number,
  seen: Uint8Array,
  start: Place | null,
  goals: readonly Point[],
): Nearest {
  const graph = stack.graphs[level]!;
  const offset = stack.offsets[level]!;
  const plane = 2 * graph.nodes;
  let best: Nearest = { at: goals[0]!, z: start?.height ?? 0, goal: goals[0]! };
  let state = -1;
  let least = Infinity;
  const look = (at: Point, goal: Point, s: number): void => {
    const d = distance(at, goal);
    if (d >= least) return;
    least = d;
    best = { at, z: best.z, goal };
    state = s;
  };
  for (const goal of goals) {
    if (start) look(start.at, goal, -1);
    for (let s = 0; s < graph.net.states; s++) {
      if (!seen[s + offset]) continue;
      look(placeOfState(graph, s), goal, s);
      for (let e = graph.net.first[s]!; e < graph.net.first[s + 1]!; e++) {
        const t = graph.net.to[e]!;
        if (s < plane && t < plane) look(nearestBetween(graph, s >> 1, t >> 1, goal), goal, s);
      }
    }
  }
  if (state < 0) return best;
  return { ...best, z: elevationAt(graph, state, best.at) };
}

/** Elevation of the cable at a place on the line or track of a state. */
function elevationAt(graph: Graph, state: number, at: Point): number {
  if (state >= 2 * graph.nodes) return stopAt(graph, state).z;
  const axis = (state & 1) as 0 | 1;
  const line = graph.lineOf[axis][state >> 1]!;
  const medium = mediumAt(graph.lines[axis].profiles[line]!, at[axis]!, 1);
  return graph.media.list[medium]!.z;
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
