import type { Point } from '../geometry/point.ts';
import { holdsQuadrant, type Shape, spansAlong } from '../geometry/shape.ts';
import { type Place, reachable } from './attach.ts';
import type { Graph } from './graph.ts';
import { mediumAt } from './profile.ts';
import type { Bar, NoRoute, SiteCloset, SitePlace } from './site.ts';
import type { Stack } from './stack.ts';

/** Says why a terminal on a level has no way to a closet on its home level; remembers which parts of the network hang together. */
export type WhyBlocked = (level: number, place: Place, home: number, closet: SiteCloset) => NoRoute;

/**
 * Why a terminal has no way to a closet: takes the place nearest to the closet of all that can be got to, and names the
 * first thing that bars the straight line from there. While the level of the closet is not reached, the nearest riser
 * stands for the closet.
 *
 * Many terminals are barred together, by a closet in a keep-out say; so what hangs together is found once, and the
 * nearest place of each part once for each place of a closet.
 */
export function whyBlockedIn(stack: Stack): WhyBlocked {
  let parts: Parts | null = null;
  const known = new Map<string, Nearest | null>();
  const nearestOf = (part: number, level: number, goals: readonly Point[], key: string) => {
    const name = `${part} ${level} ${key}`;
    const old = known.get(name);
    if (old !== undefined) return old;
    parts ??= partsOf(stack);
    const fresh = nearestReached(stack, parts, part, level, goals);
    known.set(name, fresh);
    return fresh;
  };
  return (level, place, home, closet) => {
    const graph = stack.graphs[level]!;
    const joins = reachable(graph, place);
    const reason = place.floor && joins.length === 0 ? 'no-under-slab' : 'no-way';
    const own = holding(graph, place.at);
    if (own) return { ok: false, reason, by: own, reached: placed(graph, place.at, place.height) };
    parts ??= partsOf(stack);
    const { of } = parts;
    const offset = stack.offsets[level]!;
    const mine = [...new Set(joins.map((state) => of[state + offset]!))];
    const onLevel = home === level || mine.some((part) => parts!.on(part, home));
    const goals = onLevel ? [stack.graphs[home]!.ground.frame.into(closet.at)] : risersOn(graph);
    if (goals.length === 0) return { ok: false, reason: 'no-riser', by: null, reached: null };
    const at = onLevel ? home : level;
    const found = mine.map((part) =>
      nearestOf(part, at, goals, onLevel ? closet.at.join(' ') : ''),
    );
    const start = at === level ? ownPlace(place, goals) : null;
    const nearest = [...found, start].reduce(
      (a, b) => (b && (!a || b.away < a.away) ? b : a),
      null,
    )!;
    const last = stack.graphs[at]!;
    const by = reason === 'no-under-slab' ? null : firstBar(last, nearest.at, nearest.goal);
    return { ok: false, reason, by, reached: placed(last, nearest.at, nearest.z) };
  };
}

/** Places of the risers of a level. */
const risersOn = ({ ground }: Graph): readonly Point[] => ground.landings;

/** A terminal's own place, for one that gets nowhere. */
function ownPlace({ at, height }: Place, goals: readonly Point[]): Nearest {
  const goal = goals.reduce((a, b) => (distance(at, b) < distance(at, a) ? b : a));
  return { at, z: height, goal, away: distance(at, goal) };
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

/** Which states of a network hang together. */
interface Parts {
  /** The part of each state. */
  readonly of: Int32Array;
  /** Whether a part has states on a level. */
  readonly on: (part: number, level: number) => boolean;
}

function partsOf({ net, graphs, offsets }: Stack): Parts {
  const of = new Int32Array(net.states).fill(-1);
  const on = new Set<number>();
  const queue: number[] = [];
  let count = 0;
  let level = 0;
  for (let start = 0; start < net.states; start++) {
    while (start >= offsets[level + 1]!) level++;
    if (of[start] === -1) {
      of[start] = count++;
      queue.push(start);
    }
    while (queue.length) {
      const s = queue.pop()!;
      for (let e = net.first[s]!; e < net.first[s + 1]!; e++) {
        const t = net.to[e]!;
        if (of[t] !== -1) continue;
        of[t] = of[s]!;
        queue.push(t);
      }
    }
    on.add(of[start]! * graphs.length + level);
  }
  return { of, on: (part, l) => on.has(part * graphs.length + l) };
}

/** A place that is got to, and the goal that it is nearest to. */
interface Nearest {
  readonly at: Point;
  readonly z: number;
  readonly goal: Point;
  readonly away: number;
}

/** The place of a part on a level that is nearest to one of some goals; null where it has none there. */
function nearestReached(
  stack: Stack,
  { of }: Parts,
  part: number,
  level: number,
  goals: readonly Point[],
): Nearest | null {
  const graph = stack.graphs[level]!;
  const offset = stack.offsets[level]!;
  const plane = 2 * graph.nodes;
  let best: { at: Point; goal: Point; state: number } | null = null;
  let away = Infinity;
  const look = (at: Point, goal: Point, state: number): void => {
    const d = distance(at, goal);
    if (d >= away) return;
    away = d;
    best = { at, goal, state };
  };
  for (const goal of goals)
    for (let s = 0; s < graph.net.states; s++) {
      if (of[s + offset] !== part) continue;
      look(placeOfState(graph, s), goal, s);
      for (let e = graph.net.first[s]!; e < graph.net.first[s + 1]!; e++) {
        const t = graph.net.to[e]!;
        if (s < plane && t < plane) look(nearestBetween(graph, s >> 1, t >> 1, goal), goal, s);
      }
    }
  return best && within(graph, best, away);
}

const within = (
  graph: Graph,
  { at, goal, state }: { at: Point; goal: Point; state: number },
  away: number,
): Nearest => ({ at, z: elevationAt(graph, state, at), goal, away });

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
