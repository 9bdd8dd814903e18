import FlatQueue from 'flatqueue';
import { BEND, Field, type Network, NONE, type Seed } from './field.ts';

/**
 * The same as `search`, for numbers of any size: plain and slower, by a heap. A state that becomes no cheaper but
 * straighter or shorter waits anew.
 */
export function wideSearch(net: Network, seeds: readonly Seed[]): Field {
  const { first, to, cost: weight, second: extra } = net;
  const record = new Float64Array(4 * net.states).fill(NONE);
  const cost = new Float64Array(net.states).fill(Infinity);
  const second = new Float64Array(net.states).fill(Infinity);
  const queue = new FlatQueue<number>();
  const offer = (state: number, c: number, s: number, next: number): void => {
    if (c > cost[state]! || (c === cost[state] && s >= second[state]!)) return;
    cost[state] = c;
    second[state] = s;
    record[4 * state] = c;
    record[4 * state + 1] = next;
    record[4 * state + 2] = Math.floor(s / BEND);
    record[4 * state + 3] = s % BEND;
    queue.push(state, c);
  };
  for (const seed of seeds) offer(seed.state, seed.cost, seed.second, -1);
  while (queue.length > 0) {
    const base = queue.peekValue()!;
    const u = queue.pop()!;
    if (base > cost[u]!) continue;
    const baseSecond = second[u]!;
    for (let e = first[u]!, end = first[u + 1]!; e < end; e++)
      offer(to[e]!, base + weight[e]!, baseSecond + extra[e]!, u);
  }
  return new Field(record);
}
