import { type Plan, settings } from '../plan/plan.ts';
import type { Averaging, BoxPlan, Price, Run, Totals, Way } from '../results/types.ts';
import { averaging } from './averaging.ts';
import { boxPlan } from './box-plan.ts';
import { priceOf } from './price.ts';
import { quantities } from './quantities.ts';

/** What has to be bought and what it costs. */
export interface Takeoff {
  readonly price: Price;
  readonly boxPlan: BoxPlan;
  readonly averaging: Averaging | null;
  readonly totals: Totals;
}

/** Takes material, labour and price off a plan and its runs; ways are the stretches that the runs share. */
export function takeoff(plan: Plan, runs: readonly Run[], ways: readonly Way[]): Takeoff {
  const boxes = boxPlan(runs, settings(plan).boxLength);
  const parts = quantities(plan, runs, ways, boxes);
  const price = priceOf(plan, runs, parts);
  return {
    price,
    boxPlan: boxes,
    averaging: averaging(plan, runs),
    totals: {
      cable: sum(runs.map((run) => run.cable)),
      order: sum(runs.map((run) => run.order)),
      jacks: plan.tables.jacks.size,
      devices: plan.tables.devices.size,
      boxes: parts.cableBox,
      priceCents: price.totalCents,
    },
  };
}

const sum = (lengths: readonly number[]): number => lengths.reduce((a, b) => a + b, 0);
