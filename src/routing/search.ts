/**
 * One-to-all least cost over a graph in compressed rows: a queue of buckets with lazy deletion, exact for any
 * non-negative whole weights, because a bucket that is wider than an arc only means that a state is settled twice.
 *
 * Order is by cost, then by `second` (bends and real length), so both are the least possible and depend on nothing
 * but the graph.
 */
export interface Network {
  readonly states: number;
  /** Arcs of state s are first[s] to first[s + 1]. */
  readonly first: Int32Array;
  readonly to: Int32Array;
  /** Cost of each arc, and its second weight. */
  readonly cost: Float64Array;
  readonly second: Float64Array;
  readonly maxCost: number;
}

/** What each state is away from the source; Infinity where there is no way. */
export interface Field {
  readonly cost: Float64Array;
  readonly second: Float64Array;
  /** The next state towards the source; -1 at the source. */
  readonly next: Int32Array;
  /** The least cost of a seed, and the longest lead of one: for lower bounds. */
  readonly base: number;
  readonly lead: number;
}

/** One bend in the second weight; below it stands the real length in half millimetres. */
export const BEND = 2 ** 32;

/** A state that the source reaches at once, with its cost so far. */
export interface Seed {
  readonly state: number;
  readonly cost: number;
  readonly second: number;
  /** Real length across that the cost holds already. */
  readonly lead: number;
}

const BUCKETS = 8192;
/** 64 mm of plain length, in units. */
const WIDTH = 12_800;

/**
 * The least cost from the seeds to every state of a network, with the next state on the way; infinite where none leads.
 */
export function search(net: Network, seeds: readonly Seed[]): Field {
  const { states, first, to, cost: weight, second: extra } = net;
  const cost = new Float64Array(states).fill(Infinity);
  const second = new Float64Array(states).fill(Infinity);
  const next = new Int32Array(states).fill(-1);
  const spread = seeds.reduce((m, s) => Math.max(m, s.cost), 0);
  const width = Math.max(WIDTH, Math.max(net.maxCost, spread) / (BUCKETS - 4));
  const head = new Int32Array(BUCKETS).fill(-1);
  let room = 1024 + states;
  let poolState = new Int32Array(room);
  let poolCost = new Float64Array(room);
  let poolLink = new Int32Array(room);
  let used = 0;
  let free = -1;
  let waiting = 0;
  const inverse = 1 / width;
  const mask = BUCKETS - 1;
  const grow = (): void => {
    room *= 2;
    const s = new Int32Array(room);
    s.set(poolState);
    poolState = s;
    const c = new Float64Array(room);
    c.set(poolCost);
    poolCost = c;
    const l = new Int32Array(room);
    l.set(poolLink);
    poolLink = l;
  };
  let current = Infinity;
  for (const seed of seeds) {
    if (seed.cost > cost[seed.state]!) continue;
    if (seed.cost === cost[seed.state]! && seed.second >= second[seed.state]!) continue;
    cost[seed.state] = seed.cost;
    second[seed.state] = seed.second;
    const bucket = Math.floor(seed.cost * inverse);
    if (bucket < current) current = bucket;
    const slot = used++;
    if (slot >= room) grow();
    poolState[slot] = seed.state;
    poolCost[slot] = seed.cost;
    poolLink[slot] = head[bucket & mask]!;
    head[bucket & mask] = slot;
    waiting++;
  }
  while (waiting > 0) {
    const bucket = current & mask;
    const slot = head[bucket]!;
    if (slot < 0) {
      current++;
      continue;
    }
    head[bucket] = poolLink[slot]!;
    poolLink[slot] = free;
    free = slot;
    waiting--;
    const u = poolState[slot]!;
    const base = cost[u]!;
    if (poolCost[slot]! !== base) continue;
    const baseSecond = second[u]!;
    for (let e = first[u]!, end = first[u + 1]!; e < end; e++) {
      const v = to[e]!;
      const c = base + weight[e]!;
      const old = cost[v]!;
      if (c > old) continue;
      const s = baseSecond + extra[e]!;
      if (c === old && s >= second[v]!) continue;
      cost[v] = c;
      second[v] = s;
      next[v] = u;
      let at = free;
      if (at >= 0) free = poolLink[at]!;
      else {
        at = used++;
        if (at >= room) grow();
      }
      const b = Math.floor(c * inverse) & mask;
      poolState[at] = v;
      poolCost[at] = c;
      poolLink[at] = head[b]!;
      head[b] = at;
      waiting++;
    }
  }
  const base = seeds.reduce((m, s) => Math.min(m, s.cost), Infinity);
  const lead = seeds.reduce((m, s) => Math.max(m, s.lead), 0);
  return { cost, second, next, base, lead };
}
