import { type Network, weights } from './field.ts';

/** Takes an arc, one way. */
export type TakeArc = (from: number, to: number, cost: number, second: number) => void;

/**
 * A network from its arcs, which are told twice, the same both times: to count them, and to put them into rows. The
 * arcs of a state keep the order in which they are told.
 */
export function networkFrom(states: number, arcs: (take: TakeArc) => void): Network {
  const first = new Int32Array(states + 1);
  let maxCost = 0;
  let maxSecond = 0;
  arcs((from, _to, cost, second) => {
    first[from + 1]!++;
    if (cost > maxCost) maxCost = cost;
    if (second > maxSecond) maxSecond = second;
  });
  for (let s = 0; s < states; s++) first[s + 1]! += first[s]!;
  const total = first[states]!;
  const to = new Int32Array(total);
  const weight = weights(total, maxCost);
  const extra = weights(total, maxSecond);
  const fill = first.slice();
  arcs((from, target, cost, second) => {
    const i = fill[from]!++;
    to[i] = target;
    weight[i] = cost;
    extra[i] = second;
  });
  return { states, first, to, cost: weight, second: extra, maxCost };
}
