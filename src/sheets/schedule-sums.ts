import { apportion } from '../base/apportion.ts';
import { riserLength } from '../results/risers.ts';
import type { Run } from '../results/types.ts';

/** The columns whose sum is the cable. */
const SUMMANDS = ['across', 'vertical', 'slack'] as const;
type Summands = Readonly<Record<(typeof SUMMANDS)[number], number>>;

/** Lengths rounded so that what stands on a line adds up to its cable, for whoever checks the sheet by hand. */
export function addingUp<T extends Summands>(row: T, step: number): T {
  const [across = 0, vertical = 0, slack = 0] = apportion(
    SUMMANDS.map((name) => row[name]),
    step,
  );
  return { ...row, across, vertical, slack };
}

/** All runs of the schedule together, mm. */
export type Sums = Summands & Readonly<Record<'cable' | 'order' | 'riser', number>>;

/** What all runs come to, length by length. */
export function sumsOf(runs: readonly Run[]): Sums {
  const all = (length: (run: Run) => number) => runs.reduce((sum, run) => sum + length(run), 0);
  return {
    across: all((run) => run.across),
    vertical: all((run) => run.vertical),
    slack: all((run) => run.slack),
    cable: all((run) => run.cable),
    order: all((run) => run.order),
    riser: all(riserLength),
  };
}
