/**
 * One-to-all least cost over a graph in compressed rows: a queue of buckets with lazy deletion, exact for any
 * non-negative whole weights, because a bucket that is wider than an arc only means that a state is settled twice.
 *
 * Order is by cost, then by `second` (bends and real length), so both are the least possible and depend on nothing
 * but the graph. Dial's buckets ("Algorithm 360", Communications of the ACM 12, 1969), from memory.
 */
export interface Network {
  readonly states: number;
  /** Arcs of state s are first[s] to first[s + 1]. */
  readonly first: Int32Array;
  readonly to: Int32Array;
  /** Cost of each arc, and its second weight: see `weights`. */
  readonly cost: Weights;
  readonly second: Weights;
  readonly maxCost: number;
}

/** Whole numbers from 0: in 32 bits where they fit, which makes a search faster, else in doubles. */
export type Weights = Int32Array | Float64Array;

/** Room for so many weights of at most this size. */
export const weights = (count: number, most: number): Weights =>
  most < 2 ** 31 ? new Int32Array(count) : new Float64Array(count);

/** What each state is away from the source; Infinity where there is no way. */
export interface Field {
  readonly cost: Float64Array;
  readonly second: Float64Array;
  /** The next state towards the source; -1 at the source. */
  readonly next: Int32Array;
}

/**
 * One bend in the second weight; below it stands the real length in half millimetres. A bend and the step that goes
 * with it fit 32 bits, and a way may be 500 km long before its length counts as a bend.
 */
export const BEND = 2 ** 30;

/** A state that the source reaches at once, with its cost so far. */
export interface Seed {
  readonly state: number;
  readonly cost: number;
  readonly second: number;
}

/** Few enough that their heads stay in the nearest cache; more only where an arc is longer than all of them. */
const BUCKETS = 1024;
const MOST_BUCKETS = 65_536;
/** 64 mm of plain length, in units. */
const WIDTH = 12_800;
/** Room for the states that wait at first, two places each. */
const PAIRS = 1024;

/** How many buckets, a power of two, so that the ring of them is longer than any arc where that can be. */
function bucketsFor(maxCost: number): number {
  let count = BUCKETS;
  while (count < MOST_BUCKETS && (count - 2) * WIDTH < maxCost) count *= 2;
  return count;
}

/** A state that waits in a bucket has this for its next one; it is its own inverse. */
const waiting = (next: number): number => -3 - next;

/**
 * The least cost from the seeds to every state of a network, with the next state on the way; infinite where none leads.
 */
export function search(net: Network, seeds: readonly Seed[]): Field {
  const run = new Run(net);
  run.from([...seeds].sort((a, b) => a.cost - b.cost));
  return { cost: run.cost, second: run.second, next: run.next };
}

class Run {
  readonly cost: Float64Array;
  readonly second: Float64Array;
  readonly next: Int32Array;
  readonly #net: Network;
  readonly #ring: number;
  /** One by the width of a bucket. */
  readonly #inverse: number;
  /**
   * Heads of the buckets, then pairs of a place and a state: a head, and the first of a pair, say where in the list
   * the next pair of the bucket is; -1 where none follows. Pairs that were taken out hang together from `#free`.
   */
  #list: Int32Array;
  #used: number;
  #free = -1;
  #left = 0;
  #current = 0;

  constructor(net: Network) {
    this.#net = net;
    this.cost = new Float64Array(net.states).fill(Infinity);
    this.second = new Float64Array(net.states).fill(Infinity);
    this.next = new Int32Array(net.states).fill(-1);
    const buckets = bucketsFor(net.maxCost);
    this.#ring = buckets - 1;
    this.#inverse = 1 / Math.max(WIDTH, net.maxCost / (buckets - 2));
    this.#list = new Int32Array(buckets + PAIRS).fill(-1, 0, buckets);
    this.#used = buckets;
  }

  /**
   * Goes on until no state waits. A seed begins when its bucket comes: most were reached more cheaply by then, and those
   * of a large site are farther apart than the ring is long.
   *
   * @param seeds the cheapest first
   */
  from(seeds: readonly Seed[]): void {
    let next = 0;
    while (next < seeds.length || this.#left > 0) {
      if (this.#left === 0) this.#current = this.#bucketOf(seeds[next]!.cost);
      while (next < seeds.length && this.#bucketOf(seeds[next]!.cost) <= this.#current)
        this.#begin(seeds[next++]!);
      if (this.#list[this.#current & this.#ring]! < 0) this.#current++;
      else this.#empty(this.#current & this.#ring);
    }
  }

  #bucketOf(cost: number): number {
    return Math.floor(cost * this.#inverse);
  }

  #begin({ state, cost, second }: Seed): void {
    const old = this.cost[state]!;
    if (cost > old || (cost === old && second >= this.second[state]!)) return;
    this.cost[state] = cost;
    this.second[state] = second;
    this.next[state] = waiting(-1);
    const bucket = this.#bucketOf(cost);
    if (this.#used + 2 > this.#list.length) this.#list = grown(this.#list);
    this.#list[this.#used] = this.#list[bucket & this.#ring]!;
    this.#list[this.#used + 1] = state;
    this.#list[bucket & this.#ring] = this.#used;
    this.#used += 2;
    this.#left++;
  }

  /**
   * Takes a whole bucket out and goes on from its states; what comes to it meanwhile is a bucket anew. Called once for
   * each bucket, so that engines compile it as a whole; with one long loop about it they would do so piece by piece.
   */
  #empty(bucket: number): void {
    const { cost, second, next } = this;
    const { first, to, cost: weight, second: extra } = this.#net;
    const inverse = this.#inverse;
    const ring = this.#ring;
    let list = this.#list;
    let used = this.#used;
    let free = this.#free;
    let left = this.#left;
    const head = list[bucket]!;
    list[bucket] = -1;
    let last = head;
    for (let at = head; at >= 0; ) {
      const u = list[at + 1]!;
      last = at;
      at = list[at]!;
      left--;
      const way = next[u]!;
      // Taken out already, from here or from an earlier bucket.
      if (way >= -1) continue;
      next[u] = waiting(way);
      const base = cost[u]!;
      const baseSecond = second[u]!;
      for (let e = first[u]!, end = first[u + 1]!; e < end; e++) {
        const v = to[e]!;
        const c = base + weight[e]!;
        const old = cost[v]!;
        let s = 0;
        if (c < old) s = baseSecond + extra[e]!;
        else {
          if (c > old) continue;
          s = baseSecond + extra[e]!;
          if (s >= second[v]!) continue;
        }
        cost[v] = c;
        second[v] = s;
        next[v] = waiting(u);
        let pair = free;
        if (pair >= 0) free = list[pair]!;
        else {
          if (used + 2 > list.length) list = grown(list);
          pair = used;
          used += 2;
        }
        const target = ((c * inverse) | 0) & ring;
        list[pair] = list[target]!;
        list[pair + 1] = v;
        list[target] = pair;
        left++;
      }
    }
    list[last] = free;
    this.#list = list;
    this.#used = used;
    this.#free = head;
    this.#left = left;
  }
}

function grown(list: Int32Array): Int32Array {
  const larger = new Int32Array(2 * list.length);
  larger.set(list);
  return larger;
}
