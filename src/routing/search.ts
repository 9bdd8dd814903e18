import { BEND, Field, type Network, NONE, type Seed } from './field.ts';
import { wideSearch } from './wide-search.ts';

/** Few enough that their heads stay in the nearest cache; more only where an arc is longer than all of them. */
const BUCKETS = 1024;
const MOST_BUCKETS = 65_536;
/** Width of a bucket, as a power of two: 82 mm of plain length, in units. */
const SHIFT = 14;
/** Room for the states that wait at first, two places each. */
const PAIRS = 1024;

/** How many buckets, a power of two. */
function bucketsFor(maxCost: number): number {
  let count = BUCKETS;
  while (count < MOST_BUCKETS && (count - 2) * 2 ** SHIFT < maxCost) count *= 2;
  return count;
}

/** So wide, as a power of two, that the ring of buckets is longer than any arc. */
function shiftFor(maxCost: number, buckets: number): number {
  let shift = SHIFT;
  while ((buckets - 2) * 2 ** shift < maxCost) shift++;
  return shift;
}

/** The bits of a second weight that hold its length. */
const LENGTH = BEND - 1;

/** A state that waits in a bucket has this for its next one; it is its own inverse. */
const waiting = (next: number): number => -3 - next;

/**
 * One-to-all least cost over a graph in compressed rows: a queue of buckets with lazy deletion, exact for any
 * non-negative whole weights, because a bucket that is wider than an arc only means that a state is settled twice.
 *
 * Order is by cost, then by `second` (bends and real length), so both are the least possible and depend on nothing
 * but the graph. Dial's buckets ("Algorithm 360", Communications of the ACM 12, 1969), from memory.
 *
 * @param spare a field that nobody reads any more; its room is used again if it fits
 * @returns for every state of the network; infinite where no way leads
 */
export function search(net: Network, seeds: readonly Seed[], spare?: Field): Field {
  const { cost, second } = net;
  if (cost instanceof Int32Array && second instanceof Int32Array) {
    const room = spare?.record;
    const fits = room instanceof Int32Array && room.length === 4 * net.states;
    const run = new Run(net, cost, second, fits ? room : new Int32Array(4 * net.states));
    if (run.from([...seeds].sort((a, b) => a.cost - b.cost))) return new Field(run.record);
  }
  return wideSearch(net, seeds);
}

/** A search in whole numbers of 32 bits, up to a cost of some 10 km of plain length. */
class Run {
  readonly record: Int32Array;
  readonly #net: Network;
  readonly #weight: Int32Array;
  readonly #extra: Int32Array;
  /** The most that a state may cost, so that no arc from it can lead past 32 bits. */
  readonly #most: number;
  readonly #ring: number;
  readonly #shift: number;
  /**
   * Heads of the buckets, then pairs of a place and a state: a head, and the first of a pair, say where in the list
   * the next pair of the bucket is; -1 where none follows. Pairs that were taken out hang together from `#free`.
   */
  #list: Int32Array;
  #used: number;
  #free = -1;
  #left = 0;
  #current = 0;

  constructor(net: Network, weight: Int32Array, extra: Int32Array, room: Int32Array) {
    this.#net = net;
    this.#weight = weight;
    this.#extra = extra;
    this.record = room.fill(NONE);
    this.#most = NONE - 1 - net.maxCost;
    const buckets = bucketsFor(net.maxCost);
    this.#ring = buckets - 1;
    this.#shift = shiftFor(net.maxCost, buckets);
    this.#list = new Int32Array(buckets + PAIRS).fill(-1, 0, buckets);
    this.#used = buckets;
  }

  /**
   * Goes on until no state waits; false when 32 bits are not enough. A seed begins when its bucket comes: most were
   * reached more cheaply by then, and those of a large site are farther apart than the ring is long.
   *
   * @param seeds the cheapest first
   */
  from(seeds: readonly Seed[]): boolean {
    let next = 0;
    while (next < seeds.length || this.#left > 0) {
      if (this.#left === 0) {
        if (seeds[next]!.cost > this.#most) return false;
        this.#current = seeds[next]!.cost >> this.#shift;
      }
      while (next < seeds.length && this.#isDue(seeds[next]!)) this.#begin(seeds[next++]!);
      if (this.#list[this.#current & this.#ring]! < 0) this.#current++;
      else if (!this.#empty(this.#current & this.#ring)) return false;
    }
    return true;
  }

  #isDue({ cost }: Seed): boolean {
    return cost <= this.#most && cost >> this.#shift <= this.#current;
  }

  #begin({ state, cost, second }: Seed): void {
    const { record } = this;
    const at = 4 * state;
    const bends = Math.floor(second / BEND);
    const length = second % BEND;
    if (cost > record[at]!) return;
    if (cost === record[at]!) {
      const known = record[at + 2]!;
      if (bends > known || (bends === known && length >= record[at + 3]!)) return;
    }
    record[at] = cost;
    record[at + 1] = waiting(-1);
    record[at + 2] = bends;
    record[at + 3] = length;
    const bucket = (cost >> this.#shift) & this.#ring;
    if (this.#used + 2 > this.#list.length) this.#list = grown(this.#list);
    this.#list[this.#used] = this.#list[bucket]!;
    this.#list[this.#used + 1] = state;
    this.#list[bucket] = this.#used;
    this.#used += 2;
    this.#left++;
  }

  /**
   * Takes a whole bucket out and goes on from its states; what comes to it meanwhile is a bucket anew. Called once for
   * each bucket, so that engines compile it as a whole; with one long loop about it they would do so piece by piece.
   * False when 32 bits are not enough.
   */
  #empty(bucket: number): boolean {
    const { record } = this;
    const { first, to } = this.#net;
    const weight = this.#weight;
    const extra = this.#extra;
    const most = this.#most;
    const shift = this.#shift;
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
      const mine = u << 2;
      const way = record[mine + 1]!;
      // Taken out already, from here or from an earlier bucket.
      if (way >= -1) continue;
      record[mine + 1] = waiting(way);
      const base = record[mine]!;
      const baseBends = record[mine + 2]!;
      const baseLength = record[mine + 3]!;
      if (base > most || baseLength > LENGTH) return false;
      for (let e = first[u]!, end = first[u + 1]!; e < end; e++) {
        const v = to[e]!;
        const theirs = v << 2;
        const c = (base + weight[e]!) | 0;
        const old = record[theirs]!;
        if (c > old) continue;
        const more = extra[e]!;
        const bends = (baseBends + (more >> 30)) | 0;
        const length = (baseLength + (more & LENGTH)) | 0;
        if (c === old) {
          const known = record[theirs + 2]!;
          if (bends > known || (bends === known && length >= record[theirs + 3]!)) continue;
        }
        record[theirs] = c;
        record[theirs + 1] = waiting(u);
        record[theirs + 2] = bends;
        record[theirs + 3] = length;
        let pair = free;
        if (pair >= 0) free = list[pair]!;
        else {
          if (used + 2 > list.length) list = grown(list);
          pair = used;
          used += 2;
        }
        const target = (c >> shift) & ring;
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
    return true;
  }
}

function grown(list: Int32Array): Int32Array {
  const larger = new Int32Array(2 * list.length);
  larger.set(list);
  return larger;
}
