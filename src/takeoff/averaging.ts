import { groupBy } from '../base/group.ts';
import { type Allowances, allowancesOf } from '../plan/allowances.ts';
import { type Plan, settings } from '../plan/plan.ts';
import type { Averaging, Run } from '../results/types.ts';

/** What the averaging method asks of one floor; lengths in mm. */
export interface AveragingInput {
  readonly shortest: number;
  readonly longest: number;
  readonly count: number;
  /** Spare on the average path, in percent. */
  readonly sparePercent: number;
  /** What each run gets on top for its two ends. */
  readonly perRun: number;
}

/**
 * The averaging method of textbooks: the mean of the shortest and the longest run with a spare, plus what each run
 * takes at its ends, times the number of runs. With 10 % spare and 6 m this is C = [0.55 (F + N) + 6] M.
 *
 * @returns mm for one run and for all; not rounded
 */
export function averageMethod(input: AveragingInput): { average: number; total: number } {
  const middle = ((input.shortest + input.longest) * (100 + input.sparePercent)) / 200;
  const average = middle + input.perRun;
  return { average, total: average * input.count };
}

/**
 * What the averaging method says of these runs, floor by floor, to stand beside the exact sum. The ends of a run take
 * the slack and the loops that its jack is given, the spare is the waste that it is given: on each floor the mean of
 * its runs.
 *
 * @returns whole mm, or null where no run has a way
 */
export function averaging(plan: Plan, runs: readonly Run[]): Averaging | null {
  const routed = runs.filter((run) => run.status !== 'unroutable');
  if (routed.length === 0) return null;
  const paths = routed.map((run) => run.path);
  const floors = [...groupBy(routed, (run) => run.level).values()];
  const total = floors.reduce((sum, floor) => sum + floorTotal(plan, floor), 0);
  return {
    shortest: least(paths),
    longest: most(paths),
    average: Math.round(total / routed.length),
    total: Math.round(total),
  };
}

const least = (lengths: readonly number[]): number => lengths.reduce((a, b) => Math.min(a, b));
const most = (lengths: readonly number[]): number => lengths.reduce((a, b) => Math.max(a, b));

function floorTotal(plan: Plan, runs: readonly Run[]): number {
  const paths = runs.map((run) => run.path);
  const given = runs.map((run) => allowancesFor(plan, run));
  const mean = (of: (allowances: Allowances) => number): number =>
    given.reduce((sum, allowances) => sum + of(allowances), 0) / runs.length;
  return averageMethod({
    shortest: least(paths),
    longest: most(paths),
    count: runs.length,
    sparePercent: mean((a) => a.wastePercent),
    perRun: mean((a) => a.outletSlack + a.fieldLoop + a.closetLoop),
  }).total;
}

const allowancesFor = (plan: Plan, run: Run): Allowances => {
  const jack = plan.tables.jacks.get(run.jack);
  return jack ? allowancesOf(plan, jack) : settings(plan);
};
