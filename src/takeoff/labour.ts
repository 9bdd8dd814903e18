import { groupBy } from '../base/group.ts';
import { type Plan, type Prices, prices } from '../plan/plan.ts';
import type { Run, Segment } from '../results/types.ts';

type CeilingKind = NonNullable<Segment['ceiling']>;

/** Minutes of labour by the ceiling that decides them, and for the job as a whole. */
export interface LabourMinutes {
  readonly tile: number;
  readonly open: number;
  readonly hard: number;
  readonly job: number;
}

/**
 * How long the drops take. Each takes the minutes of the worst ceiling that it passes; at an outlet with several
 * cables the dearest counts whole and each further one as a share of it. Runs without a way take none yet.
 */
export function labourMinutes(plan: Plan, runs: readonly Run[]): LabourMinutes {
  const book = prices(plan);
  const minutes = { tile: 0, open: 0, hard: 0, job: runs.length > 0 ? book.minutesJob : 0 };
  const routed = runs.filter((run) => run.status !== 'unroutable');
  for (const group of groupBy(routed, (run) => run.outlet).values()) {
    const worst = group
      .map((run) => worstCeiling(plan, book, run))
      .reduce((a, b) => dearer(a, b, book));
    const further = ((group.length - 1) * book.furtherCablePercent) / 100;
    minutes[worst] += perDrop(book, worst) * (1 + further);
  }
  return minutes;
}

/** The ceiling of a run that costs most labour; the level's own where it passes none. */
function worstCeiling(plan: Plan, book: Prices, run: Run): CeilingKind {
  let worst: CeilingKind | null = null;
  for (const { ceiling } of run.segments) if (ceiling) worst = dearer(worst, ceiling, book);
  return worst ?? plan.tables.levels.get(run.level)?.ceiling.kind ?? 'open';
}

/** The ceiling that costs more labour; the first where both cost the same. */
const dearer = (a: CeilingKind | null, b: CeilingKind, book: Prices): CeilingKind =>
  a === null || perDrop(book, b) > perDrop(book, a) ? b : a;

function perDrop(book: Prices, kind: CeilingKind): number {
  if (kind === 'tile') return book.minutesTile;
  return kind === 'open' ? book.minutesOpen : book.minutesHard;
}
