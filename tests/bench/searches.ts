import { arrivalAt } from '../../src/routing/arrival.ts';
import type { Field, Network, Seed } from '../../src/routing/field.ts';
import type { Graph } from '../../src/routing/graph.ts';
import { search } from '../../src/routing/search.ts';
import { gridInstance, type Instance } from './instances.ts';
import { floorSearch, graphologyPeer, heapSearch, ngraphPeer, settled } from './peers.ts';
import { bound, inMs, plain, type Row, type Section } from './table.ts';
import { type Effort, ms, once, ratio, timed } from './timing.ts';

interface Limits {
  readonly heap: number;
  readonly floor: number;
}

const MILLION: Effort = { time: 0, iterations: 2, rounds: 3 };
const SIZES: readonly (readonly [nodes: number, Limits, Effort])[] = [
  [10_000, { heap: 0.6, floor: 2.5 }, {}],
  [100_000, { heap: 0.9, floor: 2.5 }, { rounds: 3 }],
  [1_000_000, { heap: 1, floor: 2.5 }, MILLION],
];

/** Our search against a binary heap and against the floor, on grids of three sizes and on the office's own network. */
export async function searches(office: Graph): Promise<Section> {
  const rows: Row[] = [];
  const closet = office.site.closets[0]!;
  const { seeds } = arrivalAt(office, office.ground.frame.into(closet.at), closet.height);
  rows.push(...(await against('office of 400 walls', office.net, seeds, null, {})));
  for (const [about, limits, effort] of SIZES)
    for (const layered of [false, true]) {
      const { name, net, source } = gridInstance(about, layered);
      rows.push(...(await against(name, net, [seedAt(source)], limits, effort)));
    }
  return { name: 'searches', title: 'One search from one closet', rows };
}

async function against(
  name: string,
  net: Network,
  seeds: readonly Seed[],
  limits: Limits | null,
  effort: Effort,
): Promise<Row[]> {
  const order = settled(net, seeds);
  // Each has room of its own, which it uses again, as a router does when a closet moves.
  const ours = search(net, seeds);
  const heaps = heapSearch(net, seeds);
  const floors = floorSearch(net, seeds, order);
  const cost = costsOf(ours);
  mustAgree(name, cost, heaps.cost);
  mustAgree(name, cost, floors.cost);
  const time = await timed(
    {
      ours: () => search(net, seeds, ours),
      heap: () => heapSearch(net, seeds, heaps),
      floor: () => floorSearch(net, seeds, order, floors),
    },
    effort,
  );
  const arcs = net.to.length;
  const each = ((ms(time.ours) * 1e6) / arcs).toFixed(1);
  const [heap, floor] = [ratio(time.ours, time.heap), ratio(time.ours, time.floor)];
  const row = (what: string, value: number, limit: number | undefined, note: string): Row =>
    limit === undefined
      ? plain(what, `${value.toFixed(2)} times`, note)
      : bound(what, value, 'at most', limit, 'times', note);
  return [
    inMs(name, ms(time.ours), `${arcs.toLocaleString('en')} arcs, ${each} ns each`),
    row('– of the heap', heap, limits?.heap, `heap ${ms(time.heap).toFixed(2)} ms`),
    row('– of the floor', floor, limits?.floor, `floor ${ms(time.floor).toFixed(2)} ms`),
  ];
}

const seedAt = (state: number): Seed => ({ state, cost: 0, second: 0 });

const costsOf = (field: Field): Float64Array =>
  Float64Array.from({ length: field.states }, (_, state) => field.cost(state));

/** A ratio to a search with other answers would say nothing. */
function mustAgree(name: string, ours: Float64Array, theirs: Float64Array): void {
  const at = ours.findIndex((cost, state) => cost !== theirs[state]);
  if (at >= 0) throw new Error(`${name}: state ${at} costs ${ours[at]}, not ${theirs[at]}`);
}

const TARGETS = 200;
const SAMPLE = 20;

/** Ours against path finders that are made for any graph. */
export async function finders(): Promise<Section> {
  const rows: Row[] = [];
  for (const [about, effort] of [
    [10_000, { iterations: 2, rounds: 3, time: 0 }],
    [100_000, { iterations: 1, rounds: 1, time: 0 }],
  ] as const) {
    const grid = gridInstance(about, false);
    const field = search(grid.net, [seedAt(grid.source)]);
    rows.push(
      await singleSource(grid, field, effort),
      await manyTargets(grid, field, about < 50_000 ? TARGETS : SAMPLE),
    );
  }
  return { name: 'finders', title: 'Path finders for any graph', rows };
}

async function singleSource(grid: Instance, field: Field, effort: Effort): Promise<Row> {
  const cost = costsOf(field);
  const peer = graphologyPeer(grid);
  const answer = peer();
  for (const state of targetsOf(grid, cost, SAMPLE)) mustEqual(answer(state), cost[state]!);
  const theirs = await timed({ peer }, effort);
  const ours = await timed({ ours: () => search(grid.net, [seedAt(grid.source)]) });
  const note = `${ms(theirs.peer).toFixed(0)} ms to ${ms(ours.ours).toFixed(2)} ms`;
  const what = `graphology, to all: ${grid.name}`;
  return bound(what, ms(theirs.peer) / ms(ours.ours), 'at least', 40, 'times', note);
}

/** A finder answers one target after another; what it takes for a part of them is scaled up to all. */
async function manyTargets(grid: Instance, field: Field, sample: number): Promise<Row> {
  const cost = costsOf(field);
  const find = ngraphPeer(grid);
  const targets = targetsOf(grid, cost, sample);
  const found: number[] = [];
  const theirs = await once(() => found.push(...targets.map(find)));
  for (const [i, state] of targets.entries()) mustEqual(found[i]!, cost[state]!);
  const ours = await timed({ ours: () => search(grid.net, [seedAt(grid.source)]) });
  const all = (ms(theirs) * TARGETS) / sample;
  const scaled = sample < TARGETS ? `, by ${sample} of them` : '';
  const note = `${all.toFixed(0)} ms to ${ms(ours.ours).toFixed(2)} ms${scaled}`;
  const what = `ngraph.path, to ${TARGETS} targets: ${grid.name}`;
  return bound(what, all / ms(ours.ours), 'at least', 150, 'times', note);
}

/** States spread over all that can be reached. */
function targetsOf({ nodes, source }: Instance, cost: Float64Array, count: number): number[] {
  const states: number[] = [];
  for (let i = 0; states.length < count && i < 2 * nodes; i++) {
    const state = Math.floor(((i * 0.618_033_988_7) % 1) * nodes);
    if (state !== source && cost[state]! < Infinity) states.push(state);
  }
  return states;
}

function mustEqual(theirs: number, ours: number): void {
  if (theirs !== ours) throw new Error(`a finder found ${theirs}, not ${ours}`);
}
