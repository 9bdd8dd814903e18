import type { Point } from '../geometry/point.ts';
import { type Ground, groundOf } from './ground.ts';
import { covers, type LineSet, linesOf, type Wishes, wishesOf } from './lines.ts';
import { Media, mediumAt, type Toll, toll, UNITS } from './medium.ts';
import { BEND, type Network } from './search.ts';
import { JOIN_REACH, MAX_NODES, type Site } from './site.ts';
import { startsOf } from './starts.ts';
import {
  elevationOn,
  meeting,
  nearestOn,
  placeOn,
  type Track,
  tracksOf,
  trackToll,
} from './tracks.ts';

/** A place on a track where a cable may join, leave or pass on to another track. */
export interface Stop {
  readonly p: number;
  readonly side: 0 | 1;
  readonly z: number;
  readonly state: number;
  readonly place: Point;
}

/**
 * The ceiling plane of a site as a network.
 *
 * Node n is a crossing of two lines and has two states: 2n travels along x, 2n + 1 along y; turning costs a bend.
 * The stops of tracks follow after all nodes, one state each.
 */
export interface Graph {
  readonly site: Site;
  readonly ground: Ground;
  readonly media: Media;
  /** Lines along x, and lines along y. */
  readonly lines: readonly [LineSet, LineSet];
  readonly nodes: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Line through each node along x and along y; -1 where a track meets only one line. */
  readonly lineOf: readonly [Int32Array, Int32Array];
  /** Nodes of each line in order: `list` from `from[line]` to `from[line + 1]`. */
  readonly from: readonly [Int32Array, Int32Array];
  readonly list: readonly [Int32Array, Int32Array];
  readonly tracks: readonly Track[];
  readonly stops: readonly (readonly Stop[])[];
  /** Track and index of the stop behind each state beyond 2 * nodes. */
  readonly stopOf: readonly { readonly track: number; readonly index: number }[];
  readonly net: Network;
  /** False when the site was too large for all its lines: routes hold, but may not be the cheapest. */
  readonly exact: boolean;
  /** Whether some track lies off the axes. */
  readonly slanted: boolean;
  /** Price of a bend, in units. */
  readonly bend: number;
}

/** The network of a level: its walls, ceilings, keep-outs and pathways as lines to search on. */
export function buildGraph(site: Site): Graph {
  const ground = groundOf(site);
  const media = new Media(ground);
  const tracks = tracksOf(ground, media);
  const wishes = wishesOf(ground, media, tracks);
  for (const closet of ground.closets)
    for (const start of startsOf(ground, media, closet.at, null)) wishes.cross(start.x, start.y);
  return assemble(site, ground, media, tracks, chosenLines(wishes, media));
}

/** Most coordinates of lines along one axis. */
const MAX_LINES = 4000;

/** All lines, or as many as the bounds allow. */
function chosenLines(wishes: Wishes, media: Media): readonly [LineSet, LineSet] {
  for (let limit = MAX_LINES; ; limit /= 2) {
    const lines = [linesOf(wishes, media, 0, limit), linesOf(wishes, media, 1, limit)] as const;
    if (limit < 64 || countCrossings(lines[0], lines[1]) <= MAX_NODES) return lines;
  }
}

/** How many crossings there are, or a number beyond the bound. */
function countCrossings(h: LineSet, v: LineSet): number {
  let count = 0;
  eachCrossing(h, v, () => ++count <= MAX_NODES);
  return count;
}

/** Calls back for each crossing in the order of the lines along x, while the answer is true. */
function eachCrossing(h: LineSet, v: LineSet, visit: (h: number, v: number) => boolean): void {
  for (let i = 0; i < h.count; i++) {
    const y = h.c[i]!;
    const t = h.side[i]!;
    const lo = h.lo[i]!;
    const hi = h.hi[i]!;
    for (let j = lowerBound(v.c, lo); j < v.count; j++) {
      const x = v.c[j]!;
      if (x > hi) break;
      if (y < v.lo[j]! || y > v.hi[j]!) continue;
      if (!covers(h, i, x, v.side[j]!) || !covers(v, j, y, t)) continue;
      if (!visit(i, j)) return;
    }
  }
}

/** The first place in a sorted row whose value is not below this one; its length where all are. */
export function lowerBound(sorted: Float64Array, value: number): number {
  let lo = 0;
  let hi = sorted.length;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (sorted[mid]! < value) lo = mid + 1;
    else hi = mid;
  }
  return lo;
}

/** Nodes of a graph while it is being built. */
class Nodes {
  count = 0;
  x = new Float64Array(1024);
  y = new Float64Array(1024);
  h = new Int32Array(1024);
  v = new Int32Array(1024);

  /** Adds a node on line h along x and line v along y; -1 for none. Returns its number. */
  add(x: number, y: number, h: number, v: number): number {
    const n = this.count++;
    if (n === this.x.length) this.#resize(2 * n);
    this.x[n] = x;
    this.y[n] = y;
    this.h[n] = h;
    this.v[n] = v;
    return n;
  }

  trim(): void {
    this.#resize(this.count);
  }

  #resize(size: number): void {
    const [x, y] = [this.x, this.y];
    const [h, v] = [this.h, this.v];
    this.x = new Float64Array(size);
    this.y = new Float64Array(size);
    this.h = new Int32Array(size);
    this.v = new Int32Array(size);
    this.x.set(x.length > size ? x.subarray(0, size) : x);
    this.y.set(y.length > size ? y.subarray(0, size) : y);
    this.h.set(h.length > size ? h.subarray(0, size) : h);
    this.v.set(v.length > size ? v.subarray(0, size) : v);
  }
}

function assemble(
  site: Site,
  ground: Ground,
  media: Media,
  tracks: readonly Track[],
  lines: readonly [LineSet, LineSet],
): Graph {
  const nodes = new Nodes();
  eachCrossing(lines[0], lines[1], (i, j) => {
    nodes.add(lines[1].c[j]!, lines[0].c[i]!, i, j);
    return true;
  });
  const crossings = nodes.count;
  const drafts = tracks.map((track, index) =>
    draftStops(track, index, tracks, ground, lines, nodes),
  );
  nodes.trim();
  const { count } = nodes;
  const h = along(nodes.h, nodes.x, lines[0], crossings);
  const v = along(nodes.v, nodes.y, lines[1], crossings);
  const stopOf: { track: number; index: number }[] = [];
  const stops = drafts.map((list, track) =>
    list.map((draft, index): Stop => {
      stopOf.push({ track, index });
      return {
        p: draft.p,
        side: draft.side,
        z: elevationOn(media, tracks[track]!, draft.p, draft.side),
        state: 2 * count + stopOf.length - 1,
        place: placeOn(tracks[track]!, draft.p),
      };
    }),
  );
  const partial = {
    site,
    ground,
    media,
    lines,
    nodes: count,
    x: nodes.x,
    y: nodes.y,
    lineOf: [nodes.h, nodes.v] as const,
    from: [h.from, v.from] as const,
    list: [h.list, v.list] as const,
    tracks,
    stops,
    stopOf,
    exact: lines[0].whole && lines[1].whole,
    slanted: tracks.some((track) => track.axis === 2),
    bend: site.prices.bend * UNITS,
  };
  return { ...partial, net: networkOf(partial, drafts) };
}

/** Nodes of each line, in order along it. */
function along(
  line: Int32Array,
  position: Float64Array,
  lines: LineSet,
  crossings: number,
): { from: Int32Array; list: Int32Array } {
  const from = new Int32Array(lines.count + 1);
  for (let node = 0; node < line.length; node++) if (line[node]! >= 0) from[line[node]! + 1]!++;
  for (let l = 0; l < lines.count; l++) from[l + 1]! += from[l]!;
  const fill = from.slice();
  const list = new Int32Array(from[lines.count]!);
  const mixed = new Set<number>();
  for (let node = 0; node < line.length; node++) {
    const l = line[node]!;
    if (l < 0) continue;
    list[fill[l]!++] = node;
    if (node >= crossings) mixed.add(l);
  }
  for (const l of mixed) {
    const part = Array.from(list.subarray(from[l]!, from[l + 1]!));
    // Crossings are in order already; a stable sort keeps the sides of one coordinate as they are.
    part.sort((a, b) => position[a]! - position[b]!);
    list.set(part, from[l]!);
  }
  return { from, list };
}

interface Draft {
  p: number;
  side: 0 | 1;
  /** Nodes where it joins the plane. */
  joins: number[];
}

/** The stops of a track in order: its ends, and where it can be joined what crosses it. */
function draftStops(
  track: Track,
  self: number,
  tracks: readonly Track[],
  ground: Ground,
  lines: readonly [LineSet, LineSet],
  nodes: Nodes,
): Draft[] {
  const lo = Math.min(track.pa, track.pb);
  const hi = Math.max(track.pa, track.pb);
  const drafts = new Map<string, Draft>();
  const stop = (p: number, side: 0 | 1): Draft => {
    const s = p <= lo ? 1 : p >= hi ? 0 : track.axis === 2 ? 0 : side;
    const at = Math.min(hi, Math.max(lo, p));
    const key = `${at} ${s}`;
    const known = drafts.get(key);
    if (known) return known;
    const fresh: Draft = { p: at, side: s, joins: [] };
    drafts.set(key, fresh);
    return fresh;
  };
  stop(track.pa, 0);
  stop(track.pb, 0);
  if (track.anywhere) {
    const axes = track.axis === 2 ? ([0, 1] as const) : ([(1 - track.axis) as 0 | 1] as const);
    for (const axis of axes) meetLines(track, axis, lines, nodes, stop);
    tracks.forEach((other, index) => {
      if (index === self) return;
      for (const place of meetings(track, other)) {
        const p = nearestOn(track, place);
        stop(p, 0);
        stop(p, 1);
      }
    });
    for (const closet of ground.closets) {
      const p = nearestOn(track, closet.at);
      const [x, y] = placeOn(track, p);
      if (Math.abs(x - closet.at[0]) + Math.abs(y - closet.at[1]) > JOIN_REACH) continue;
      stop(p, 0);
      stop(p, 1);
    }
  }
  const list = [...drafts.values()].sort((a, b) => a.p - b.p || a.side - b.side);
  if (track.axis === 2) joinEnds(track, list, nodes);
  else joinPlane(track, list, lines, nodes);
  return list;
}

/** Where another track can pass a cable on to this one. */
function meetings(track: Track, other: Track): Point[] {
  const meet = meeting(track, other);
  if (meet) return other.anywhere || isOpenEnd(other, meet) ? [meet] : [];
  const ends: Point[] = [];
  if (other.openA) ends.push([other.ax, other.ay]);
  if (other.openB) ends.push([other.bx, other.by]);
  return ends.filter((e) => {
    const [x, y] = placeOn(track, nearestOn(track, e));
    return x === e[0] && y === e[1];
  });
}

function isOpenEnd(track: Track, [x, y]: Point): boolean {
  if (track.openA && x === track.ax && y === track.ay) return true;
  return track.openB && x === track.bx && y === track.by;
}

/** Stops where the lines across a track meet it; on a slanted track each gets a node of its own on the line. */
function meetLines(
  track: Track,
  axis: 0 | 1,
  lines: readonly [LineSet, LineSet],
  nodes: Nodes,
  stop: (p: number, side: 0 | 1) => Draft,
): void {
  const set = lines[axis];
  const from = axis === 0 ? Math.min(track.ay, track.by) : Math.min(track.ax, track.bx);
  const to = axis === 0 ? Math.max(track.ay, track.by) : Math.max(track.ax, track.bx);
  for (let i = lowerBound(set.c, from); i < set.count && set.c[i]! <= to; i++) {
    const c = set.c[i]!;
    if (track.axis !== 2) {
      const at = axis === 0 ? track.ax : track.ay;
      if (set.lo[i]! <= at && set.hi[i]! >= at) stop(c, set.side[i] as 0 | 1);
      continue;
    }
    const k =
      axis === 0 ? (c - track.ay) / (track.by - track.ay) : (c - track.ax) / (track.bx - track.ax);
    if (!(k >= 0 && k <= 1)) continue;
    const at =
      axis === 0 ? track.ax + k * (track.bx - track.ax) : track.ay + k * (track.by - track.ay);
    if (!(at > set.lo[i]! && at < set.hi[i]!)) continue;
    const node = axis === 0 ? nodes.add(at, c, i, -1) : nodes.add(c, at, -1, i);
    stop(k * track.pb, 0).joins.push(node);
  }
}

/** Joins the stops of an axis-parallel track to the nodes at their place. */
function joinPlane(
  track: Track,
  list: readonly Draft[],
  lines: readonly [LineSet, LineSet],
  nodes: Nodes,
): void {
  const open = (draft: Draft, i: number): boolean => {
    if (track.anywhere) return true;
    const first = track.pa <= track.pb ? i === 0 : i === list.length - 1;
    return first ? track.openA : track.openB && draft.p === track.pb;
  };
  const at = new Map<number, Draft[]>();
  list.forEach((draft, i) => {
    if (!open(draft, i)) return;
    const known = at.get(draft.p);
    if (known) known.push(draft);
    else at.set(draft.p, [draft]);
  });
  const mine = track.axis === 0 ? nodes.x : nodes.y;
  const fixed = track.axis === 0 ? nodes.y : nodes.x;
  const c = track.axis === 0 ? track.ay : track.ax;
  const ends = [Math.min(track.pa, track.pb), Math.max(track.pa, track.pb)];
  for (let node = 0; node < nodes.count; node++) {
    if (fixed[node] !== c || nodes.h[node]! < 0 || nodes.v[node]! < 0) continue;
    const drafts = at.get(mine[node]!);
    if (!drafts) continue;
    const line = track.axis === 0 ? nodes.v[node]! : nodes.h[node]!;
    const side = lines[track.axis === 0 ? 1 : 0].side[line]!;
    for (const draft of drafts)
      if (ends.includes(draft.p) || draft.side === side) draft.joins.push(node);
  }
}

/** Joins the ends of a slanted track to the crossings at their place. */
function joinEnds(track: Track, list: readonly Draft[], nodes: Nodes): void {
  for (const draft of list) {
    const start = draft.p === track.pa && track.openA;
    if (!start && !(draft.p === track.pb && track.openB)) continue;
    const [x, y] = start ? [track.ax, track.ay] : [track.bx, track.by];
    for (let node = 0; node < nodes.count; node++)
      if (nodes.x[node] === x && nodes.y[node] === y && !draft.joins.includes(node))
        draft.joins.push(node);
  }
}

type Plain = Omit<Graph, 'net'>;

interface Link {
  readonly a: number;
  readonly b: number;
  readonly cost: number;
  readonly second: number;
}

function networkOf(graph: Plain, drafts: readonly (readonly Draft[])[]): Network {
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

/** The side on which a node lies along its line: that of the line across. */
export function sideAt(graph: Pick<Graph, 'lineOf' | 'lines'>, axis: 0 | 1, node: number): 0 | 1 {
  const across = graph.lineOf[(1 - axis) as 0 | 1][node]!;
  return across < 0 ? 0 : (graph.lines[(1 - axis) as 0 | 1].side[across] as 0 | 1);
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
  for (const axis of [0, 1] as const) {
    const list = graph.list[axis];
    const { cost } = tolls[axis];
    for (let k = 0; k < list.length; k++) {
      if (cost[k]! < 0) continue;
      first[2 * list[k]! + axis + 1]!++;
      first[2 * list[k + 1]! + axis + 1]!++;
    }
  }
  for (let node = 0; node < graph.nodes; node++) {
    if (turn[node]! < 0) continue;
    first[2 * node + 1]!++;
    first[2 * node + 2]!++;
  }
  for (const { a, b } of links) {
    first[a + 1]!++;
    first[b + 1]!++;
  }
  for (let s = 0; s < states; s++) first[s + 1]! += first[s]!;
  const total = first[states]!;
  const to = new Int32Array(total);
  const weight = new Float64Array(total);
  const second = new Float64Array(total);
  const fill = first.slice();
  let maxCost = 0;
  const arc = (a: number, b: number, c: number, s: number): void => {
    if (c > maxCost) maxCost = c;
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
