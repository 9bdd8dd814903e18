import { inWords, type Weights, weights } from './field.ts';
import type { Graph } from './graph.ts';
import { stretchAt } from './profile.ts';
import { type Toll, tollWithin } from './toll.ts';

/** What it costs to go from node to node along the lines of one axis, and what lies at each node. */
export class LineTolls {
  /** From each place in the list to the next of the same line; -1 where there is no passage. */
  readonly cost: Weights;
  readonly second: Weights;
  /** Place of each node in the list, and the medium of its quadrant on its line; -1 for none. */
  readonly place: Int32Array;
  /** Number of the stretch of its line at each place of the list. */
  readonly stretch: Int32Array;
  readonly medium: Int32Array;
  /** How many passages there are, and the largest weights of one. */
  count = 0;
  maxCost = 0;
  maxSecond = 0;

  /** @param most that a weight may be, see `weights` */
  constructor(nodes: number, places: number, most: number) {
    this.cost = weights(places, most);
    this.second = weights(places, most);
    this.stretch = new Int32Array(places);
    this.place = new Int32Array(nodes);
    this.medium = new Int32Array(nodes);
    // Some nodes lie on no line of the axis.
    if (places < nodes) {
      this.place.fill(-1);
      this.medium.fill(-1);
    }
  }

  put(place: number, cost: number, length: number): void {
    this.cost[place] = cost;
    if (cost < 0) return;
    const second = Math.round(2 * length);
    this.second[place] = second;
    this.count++;
    if (cost > this.maxCost) this.maxCost = cost;
    if (second > this.maxSecond) this.maxSecond = second;
  }
}

/** Walks each line of an axis once, along its nodes and the stretches of its profile together. */
export function lineTolls(graph: Omit<Graph, 'net' | 'listStretch'>, axis: 0 | 1): LineTolls {
  // In words first: only a plane of some kilometres has ways between neighbours that do not fit.
  const tolls = walkLines(graph, axis, 0);
  const most = Math.max(tolls.maxCost, tolls.maxSecond);
  return inWords(most) ? tolls : walkLines(graph, axis, most);
}

function walkLines(
  graph: Omit<Graph, 'net' | 'listStretch'>,
  axis: 0 | 1,
  most: number,
): LineTolls {
  const tolls = new LineTolls(graph.nodes, graph.list[axis].length, most);
  const out: Toll = { cost: 0, length: 0 };
  for (let line = 0; line < graph.lines[axis].count; line++)
    walkLine(graph, axis, line, tolls, out);
  return tolls;
}

function walkLine(
  { media, lines, list: lists, from, listPosition, listSide }: Omit<Graph, 'net' | 'listStretch'>,
  axis: 0 | 1,
  line: number,
  tolls: LineTolls,
  out: Toll,
): void {
  const profile = lines[axis].profiles[line]!;
  const { row } = profile;
  const { starts, media: numbers } = row;
  const list = lists[axis];
  const position = listPosition[axis];
  const side = listSide[axis];
  const begin = from[axis][line]!;
  const end = from[axis][line + 1]!;
  if (begin === end) return;
  const { place, medium, stretch: stretches } = tolls;
  let before = position[begin]!;
  let stretch = stretchAt(profile, before, 0);
  // Most neighbours lie in one stretch: what that is made of is looked up when it begins.
  let number = numbers[stretch]!;
  let inside = media.list[number]!;
  for (let k = begin; k < end; k++) {
    const at = position[k]!;
    const first = stretch;
    if (side[k] === 1) while (starts[stretch + 1]! <= at) stretch++;
    else {
      while (starts[stretch + 1]! < at) stretch++;
      // A node that is no crossing lies before a border at its place, but may follow crossings that lie beyond it.
      while (starts[stretch]! >= at) stretch--;
    }
    const node = list[k]!;
    place[node] = k;
    stretches[k] = stretch;
    if (first !== stretch) {
      number = numbers[stretch]!;
      inside = media.list[number]!;
      if (k > begin) {
        tollWithin(media, row, first, before, stretch, at, out);
        tolls.put(k - 1, out.cost, out.length);
      }
    } else if (k > begin) {
      const length = at - before;
      const shut = inside.barred || (length > 0 && !inside.pass);
      tolls.put(k - 1, shut ? -1 : Math.round(length * 2 * inside.factor), length);
    }
    medium[node] = number;
    before = at;
  }
  tolls.cost[end - 1] = -1;
}
