import { readFileSync } from 'node:fs';
import { kinds } from '../../src/kinds/index.ts';
import { buildGraph } from '../../src/routing/graph.ts';
import { siteOf } from '../../src/routing/plan-site.ts';
import { createSurveyor } from '../../src/survey/survey.ts';
import type { Grown } from './growth.ts';
import { officePlan } from './office.ts';

/** Surveys an office of so many jacks and walls, and writes down what that took. */
const jacks = Number(process.argv[2]);
const plan = officePlan({ walls: jacks, jacks });
/** The most memory that the process held, MB; Linux tells it. What Node tells counts the parent's before the start. */
function memory(): number {
  const found = /VmHWM:\s+(\d+) kB/.exec(readFileSync('/proc/self/status', 'utf8'));
  return found ? Number(found[1]) / 1000 : Number.NaN;
}
const timed = (): number => {
  const start = performance.now();
  const { runs } = createSurveyor(kinds)(plan);
  const took = performance.now() - start;
  if (runs.length !== jacks) throw new Error(`${runs.length} runs of ${jacks} jacks`);
  return took;
};
const before = memory();
const first = timed();
const after = memory();
const again = timed();
const { nodes } = buildGraph(siteOf(plan, [...plan.tables.levels.values()][0]!));
const found: Grown = { jacks, nodes, first, again, before, after };
process.stdout.write(JSON.stringify(found));
