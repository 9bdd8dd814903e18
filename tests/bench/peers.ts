import FlatQueue from 'flatqueue';
import Graph from 'graphology';
import { singleSource } from 'graphology-shortest-path/dijkstra.js';
import createGraph from 'ngraph.graph';
import { nba } from 'ngraph.path';
import type { Network, Seed } from '../../src/routing/field.ts';
import { UNITS } from '../../src/routing/medium.ts';
import { type Instance, TRAY } from './instances.ts';

/** What the searches that we compare ours with find out: cost and the next state, no second weight. */
interface Found {
  readonly cost: Float64Array;
  readonly next: Int32Array;
}

/** Nothing found yet; in the room of what was found before, if that is given. */
const blank = (states: number, spare?: Found): Found => ({
  cost: (spare?.cost ?? new Float64Array(states)).fill(Infinity),
  next: (spare?.next ?? new Int32Array(states)).fill(-1),
});

/** Dijkstra's search with a binary heap of the package `flatqueue`, by cost alone, with lazy deletion. */
export function heapSearch(net: Network, seeds: readonly Seed[], spare?: Found): Found {
  const { first, to, cost: weight } = net;
  const { cost, next } = blank(net.states, spare);
  const queue = new FlatQueue<number>();
  for (const seed of seeds) {
    if (seed.cost >= cost[seed.state]!) continue;
    cost[seed.state] = seed.cost;
    queue.push(seed.state, seed.cost);
  }
  while (queue.length > 0) {
    const base = queue.peekValue()!;
    const u = queue.pop()!;
    if (base > cost[u]!) continue;
    for (let e = first[u]!, end = first[u + 1]!; e < end; e++) {
      const v = to[e]!;
      const c = base + weight[e]!;
      if (c >= cost[v]!) continue;
      cost[v] = c;
      next[v] = u;
      queue.push(v, c);
    }
  }
  return { cost, next };
}

/** The states that can be reached, in an order in which a search by cost may settle them. */
export function settled(net: Network, seeds: readonly Seed[]): Int32Array {
  const { cost, next } = heapSearch(net, seeds);
  // Where an arc costs nothing, its end comes after its beginning.
  const hops = new Int32Array(net.states);
  for (let state = 0; state < net.states; state++)
    for (let at = next[state]!; at >= 0; at = next[at]!) hops[state]!++;
  const order = Int32Array.from(cost.keys()).filter((state) => cost[state]! < Infinity);
  return order.sort((a, b) => cost[a]! - cost[b]! || hops[a]! - hops[b]!);
}

/** The floor of any search: each arc looked at once, in the order that a search would have to find, without a queue. */
export function floorSearch(
  net: Network,
  seeds: readonly Seed[],
  order: Int32Array,
  spare?: Found,
): Found {
  const { first, to, cost: weight } = net;
  const { cost, next } = blank(net.states, spare);
  for (const seed of seeds) cost[seed.state] = Math.min(cost[seed.state]!, seed.cost);
  for (let i = 0; i < order.length; i++) {
    const u = order[i]!;
    const base = cost[u]!;
    for (let e = first[u]!, end = first[u + 1]!; e < end; e++) {
      const v = to[e]!;
      const c = base + weight[e]!;
      if (c >= cost[v]!) continue;
      cost[v] = c;
      next[v] = u;
    }
  }
  return { cost, next };
}

/** The cheapest arc between two states. */
function arcCost({ first, to, cost }: Network, a: number, b: number): number {
  let least = Infinity;
  for (let e = first[a]!; e < first[a + 1]!; e++)
    if (to[e] === b) least = Math.min(least, cost[e]!);
  return least;
}

function pathCost(net: Network, states: readonly number[]): number {
  let sum = 0;
  for (let i = 1; i < states.length; i++) sum += arcCost(net, states[i - 1]!, states[i]!);
  return sum;
}

/** The package `graphology`: from the source to all, by `dijkstra.singleSource`. The answer: cost of a state. */
export function graphologyPeer({ net, source }: Instance): () => (state: number) => number {
  const graph = new Graph({ type: 'directed', multi: false });
  for (let s = 0; s < net.states; s++) graph.addNode(s);
  for (let s = 0; s < net.states; s++)
    for (let e = net.first[s]!; e < net.first[s + 1]!; e++)
      graph.addDirectedEdge(s, net.to[e]!, { weight: net.cost[e]! });
  return () => {
    const paths = singleSource(graph, source, 'weight');
    return (state) => pathCost(net, paths[state]!.map(Number));
  };
}

/**
 * The package `ngraph.path`: from the source to each target in turn, by its fastest exact finder (`nba`), told the
 * least that is left. The answer: cost of a target.
 */
export function ngraphPeer({ net, source, x, y }: Instance): (target: number) => number {
  const graph = createGraph<null, number>();
  for (let s = 0; s < net.states; s++) graph.addNode(s, null);
  for (let s = 0; s < net.states; s++)
    for (let e = net.first[s]!; e < net.first[s + 1]!; e++)
      graph.addLink(s, net.to[e]!, net.cost[e]!);
  const finder = nba(graph, {
    oriented: true,
    distance: (_a, _b, link) => link.data,
    heuristic: (a, b) => {
      const [p, q] = [Number(a.id), Number(b.id)];
      return TRAY * UNITS * (Math.abs(x[p]! - x[q]!) + Math.abs(y[p]! - y[q]!));
    },
  });
  return (target) => {
    const path = finder.find(source, target).map((node) => Number(node.id));
    return pathCost(net, path[0] === source ? path : path.reverse());
  };
}
