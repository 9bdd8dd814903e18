import type { Graph } from './graph.ts';
import { type Profile, stretchAt } from './profile.ts';
import { type Toll, tollWithin } from './toll.ts';

/** What it costs to go from node to node along the lines of one axis, and what lies at each node. */
export class LineTolls {
  /** From each place in the list to the next of the same line; -1 where there is no passage. */
  readonly cost: Float64Array;
  readonly second: Float64Array;
  /** Place of each node in the list, and the medium of its quadrant on its line; -1 for none. */
  readonly place: Int32Array;
  readonly medium: Int32Array;
  /** How many passages there are, and the largest weights of one. */
  count = 0;
  maxCost = 0;
  maxSecond = 0;

  constructor(nodes: number, places: number) {
    this.cost = new Float64Array(places).fill(-1);
    this.second = new Float64Array(places);
    this.place = new Int32Array(nodes).fill(-1);
    this.medium = new Int32Array(nodes).fill(-1);
  }

  put(place: number, { cost, length }: Toll): void {
    if (cost < 0) return;
    const second = Math.round(2 * length);
    this.cost[place] = cost;
    this.second[place] = second;
    this.count++;
    if (cost > this.maxCost) this.maxCost = cost;
    if (second > this.maxSecond) this.maxSecond = second;
  }
}

/** Walks each line of an axis once, along its nodes and the stretches of its profile together. */
export function lineTolls(graph: Omit<Graph, 'net'>, axis: 0 | 1): LineTolls {
  const tolls = new LineTolls(graph.nodes, graph.list[axis].length);
  const out: Toll = { cost: 0, length: 0 };
  for (let line = 0; line < graph.lines[axis].count; line++)
    walkLine(graph, axis, line, tolls, out);
  return tolls;
}

function walkLine(
  { media, lines, list: lists, from, listPosition, listSide }: Omit<Graph, 'net'>,
  axis: 0 | 1,
  line: number,
  tolls: LineTolls,
  out: Toll,
): void {
  const profile = lines[axis].profiles[line]!;
  const list = lists[axis];
  const position = listPosition[axis];
  const side = listSide[axis];
  const begin = from[axis][line]!;
  const end = from[axis][line + 1]!;
  let before = begin < end ? stretchAt(profile, position[begin]!, 0) : 0;
  for (let k = begin; k < end; k++) {
    const node = list[k]!;
    const at = position[k]!;
    const stretch = stretchFrom(profile, before, at, side[k]!);
    tolls.place[node] = k;
    tolls.medium[node] = profile.media[stretch]!;
    if (k > begin) {
      tollWithin(media, profile, before, position[k - 1]!, stretch, at, out);
      tolls.put(k - 1, out);
    }
    before = stretch;
  }
}

/** The stretch at a position and side, looked for from one that is near it. */
function stretchFrom({ starts }: Profile, near: number, at: number, side: number): number {
  const last = starts.length - 1;
  let i = near;
  if (side === 1) {
    while (i < last && starts[i + 1]! <= at) i++;
    return i;
  }
  while (i < last && starts[i + 1]! < at) i++;
  // A node that is no crossing lies before a border at its place, but may follow crossings that lie beyond it.
  while (i > 0 && starts[i]! >= at) i--;
  return i;
}
