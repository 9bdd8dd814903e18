import { groupBy } from '../base/group.ts';
import type { Crossing, Run } from '../results/types.ts';

/** A hole in a wall and the cables that pass it. */
export interface Hole {
  readonly crossing: Crossing;
  readonly cables: number;
}

/** Crossings of one wall that lie this near to one another share a hole, mm; common practice, no source. */
const SHARED_WITHIN = 150;

/** Cables through one hole before a second is made; common practice, no source. */
const CABLES_PER_HOLE = 20;

const sameHole = (crossing: Crossing): string =>
  `${crossing.wall} ${crossing.work} ${crossing.firestop} ${crossing.pathway ?? ''}`;

/** The distinct holes that these runs need, with the work of each; crossings that need no work are left out. */
export function holes(runs: readonly Run[]): Hole[] {
  const worked = runs
    .flatMap((run) => run.crossings)
    .filter((crossing) => crossing.work !== 'none' || crossing.firestop);
  return [...groupBy(worked, sameHole).values()].flatMap(gather);
}

/** Puts the crossings of one wall into holes, from one end of the wall to the other. */
function gather(crossings: readonly Crossing[]): Hole[] {
  const inOrder = [...crossings].sort(
    (a, b) => a.at[0] - b.at[0] || a.at[1] - b.at[1] || a.at[2] - b.at[2],
  );
  const found: { crossing: Crossing; cables: number }[] = [];
  for (const crossing of inOrder) {
    const hole = found.find(
      (h) => h.cables < CABLES_PER_HOLE && gap(h.crossing, crossing) <= SHARED_WITHIN,
    );
    if (hole) hole.cables += 1;
    else found.push({ crossing, cables: 1 });
  }
  return found;
}

const gap = (a: Crossing, b: Crossing): number =>
  Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1], a.at[2] - b.at[2]);
