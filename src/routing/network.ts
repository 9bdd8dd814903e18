import type { Graph, Stop } from './graph.ts';
import { sideAt } from './lines.ts';
import { mediumAt, type Toll, toll, UNITS } from './medium.ts';
import { BEND, type Network, weights } from './search.ts';
import type { Draft } from './stops.ts';
import { type Track, trackToll } from './tracks.ts';

type Plain = Omit<Graph, 'net'>;

interface Link {
  readonly a: number;
  readonly b: number;
  readonly cost: number;
  readonly second: number;
}

/** The arcs of a graph: along its lines, at its turns, along its tracks and between these. */
export function networkOf(graph: Plain, drafts: readonly (readonly Draft[])[]): Network {
  const { media, nodes, lines } = graph;
  const states = 2 * nodes + graph.stopOf.length;
  const links = trackLinks(graph, drafts);
  const cost = [0, 1].map((axis) => lineTolls(graph, axis as 0 | 1));
  const turn = new Float64Array(nodes).fill(-1);
  const turnLength = new Float64Array(nodes);
  const at = [-1, -1];
  const mediumOf = (node: number, axis: 0 | 1): number => {
    const line = graph.lineOf[axis][node]!;
    const other = graph.lineOf[1 - axis]![node]!;
    const side = lines[1 - axis]!.side[other] as 0 | 1;
    return mediumAt(
      lines[axis].profiles[line]!,
      axis === 0 ? graph.x[node]! : graph.y[node]!,
      side,
    );
  };
  for (let node = 0; node < nodes; node++) {
    if (graph.lineOf[0][node]! < 0 || graph.lineOf[1][node]! < 0) continue;
    at[0] = mediumOf(node, 0);
    at[1] = mediumOf(node, 1);
    const [a, b] = at as [number, number];
    if (media.list[a]!.barred || media.list[b]!.barred) continue;
    const step = a === b ? 0 : media.step(a, b);
    turn[node] = graph.bend + (a === b ? 0 : step * UNITS + media.price(a, b));
    turnLength[node] = step;
  }
  return compress(graph, states, cost as [LineTolls, LineTolls], turn, turnLength, links);
}

interface LineTolls {
  /** From each place in the list to the next of the same line; -1 where there is no passage. */
  readonly cost: Float64Array;
  readonly length: Float64Array;
}

function lineTolls(graph: Plain, axis: 0 | 1): LineTolls {
  const list = graph.list[axis];
  const from = graph.from[axis];
  const position = axis === 0 ? graph.x : graph.y;
  const cost = new Float64Array(list.length).fill(-1);
  const length = new Float64Array(list.length);
  const out: Toll = { cost: 0, length: 0 };
  for (let line = 0; line < graph.lines[axis].count; line++) {
    const profile = graph.lines[axis].profiles[line]!;
    for (let k = from[line]!; k + 1 < from[line + 1]!; k++) {
      const [a, b] = [list[k]!, list[k + 1]!];
      toll(
        graph.media,
        profile,
        position[a]!,
        sideAt(graph, axis, a),
        position[b]!,
        sideAt(graph, axis, b),
        out,
      );
      cost[k] = out.cost;
      length[k] = out.length;
    }
  }
  return { cost, length };
}

/** Arcs along tracks, between tracks, and between tracks and the plane. */
function trackLinks(graph: Plain, drafts: readonly (readonly Draft[])[]): Link[] {
  const { media, tracks, stops, bend } = graph;
  const links: Link[] = [];
  const out: Toll = { cost: 0, length: 0 };
  const groups = new Map<string, { track: number; stop: Stop }[]>();
  tracks.forEach((track, index) => {
    const list = stops[index]!;
    const factor = graph.site.prices.pathwayFactor;
    list.forEach((stop, i) => {
      const after = list[i + 1];
      if (after) {
        trackToll(media, track, stop.p, stop.side, after.p, after.side, factor, out);
        if (out.cost >= 0)
          links.push({
            a: stop.state,
            b: after.state,
            cost: out.cost,
            second: Math.round(2 * out.length),
          });
      }
      for (const node of drafts[index]![i]!.joins)
        links.push(...joinLinks(graph, track, stop, node));
      if (!canPass(track, stop)) return;
      const key = `${Math.round(stop.place[0] * 4)} ${Math.round(stop.place[1] * 4)}`;
      const group = groups.get(key);
      if (group) group.push({ track: index, stop });
      else groups.set(key, [{ track: index, stop }]);
    });
  });
  for (const group of groups.values())
    for (let i = 0; i < group.length; i++)
      for (let j = i + 1; j < group.length; j++) {
        const [p, q] = [group[i]!, group[j]!];
        if (p.track === q.track) continue;
        const [s, t] = [tracks[p.track]!, tracks[q.track]!];
        if (!mayPass(s, p.stop, t, q.stop)) continue;
        const step = Math.abs(p.stop.z - q.stop.z);
        const turned = crossed(s, t);
        links.push({
          a: p.stop.state,
          b: q.stop.state,
          cost: step * UNITS + (turned ? bend : 0),
          second: 2 * step + (turned ? BEND : 0),
        });
      }
  return links;
}

const crossed = (s: Track, t: Track): boolean =>
  (s.bx - s.ax) * (t.by - t.ay) !== (s.by - s.ay) * (t.bx - t.ax);

/** Pieces of one pathway pass a cable on at their common corner; others where both can be joined. */
function mayPass(s: Track, p: Stop, t: Track, q: Stop): boolean {
  if (s.line >= 0 && s.line === t.line && Math.abs(s.segment - t.segment) === 1) {
    const [first, last] = s.segment < t.segment ? [s, t] : [t, s];
    const [end, start] = s.segment < t.segment ? [p, q] : [q, p];
    if (end.p === first.pb && start.p === last.pa) return true;
  }
  return joinable(s, p) && joinable(t, q);
}

const joinable = (track: Track, stop: Stop): boolean =>
  track.anywhere || (track.openA && stop.p === track.pa) || (track.openB && stop.p === track.pb);

const canPass = (track: Track, stop: Stop): boolean =>
  track.anywhere || stop.p === track.pa || stop.p === track.pb;

/**
 * Between a stop and a node of the plane: the step, a bend unless both go the same way, and inside a wall half a
 * passage, since the hole of a pathway serves nobody who leaves it in the middle.
 */
function joinLinks(graph: Plain, track: Track, stop: Stop, node: number): Link[] {
  const { media } = graph;
  const links: Link[] = [];
  for (const axis of [0, 1] as const) {
    const line = graph.lineOf[axis][node]!;
    if (line < 0) continue;
    if (track.axis !== 2 && axis !== track.axis) continue;
    const position = axis === 0 ? graph.x[node]! : graph.y[node]!;
    const medium = mediumAt(graph.lines[axis].profiles[line]!, position, sideAt(graph, axis, node));
    if (media.list[medium]!.barred) continue;
    const step = Math.abs(media.list[medium]!.z - stop.z);
    const face = track.line < 0 ? mediumAt(track.profile, stop.p, stop.side) : medium;
    if (media.list[face]!.barred) continue;
    const turned = track.axis === axis ? 0 : 1;
    const wall = track.line < 0 ? media.price(face, medium) : media.entry(medium);
    links.push({
      a: stop.state,
      b: 2 * node + axis,
      cost: step * UNITS + wall + turned * graph.bend,
      second: Math.round(2 * step) + turned * BEND,
    });
  }
  return links;
}

function compress(
  graph: Plain,
  states: number,
  tolls: readonly [LineTolls, LineTolls],
  turn: Float64Array,
  turnLength: Float64Array,
  links: readonly Link[],
): Network {
  const first = new Int32Array(states + 1);
  let maxCost = 0;
  let maxSecond = 0;
  const most = (c: number, s: number): void => {
    if (c > maxCost) maxCost = c;
    if (s > maxSecond) maxSecond = s;
  };
  for (const axis of [0, 1] as const) {
    const list = graph.list[axis];
    const { cost, length } = tolls[axis];
    for (let k = 0; k < list.length; k++) {
      if (cost[k]! < 0) continue;
      most(cost[k]!, Math.round(2 * length[k]!));
      first[2 * list[k]! + axis + 1]!++;
      first[2 * list[k + 1]! + axis + 1]!++;
    }
  }
  for (let node = 0; node < graph.nodes; node++) {
    if (turn[node]! < 0) continue;
    most(turn[node]!, BEND + 2 * turnLength[node]!);
    first[2 * node + 1]!++;
    first[2 * node + 2]!++;
  }
  for (const { a, b, cost, second } of links) {
    most(cost, second);
    first[a + 1]!++;
    first[b + 1]!++;
  }
  for (let s = 0; s < states; s++) first[s + 1]! += first[s]!;
  const total = first[states]!;
  const to = new Int32Array(total);
  const weight = weights(total, maxCost);
  const second = weights(total, maxSecond);
  const fill = first.slice();
  const arc = (a: number, b: number, c: number, s: number): void => {
    const i = fill[a]!++;
    to[i] = b;
    weight[i] = c;
    second[i] = s;
    const j = fill[b]!++;
    to[j] = a;
    weight[j] = c;
    second[j] = s;
  };
  for (const axis of [0, 1] as const) {
    const list = graph.list[axis];
    const { cost, length } = tolls[axis];
    for (let k = 0; k < list.length; k++)
      if (cost[k]! >= 0)
        arc(2 * list[k]! + axis, 2 * list[k + 1]! + axis, cost[k]!, Math.round(2 * length[k]!));
  }
  for (let node = 0; node < graph.nodes; node++)
    if (turn[node]! >= 0) arc(2 * node, 2 * node + 1, turn[node]!, BEND + 2 * turnLength[node]!);
  for (const { a, b, cost, second: s } of links) arc(a, b, cost, s);
  return { states, first, to, cost: weight, second, maxCost };
}
