import { readFileSync } from 'node:fs';
import createGraph from 'ngraph.graph';
import { nba } from 'ngraph.path';
import { Bench } from 'tinybench';
import { kinds } from '../../src/kinds/index.ts';
import { readPlan } from '../../src/plan/codec.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { attach } from '../../src/routing/attach.ts';
import { courseTo, towardOn } from '../../src/routing/course.ts';
import { buildGraph, type Graph } from '../../src/routing/graph.ts';
import { createRouter } from '../../src/routing/index.ts';
import { siteOf } from '../../src/routing/plan-site.ts';
import { search } from '../../src/routing/search.ts';
import { seedsOf } from '../../src/routing/seeds.ts';
import { stackOf } from '../../src/routing/stack.ts';
import { createSurveyor } from '../../src/survey/survey.ts';
import { officePlan } from './office.ts';

/**
 * How long a survey takes: of the sample restaurant, and of a generated office with 400 walls, 500 jacks and one closet,
 * with the steps of its routing. Absolute times depend on the machine; the ratio to a general path library on the same
 * graph, in the same process, does not.
 */
const plan = officePlan({ walls: 400, jacks: 500 });
const level = plan.tables.levels.get('L1')!;
const site = siteOf(plan, level);
const graph = buildGraph(site);
const closet = graph.ground.closets[0]!;
const seeds = seedsOf(graph, closet.at, closet.height);
const field = search(graph.net, seeds);
const stack = stackOf([graph], []);
const toward = towardOn(stack, courseTo(stack, 0, closet.at, closet.height), 0);
const outlets = [...plan.tables.outlets.values()];
const places = outlets.map((outlet) => ({
  at: outlet.at,
  height: outlet.height,
  wall: site.walls.findIndex((wall) => wall.id === outlet.wall),
  floor: false,
  closet: closet.at,
}));

const rows: Record<string, string | number>[] = [];
async function time(name: string, run: () => unknown, note = ''): Promise<number> {
  const bench = new Bench({ time: 500, warmupTime: 200 });
  bench.add(name, () => {
    run();
  });
  await bench.run();
  const result = bench.tasks[0]!.result;
  const ms = result.state === 'completed' ? result.latency.p50 : Number.NaN;
  rows.push({ what: name, median: Number(ms.toFixed(3)), unit: 'ms', note });
  return ms;
}

/** The same network for the peer: one node a state, one link an arc. */
function peerOf({ net }: Graph) {
  const peer = createGraph<null, number>();
  for (let s = 0; s < net.states; s++) peer.addNode(s, null);
  for (let s = 0; s < net.states; s++)
    for (let e = net.first[s]!; e < net.first[s + 1]!; e++)
      peer.addLink(s, net.to[e]!, net.cost[e]!);
  return nba(peer, { oriented: true, distance: (_a, _b, link) => link.data });
}

/** States of the graph that the outlets join, to be found by the peer one after another. */
const targets = places.slice(0, 200).map((place) => attach(graph, toward, place)!.state);

await time(
  'build the graph',
  () => buildGraph(site),
  `${graph.nodes} nodes, ${graph.net.to.length} arcs`,
);
const all = await time('search from the closet to all', () => search(graph.net, seeds));
await time('attach 500 outlets', () => {
  for (const place of places) attach(graph, toward, place);
});
await time('office: all 500 runs from nothing', () => createRouter().homeRuns(plan));
await surveys('office', plan);
await surveys('sample restaurant', samplePlan());
const router = createRouter();
router.homeRuns(plan);
let turn = 0;
const dragged = [0, 1, 2, 3].map((i) => movedOutlet(plan, i));
await time('office: all runs again after one outlet moved', () =>
  router.homeRuns(dragged[turn++ % 4]!),
);

/** The plan with its first outlet a little farther on. */
function movedOutlet(from: Plan, step: number): Plan {
  const outlet = [...from.tables.outlets.values()][0]!;
  const moved = { ...outlet, at: [outlet.at[0] + 100 * step, outlet.at[1]] as const };
  const table = new Map(from.tables.outlets).set(outlet.id, moved);
  return { tables: { ...from.tables, outlets: table } };
}

function samplePlan(): Plan {
  const file = new URL('../../public/samples/restaurant.json', import.meta.url);
  const read = readPlan(readFileSync(file, 'utf8'), new Set(kinds.keys()));
  if (!read.ok) throw new Error(read.issues[0]?.message);
  return read.value.plan;
}

/** A whole survey, with quantities, price and findings: from nothing, and after one outlet moved. */
async function surveys(name: string, of: Plan): Promise<void> {
  await time(`${name}: survey from nothing`, () => createSurveyor(kinds)(of));
  const survey = createSurveyor(kinds);
  survey(of);
  const plans = [0, 1, 2, 3].map((i) => movedOutlet(of, i));
  let step = 0;
  await time(`${name}: survey after one outlet moved`, () => survey(plans[step++ % 4]!));
}

const finder = peerOf(graph);
const source = seeds[0]!.state;
const start = performance.now();
let wrong = 0;
for (const target of targets) {
  const path = finder.find(source, target);
  let cost = seeds[0]!.cost;
  for (let i = path.length - 1; i > 0; i--)
    cost += arcCost(path[i]!.id as number, path[i - 1]!.id as number);
  // The library may start at another state of the closet's place; a bend is the most that this can matter.
  if (Math.abs(cost - field.cost[target]!) > 2 * graph.bend) wrong++;
}
const peer = performance.now() - start;
rows.push({
  what: 'ngraph.path (NBA*): 200 targets',
  median: Number(peer.toFixed(1)),
  unit: 'ms',
  note: `${wrong} differ`,
});
rows.push({
  what: 'ratio to our search to all',
  median: Number((peer / all).toFixed(0)),
  unit: 'times',
  note: 'at least 150',
});
console.table(rows);

function arcCost(a: number, b: number): number {
  let least = Infinity;
  for (let e = graph.net.first[a]!; e < graph.net.first[a + 1]!; e++)
    if (graph.net.to[e] === b) least = Math.min(least, graph.net.cost[e]!);
  const direct = least;
  if (direct < Infinity) return direct;
  for (let e = graph.net.first[b]!; e < graph.net.first[b + 1]!; e++)
    if (graph.net.to[e] === a) least = Math.min(least, graph.net.cost[e]!);
  return least;
}
