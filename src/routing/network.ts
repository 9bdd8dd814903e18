import { BEND, type Network, weights } from './field.ts';
import type { Graph } from './graph.ts';
import { type Links, trackLinks } from './links.ts';
import { UNITS } from './medium.ts';
import type { Draft } from './stops.ts';
import { type LineTolls, lineTolls } from './tolls.ts';

type Plain = Omit<Graph, 'net'>;
type Tolls = readonly [LineTolls, LineTolls];

/** The arcs of a graph: along its lines, at its turns, along its tracks and between these. */
export function networkOf(graph: Plain, drafts: readonly (readonly Draft[])[]): Network {
  const tolls = [lineTolls(graph, 0), lineTolls(graph, 1)] as const;
  const links = trackLinks(graph, drafts, [tolls[0].medium, tolls[1].medium]);
  return compress(graph, tolls, turnsOf(graph, tolls), links);
}

/** Turns from one line to the other at a node. */
interface Turns {
  /** 1 where there is one for the price of a bend, 2 where the two lines lie in media apart, 0 where there is none. */
  readonly kind: Uint8Array;
  readonly count: number;
  readonly maxCost: number;
  readonly maxSecond: number;
}

function turnsOf(graph: Plain, [h, v]: Tolls): Turns {
  const { nodes, bend } = graph;
  const { list } = graph.media;
  const kind = new Uint8Array(nodes);
  let count = 0;
  let maxCost = bend;
  let maxSecond = BEND;
  for (let node = 0; node < nodes; node++) {
    const a = h.medium[node]!;
    const b = v.medium[node]!;
    if (a < 0 || b < 0 || list[a]!.barred || list[b]!.barred) continue;
    count++;
    kind[node] = a === b ? 1 : 2;
    if (a === b) continue;
    const { cost, second } = turnBetween(graph, a, b);
    if (cost > maxCost) maxCost = cost;
    if (second > maxSecond) maxSecond = second;
  }
  return count > 0
    ? { kind, count, maxCost, maxSecond }
    : { kind, count, maxCost: 0, maxSecond: 0 };
}

function turnBetween({ media, bend }: Plain, a: number, b: number) {
  const step = media.step(a, b);
  return { cost: bend + step * UNITS + media.price(a, b), second: BEND + 2 * step };
}

/** All arcs in the order of their states: back and on along the line, the turn, and what tracks add. */
function compress(graph: Plain, tolls: Tolls, turns: Turns, links: Links): Network {
  const [h, v] = tolls;
  const states = 2 * graph.nodes + graph.stopOf.length;
  const total = 2 * (h.count + v.count + turns.count + links.count);
  const maxCost = Math.max(h.maxCost, v.maxCost, turns.maxCost, links.maxCost);
  const maxSecond = Math.max(h.maxSecond, v.maxSecond, turns.maxSecond, links.maxSecond);
  // Until a state is written, `first` holds the number of its first end of a link, from 1.
  const first = new Int32Array(states + 1);
  const later = chainLinks(links, first);
  const to = new Int32Array(total);
  const cost = weights(total, maxCost);
  const second = weights(total, maxSecond);
  const net: Network = { states, first, to, cost, second, maxCost };
  const parts = { tolls, turns, links, later };
  let e = 0;
  for (let from = 0; from < states; from += AT_ONCE)
    e = writeArcs(graph, parts, net, from, Math.min(states, from + AT_ONCE), e);
  first[states] = e;
  return net;
}

/** States whose arcs are written by one call: engines compile a function that is called often, not a loop that is long. */
const AT_ONCE = 512;

/** What the arcs of a network are made of, with the ends of links chained by their states. */
interface Parts {
  readonly tolls: Tolls;
  readonly turns: Turns;
  readonly links: Links;
  readonly later: Int32Array;
}

/** Writes the arcs of the states from one to before another, from place e on; answers with the place after them. */
function writeArcs(
  graph: Plain,
  { tolls: [h, v], turns: { kind }, links, later }: Parts,
  { first, to, cost: weight, second: extra }: Network,
  from: number,
  before: number,
  e: number,
): number {
  const { bend } = graph;
  const [hList, vList] = graph.list;
  const { place: hPlace, cost: hCost, second: hSecond } = h;
  const { place: vPlace, cost: vCost, second: vSecond } = v;
  const plane = 2 * graph.nodes;
  for (let state = from; state < before; state++) {
    let end = first[state]!;
    first[state] = e;
    if (state < plane) {
      const node = state >> 1;
      const axis = state & 1;
      const along = axis === 0;
      const list = along ? hList : vList;
      const cost = along ? hCost : vCost;
      const second = along ? hSecond : vSecond;
      const k = along ? hPlace[node]! : vPlace[node]!;
      const back = k > 0 ? cost[k - 1]! : -1;
      if (back >= 0) {
        to[e] = 2 * list[k - 1]! + axis;
        weight[e] = back;
        extra[e++] = second[k - 1]!;
      }
      const on = k >= 0 ? cost[k]! : -1;
      if (on >= 0) {
        to[e] = 2 * list[k + 1]! + axis;
        weight[e] = on;
        extra[e++] = second[k]!;
      }
      const turn = kind[node]!;
      if (turn > 0) {
        to[e] = state ^ 1;
        if (turn === 1) {
          weight[e] = bend;
          extra[e++] = BEND;
        } else {
          const between = turnBetween(graph, h.medium[node]!, v.medium[node]!);
          weight[e] = between.cost;
          extra[e++] = between.second;
        }
      }
    }
    for (; end > 0; end = later[end]!) {
      const i = (end - 1) >> 1;
      to[e] = (end & 1) === 1 ? links.b[i]! : links.a[i]!;
      weight[e] = links.cost[i]!;
      extra[e++] = links.second[i]!;
    }
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
