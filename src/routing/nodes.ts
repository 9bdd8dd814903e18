import { covers, type LineSet, lowerBound } from './lines.ts';
import { MAX_NODES } from './site.ts';

/** How many crossings there are, or a number beyond the bound. */
export function countCrossings(h: LineSet, v: LineSet): number {
  let count = 0;
  eachCrossing(h, v, () => ++count <= MAX_NODES);
  return count;
}

/** Calls back for each crossing in the order of the lines along x, while the answer is true. */
export function eachCrossing(
  h: LineSet,
  v: LineSet,
  visit: (h: number, v: number) => boolean,
): void {
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

/** Nodes of a graph while it is being built. */
export class Nodes {
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
