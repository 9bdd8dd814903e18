import { type LineSet, lowerBound } from './lines.ts';

/** Nodes of a graph while it is being built: first the crossings in the order of the lines along x, then others. */
export class Nodes {
  count = 0;
  x: Float64Array;
  y: Float64Array;
  h: Int32Array;
  v: Int32Array;

  constructor(room: number) {
    this.x = new Float64Array(room);
    this.y = new Float64Array(room);
    this.h = new Int32Array(room);
    this.v = new Int32Array(room);
  }

  /** Adds a node on line h along x and line v along y; -1 for none. Returns its number. */
  add(x: number, y: number, h: number, v: number): number {
    const n = this.count++;
    if (n === this.x.length) this.#grow(2 * n + 16);
    this.x[n] = x;
    this.y[n] = y;
    this.h[n] = h;
    this.v[n] = v;
    return n;
  }

  /** Lets go of the room that is left over. */
  trim(): void {
    const { count } = this;
    this.x = this.x.subarray(0, count);
    this.y = this.y.subarray(0, count);
    this.h = this.h.subarray(0, count);
    this.v = this.v.subarray(0, count);
  }

  #grow(room: number): void {
    const { x, y, h, v } = this;
    this.x = new Float64Array(room);
    this.y = new Float64Array(room);
    this.h = new Int32Array(room);
    this.v = new Int32Array(room);
    this.x.set(x);
    this.y.set(y);
    this.h.set(h);
    this.v.set(v);
  }
}

/**
 * The crossings of two sets of lines, in the order of the lines along x; null where there are more than `most`. They are
 * counted first: room for all that there might be would often be several times what they need.
 */
export function crossingsOf(h: LineSet, v: LineSet, most: number): Nodes | null {
  const spans = spansAcross(h, v);
  let count = 0;
  for (let i = 0; i < h.count; i++) count += countOn(h, v, i, spans[2 * i]!, spans[2 * i + 1]!);
  if (count > most) return null;
  const nodes = new Nodes(count);
  for (let i = 0; i < h.count; i++) crossOn(h, v, i, spans[2 * i]!, spans[2 * i + 1]!, nodes);
  return nodes;
}

/** A line reaches a place on one side of its end, so of the two sides of a line there, one does. */
const reaches = (lo: number, hi: number, y: number, above: boolean): boolean =>
  above ? y >= lo && y < hi : y > lo && y <= hi;

/** How many of the lines along y from one to before another cross line i along x. */
function countOn({ c, side }: LineSet, { lo, hi }: LineSet, i: number, from: number, to: number) {
  const y = c[i]!;
  const above = side[i] === 1;
  let count = 0;
  for (let j = from; j < to; j++) if (reaches(lo[j]!, hi[j]!, y, above)) count++;
  return count;
}

/** Adds their crossings. */
function crossOn(h: LineSet, v: LineSet, i: number, from: number, to: number, nodes: Nodes): void {
  const y = h.c[i]!;
  const above = h.side[i] === 1;
  for (let j = from; j < to; j++)
    if (reaches(v.lo[j]!, v.hi[j]!, y, above)) nodes.add(v.c[j]!, y, i, j);
}

/** For each line along x, the first line along y that it may cross and the one after the last. */
function spansAcross(h: LineSet, v: LineSet): Int32Array {
  const spans = new Int32Array(2 * h.count);
  for (let i = 0; i < h.count; i++) {
    const lo = h.lo[i]!;
    const hi = h.hi[i]!;
    let from = lowerBound(v.c, lo);
    while (from < v.count && v.c[from] === lo && v.side[from] === 0) from++;
    let to = lowerBound(v.c, hi);
    while (to < v.count && v.c[to] === hi && v.side[to] === 0) to++;
    spans[2 * i] = from;
    spans[2 * i + 1] = Math.max(from, to);
  }
  return spans;
}

/** The nodes of each line along one axis, in order along it. */
export interface Row {
  /** Line l has the places from `from[l]` to `from[l + 1]`. */
  readonly from: Int32Array;
  /** The node at each place, its position along the line, and its side there: that of the line across. */
  readonly list: Int32Array;
  readonly position: Float64Array;
  readonly side: Uint8Array;
}

/** The nodes of each line along an axis; those from `crossings` on are no crossings. */
export function rowOf(
  nodes: Nodes,
  axis: 0 | 1,
  lines: readonly [LineSet, LineSet],
  crossings: number,
): Row {
  const { from, list, position } = placesOf(nodes, axis, lines[axis].count, crossings);
  const across = axis === 0 ? nodes.v : nodes.h;
  const sides = lines[(1 - axis) as 0 | 1].side;
  const side = new Uint8Array(list.length);
  for (let k = 0; k < list.length; k++) {
    const line = across[list[k]!]!;
    if (line >= 0) side[k] = sides[line]!;
  }
  return { from, list, position, side };
}

function placesOf(nodes: Nodes, axis: 0 | 1, lines: number, crossings: number): Omit<Row, 'side'> {
  const line = axis === 0 ? nodes.h : nodes.v;
  const at = axis === 0 ? nodes.x : nodes.y;
  const { count } = nodes;
  const from = new Int32Array(lines + 1);
  for (let node = 0; node < count; node++) if (line[node]! >= 0) from[line[node]! + 1]!++;
  for (let l = 0; l < lines; l++) from[l + 1]! += from[l]!;
  // Crossings are numbered in the order of the lines along x.
  if (axis === 0 && count === crossings) {
    const list = new Int32Array(count);
    for (let node = 0; node < count; node++) list[node] = node;
    return { from, list, position: at.subarray(0, count) };
  }
  const fill = from.slice();
  const list = new Int32Array(from[lines]!);
  const position = new Float64Array(list.length);
  for (let node = 0; node < count; node++) {
    const l = line[node]!;
    if (l < 0) continue;
    const k = fill[l]!++;
    list[k] = node;
    position[k] = at[node]!;
  }
  const mixed = new Set<number>();
  for (let node = crossings; node < count; node++) if (line[node]! >= 0) mixed.add(line[node]!);
  for (const l of mixed) {
    const part = Array.from(list.subarray(from[l]!, from[l + 1]!));
    // Crossings are in order already; a stable sort keeps the sides of one coordinate as they are.
    part.sort((a, b) => at[a]! - at[b]!);
    list.set(part, from[l]!);
    position.set(
      part.map((node) => at[node]!),
      from[l]!,
    );
  }
  return { from, list, position };
}

/** The first place of a line, `from` to `to`, whose node does not lie before a position. */
export function placeFrom(row: Row, from: number, to: number, at: number): number {
  let lo = from;
  let hi = to;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (row.position[mid]! < at) lo = mid + 1;
    else hi = mid;
  }
  return lo;
}

/** Calls back for the nodes on the lines of a row at coordinate c, from one position to another, line by line. */
export function eachOn(
  row: Row,
  lines: LineSet,
  c: number,
  lo: number,
  hi: number,
  visit: (node: number) => void,
): void {
  for (let l = lowerBound(lines.c, c); l < lines.count && lines.c[l] === c; l++) {
    const end = row.from[l + 1]!;
    for (let k = placeFrom(row, row.from[l]!, end, lo); k < end && row.position[k]! <= hi; k++)
      visit(row.list[k]!);
  }
}
