import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BEND, type Field, type Network, type Seed, weights } from '../../../src/routing/field.ts';
import { networkFrom } from '../../../src/routing/rows.ts';
import { search } from '../../../src/routing/search.ts';

interface Arc {
  readonly from: number;
  readonly to: number;
  readonly cost: number;
  readonly second: number;
}

const networkOf = (states: number, arcs: readonly Arc[]): Network =>
  networkFrom(states, (take) => {
    for (const { from, to, cost, second } of arcs) take(from, to, cost, second);
  });

const seed = (state: number, cost = 0, second = 0): Seed => ({
  state,
  cost,
  second,
});

/** A field as plain lists. */
function asLists(field: Field) {
  const states = Array.from({ length: field.states }, (_, state) => state);
  return {
    cost: states.map((state) => field.cost(state)),
    second: states.map((state) => field.second(state)),
    next: states.map((state) => field.next(state)),
  };
}

interface Labels {
  readonly cost: number[];
  readonly second: number[];
}

const before = (c: number, s: number, d: number, t: number): boolean => c < d || (c === d && s < t);

/** The textbook's search: the least state that is not settled yet, found by looking at all of them. */
function plainSearch(states: number, arcs: readonly Arc[], seeds: readonly Seed[]): Labels {
  const cost = new Array<number>(states).fill(Infinity);
  const second = new Array<number>(states).fill(Infinity);
  const settled = new Array<boolean>(states).fill(false);
  const offer = (state: number, c: number, s: number): void => {
    if (!before(c, s, cost[state]!, second[state]!)) return;
    cost[state] = c;
    second[state] = s;
  };
  for (const s of seeds) offer(s.state, s.cost, s.second);
  for (;;) {
    let least = -1;
    for (let s = 0; s < states; s++) {
      if (settled[s] || cost[s] === Infinity) continue;
      if (least < 0 || before(cost[s]!, second[s]!, cost[least]!, second[least]!)) least = s;
    }
    if (least < 0) return { cost, second };
    settled[least] = true;
    for (const arc of arcs)
      if (arc.from === least) offer(arc.to, cost[least]! + arc.cost, second[least]! + arc.second);
  }
}

/** What is wrong with the next states: each leads by an arc of the very difference, and so on to a seed. */
function faultsOfWays(arcs: readonly Arc[], seeds: readonly Seed[], found: Field): string[] {
  const field = asLists(found);
  return field.next.flatMap((first, state) => {
    if (field.cost[state] === Infinity) return first === -1 ? [] : [`${state} leads to ${first}`];
    let at = state;
    for (let steps = 0; field.next[at]! >= 0; steps++) {
      const to = field.next[at]!;
      const by = arcs.some(
        (arc) =>
          arc.from === to &&
          arc.to === at &&
          field.cost[to]! + arc.cost === field.cost[at] &&
          field.second[to]! + arc.second === field.second[at],
      );
      if (!by) return [`no arc of that weight from ${to} to ${at}`];
      if (steps > field.next.length) return [`${state} goes round in a ring`];
      at = to;
    }
    const home = seeds.some(
      (s) => s.state === at && s.cost === field.cost[at] && s.second === field.second[at],
    );
    return home ? [] : [`${state} ends at ${at}, which is no seed of that cost`];
  });
}

interface Case {
  readonly states: number;
  readonly arcs: readonly Arc[];
  readonly seeds: readonly Seed[];
}

/** Few costs, none among them, so that there are many ties; lengths so that some are broken and some are not. */
const manyTies = {
  cost: fc.constantFrom(0, 0, 1, 2, 200, 6400, 12_800, 20_000),
  second: fc.constantFrom(0, 0, 1, 2, BEND, BEND + 2),
};
/** Anything that a drawing can give, up to arcs that fit 32 bits no more and are longer than the ring of buckets. */
const anything = {
  cost: fc.oneof(fc.nat(50_000), fc.nat(2 ** 31 - 1), fc.nat(2 ** 42)),
  second: fc.oneof(fc.nat(1000), fc.nat(2 * BEND), fc.nat(2 ** 40)),
};

const caseOf = ({ cost, second }: typeof manyTies | typeof anything): fc.Arbitrary<Case> =>
  fc.integer({ min: 1, max: 24 }).chain((states) => {
    const state = fc.nat(states - 1);
    return fc.record({
      states: fc.constant(states),
      arcs: fc.array(fc.record({ from: state, to: state, cost, second }), { maxLength: 90 }),
      seeds: fc.array(fc.record({ state, cost, second }), { maxLength: 3 }),
    });
  });

function expectExact({ states, arcs, seeds }: Case): void {
  const field = search(networkOf(states, arcs), seeds);
  const wanted = plainSearch(states, arcs, seeds);
  expect(asLists(field).cost).toEqual(wanted.cost);
  expect(asLists(field).second).toEqual(wanted.second);
  expect(faultsOfWays(arcs, seeds, field)).toEqual([]);
}

describe('the search', () => {
  it('finds the least cost, and of equal ones the least second weight, with many ties and arcs for nothing', () => {
    fc.assert(fc.property(caseOf(manyTies), expectExact), { seed: 11, numRuns: 1500 });
  });

  it('finds them with arcs of any size', () => {
    fc.assert(fc.property(caseOf(anything), expectExact), { seed: 12, numRuns: 700 });
  });

  it('finds them on a grid that is larger than the first room for its queue', () => {
    const side = 30;
    const arcs: Arc[] = [];
    for (let n = 0; n < side * side; n++)
      for (const to of [n % side < side - 1 ? n + 1 : -1, n < side * (side - 1) ? n + side : -1]) {
        if (to < 0) continue;
        // Dear first: each state is reached again and again, every time a little cheaper.
        const cost = 1000 * (to - n === 1 ? (n * 7919) % 97 : (n * 104_729) % 89);
        const second = 2 * ((n * 31) % 40);
        arcs.push({ from: n, to, cost, second }, { from: to, to: n, cost, second });
      }
    for (let n = 1; n < side * side; n++)
      arcs.push({ from: 0, to: n, cost: 4_000_000 - 4000 * n, second: 0 });
    expectExact({ states: side * side, arcs, seeds: [seed(0)] });
  });

  it('gives the same ways whatever was searched before', () => {
    const sample = fc.sample(caseOf(manyTies), { seed: 13, numRuns: 40 });
    const run = ({ states, arcs, seeds }: Case) => search(networkOf(states, arcs), seeds);
    const once = sample.map(run);
    const again = sample.toReversed().map(run).toReversed();
    expect(again).toEqual(once);
  });

  it('begins a state by the cheapest of its seeds', () => {
    const net = networkOf(2, []);
    const field = search(net, [seed(0, 700, 3), seed(1, 500, 9), seed(0, 600, 1)]);
    expect(asLists(field).cost).toEqual([600, 500]);
    expect(asLists(field).second).toEqual([1, 9]);
  });

  it('reaches nothing without a seed', () => {
    const field = search(networkOf(2, [{ from: 0, to: 1, cost: 1, second: 1 }]), []);
    expect(asLists(field).cost).toEqual([Infinity, Infinity]);
    expect(asLists(field).next).toEqual([-1, -1]);
  });
});

describe('a network from arcs', () => {
  it('keeps the arcs of each state in the order in which they were told', () => {
    const net = networkOf(3, [
      { from: 2, to: 0, cost: 5, second: 6 },
      { from: 0, to: 1, cost: 7, second: 8 },
      { from: 2, to: 1, cost: 3, second: 4 },
    ]);
    expect([...net.first]).toEqual([0, 1, 1, 3]);
    expect([...net.to]).toEqual([1, 0, 1]);
    expect([...net.cost]).toEqual([7, 5, 3]);
    expect([...net.second]).toEqual([8, 6, 4]);
    expect(net.maxCost).toBe(7);
  });

  it('has 32 bits for a weight unless one needs more', () => {
    expect(weights(2, 2 ** 31 - 1)).toBeInstanceOf(Int32Array);
    expect(weights(2, 2 ** 31)).toBeInstanceOf(Float64Array);
    const wide = networkOf(2, [{ from: 0, to: 1, cost: 2 ** 31, second: BEND }]);
    expect(wide.cost[0]).toBe(2 ** 31);
    expect(wide.second).toBeInstanceOf(Int32Array);
  });
});
