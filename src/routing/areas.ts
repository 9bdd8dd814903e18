import type { Shape } from '../geometry/shape.ts';

/** Narrowest band, mm, and how many bands an area may lie in on average. */
const BAND = 500;
const SHARE = 16;

/** The areas that lie in each band across an axis: band b has `list` from `from[b]` to `from[b + 1]`. */
interface Bands {
  readonly lowest: number;
  readonly width: number;
  readonly from: Int32Array;
  readonly list: Int32Array;
}

/** Areas in bands across both axes, so that a line asks only about those that it may meet. */
export class Areas {
  readonly shapes: readonly Shape[];
  readonly #bands: readonly [Bands, Bands];

  constructor(shapes: readonly Shape[]) {
    this.shapes = shapes;
    const bounds = {
      x: [shapes.map((s) => s.x0), shapes.map((s) => s.x1)] as const,
      y: [shapes.map((s) => s.y0), shapes.map((s) => s.y1)] as const,
    };
    this.#bands = [bandsOf(bounds.y, bounds.x[0]), bandsOf(bounds.x, bounds.y[0])];
  }

  /** Calls back for all areas that a line along `axis` at coordinate c may meet, in about the order in which it does. */
  eachNear(axis: 0 | 1, c: number, visit: (area: number) => void): void {
    const { lowest, width, from, list } = this.#bands[axis];
    const band = Math.floor((c - lowest) / width);
    if (band < 0 || band >= from.length - 1) return;
    const end = from[band + 1]!;
    for (let i = from[band]!; i < end; i++) visit(list[i]!);
  }
}

/** @param start where each area begins along the lines, for the order */
function bandsOf([lo, hi]: readonly [number[], number[]], start: number[]): Bands {
  const order = lo.flatMap((_, i) => (lo[i]! <= hi[i]! ? [i] : []));
  order.sort((a, b) => start[a]! - start[b]!);
  let [lowest, highest, extent] = [Infinity, -Infinity, 0];
  for (const i of order) {
    if (lo[i]! < lowest) lowest = lo[i]!;
    if (hi[i]! > highest) highest = hi[i]!;
    extent += hi[i]! - lo[i]!;
  }
  // Wide enough that neither the bands nor what lies in them grow out of proportion to the areas.
  const most = SHARE * order.length;
  const width = Math.max(BAND, (highest - lowest) / most || 0, extent / most || 0);
  const count = order.length > 0 ? Math.floor((highest - lowest) / width) + 1 : 0;
  const first = (i: number): number => Math.floor((lo[i]! - lowest) / width);
  const last = (i: number): number => Math.floor((hi[i]! - lowest) / width);
  const from = new Int32Array(count + 1);
  for (const i of order) for (let b = first(i); b <= last(i); b++) from[b + 1]!++;
  for (let b = 0; b < count; b++) from[b + 1]! += from[b]!;
  const fill = from.slice();
  const list = new Int32Array(from[count]!);
  for (const i of order) for (let b = first(i); b <= last(i); b++) list[fill[b]!++] = i;
  return { lowest, width, from, list };
}

/** Where a line goes into areas and out of them, in order: positions with a code each, one more for the way out. */
export class Borders {
  count = 0;
  at = new Float64Array(64);
  code = new Int32Array(64);

  clear(): void {
    this.count = 0;
  }

  /** Takes a stretch inside; an empty one counts for nothing. */
  add(from: number, to: number, code: number): void {
    if (from >= to) return;
    if (this.count + 2 > this.at.length) this.#grow();
    this.#put(from, code);
    this.#put(to, code + 1);
  }

  #put(position: number, code: number): void {
    const { at, code: codes } = this;
    let i = this.count++;
    for (; i > 0 && at[i - 1]! > position; i--) {
      at[i] = at[i - 1]!;
      codes[i] = codes[i - 1]!;
    }
    at[i] = position;
    codes[i] = code;
  }

  #grow(): void {
    const { at, code } = this;
    this.at = new Float64Array(2 * at.length);
    this.code = new Int32Array(2 * code.length);
    this.at.set(at);
    this.code.set(code);
  }
}
