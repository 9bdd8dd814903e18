import { BEND, type Network, weights } from './field.ts';
import type { Graph } from './graph.ts';
import { type Links, trackLinks } from './links.ts';
import { UNITS } from './medium.ts';
import type { Draft } from './stops.ts';
import type { LineTolls } from './tolls.ts';
import type { NearTracks } from './track-places.ts';

type Plain = Omit<Graph, 'net' | 'listStretch'>;
type Tolls = readonly [LineTolls, LineTolls];

/** The arcs of a graph: along its lines, at its turns, along its tracks and between these. */
export function networkOf(
  graph: Plain,
  tolls: Tolls,
  drafts: readonly (readonly Draft[])[],
  near: NearTracks,
): Network {
  const links = trackLinks(graph, drafts, [tolls[0].medium, tolls[1].medium], near);
  return compress(graph, tolls, links);
}

/** All arcs in the order of their states: back and on along the line, the turn, and what tracks add. */
function compress(graph: Plain, tolls: Tolls, links: Links): Network {
  const [h, v] = tolls;
  const plane = 2 * graph.nodes;
  const states = plane + graph.stopOf.length;
  // Nearly every node has a turn, so there is room for all, and what is left over is cut off.
  const room = 2 * (h.count + v.count + graph.nodes + links.count);
  const { step, price } = graph.media.most();
  const maxCost = Math.max(h.maxCost, v.maxCost, graph.bend + step * UNITS + price, links.maxCost);
  const maxSecond = Math.max(h.maxSecond, v.maxSecond, BEND + 2 * step, links.maxSecond);
  // Until a state is written, `first` holds the number of its first end of a link, from 1.
  const first = new Int32Array(states + 1);
  const later = chainLinks(links, first);
  const to = new Int32Array(room);
  const cost = weights(room, maxCost);
  const second = weights(room, maxSecond);
  const net: Network = { states, first, to, cost, second, maxCost };
  const parts = { tolls, links, later };
  let e = 0;
  for (let from = 0; from < graph.nodes; from += AT_ONCE)
    e = writeNodes(graph, parts, net, from, Math.min(graph.nodes, from + AT_ONCE), e);
  for (let state = plane; state < states; state++) {
    const end = first[state]!;
    first[state] = e;
    e = writeLinks(parts, net, end, e);
  }
  first[states] = e;
  return {
    states,
    first,
    to: to.subarray(0, e),
    cost: cost.subarray(0, e),
    second: second.subarray(0, e),
    maxCost,
  };
}

/** Nodes whose arcs are written by one call: engines compile a function that is called often, not a loop that is long. */
const AT_ONCE = 256;

/** What the arcs of a network are made of, with the ends of links chained by their states. */
interface Parts {
  readonly tolls: Tolls;
  readonly links: Links;
  readonly later: Int32Array;
}

/** Writes the arcs of the nodes from one to before another, from place e on; answers with the place after them. */
function writeNodes(
  { media, bend, list: [hList, vList] }: Plain,
  parts: Parts,
  net: Network,
  from: number,
  before: number,
  e: number,
): number {
  const {
    tolls: [h, v],
  } = parts;
  const { list } = media;
  const { first, to, cost, second } = net;
  for (let node = from; node < before; node++) {
    const a = h.medium[node]!;
    const b = v.medium[node]!;
    const turns = a >= 0 && b >= 0 && !list[a]!.barred && !list[b]!.barred;
    let turn = bend;
    let turnSecond = BEND;
    if (turns && a !== b) {
      // The two lines lie on either side of an edge.
      const step = media.step(a, b);
      turn += step * UNITS + media.price(a, b);
      turnSecond += 2 * step;
    }
    let state = 2 * node;
    let end = first[state]!;
    first[state] = e;
    e = writeAlong(h, hList, node, 0, net, e);
    if (turns) {
      to[e] = state + 1;
      cost[e] = turn;
      second[e++] = turnSecond;
    }
    if (end > 0) e = writeLinks(parts, net, end, e);
    end = first[++state]!;
    first[state] = e;
    e = writeAlong(v, vList, node, 1, net, e);
    if (turns) {
      to[e] = state - 1;
      cost[e] = turn;
      second[e++] = turnSecond;
    }
    if (end > 0) e = writeLinks(parts, net, end, e);
  }
  return e;
}

/** Back and on along the line of a node. */
function writeAlong(
  tolls: LineTolls,
  list: Int32Array,
  node: number,
  axis: 0 | 1,
  { to, cost, second }: Network,
  e: number,
): number {
  const k = tolls.place[node]!;
  if (k < 0) return e;
  const back = k > 0 ? tolls.cost[k - 1]! : -1;
  if (back >= 0) {
    to[e] = 2 * list[k - 1]! + axis;
    cost[e] = back;
    second[e++] = tolls.second[k - 1]!;
  }
  const on = tolls.cost[k]!;
  if (on >= 0) {
    to[e] = 2 * list[k + 1]! + axis;
    cost[e] = on;
    second[e++] = tolls.second[k]!;
  }
  return e;
}

/** The arcs of a chain of links' ends. */
function writeLinks(
  { links, later }: Parts,
  { to, cost, second }: Network,
  first: number,
  e: number,
): number {
  for (let end = first; end > 0; end = later[end]!) {
    const i = (end - 1) >> 1;
    to[e] = (end & 1) === 1 ? links.b[i]! : links.a[i]!;
    cost[e] = links.cost[i]!;
    second[e++] = links.second[i]!;
  }
  return e;
}

/**
 * Chains the ends of links by their states, in the order of the links: end 2i + 1 is the start of link i, 2i + 2 its
 * other end. `head` gets the first end of each state, the answer says which one follows; 0 for none.
 */
function chainLinks(links: Links, head: Int32Array): Int32Array {
  const later = new Int32Array(2 * links.count + 1);
  for (let i = links.count - 1; i >= 0; i--) {
    const a = links.a[i]!;
    const b = links.b[i]!;
    later[2 * i + 2] = head[b]!;
    head[b] = 2 * i + 2;
    later[2 * i + 1] = head[a]!;
    head[a] = 2 * i + 1;
  }
  return later;
}
