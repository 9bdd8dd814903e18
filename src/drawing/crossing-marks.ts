import type { Crossing } from '../results/types.ts';
import type { Drafting } from './plan-view.ts';
import { putSymbol } from './put-symbol.ts';
import { CROSSING_REACH, crossingSymbol } from './symbols.ts';

/** The ring of a hole without a firestop. */
const RING_REACH = 1.6;

/** Holes in walls, each once however many cables pass it. */
export function crossingMarks(drafting: Drafting): void {
  const { survey, wants } = drafting;
  if (!wants('crossings')) return;
  for (const crossing of levelCrossings(drafting, survey?.runs ?? [])) {
    const marks = crossingSymbol(crossing.work, crossing.firestop);
    if (marks.length === 0) continue;
    const reach = crossing.firestop ? CROSSING_REACH : RING_REACH;
    putSymbol(drafting, {
      group: 'crossings',
      at: [crossing.at[0], crossing.at[1]],
      size: { width: reach * 2, height: reach * 2 },
      marks,
      ink: 'soft',
      what: crossing.wall,
    });
  }
}

/** Holes of a level, one for each place in a wall, to 100 mm. */
export function levelCrossings(
  { plan, view }: Pick<Drafting, 'plan' | 'view'>,
  runs: readonly { readonly crossings: readonly Crossing[] }[],
): Crossing[] {
  const seen = new Map<string, Crossing>();
  for (const run of runs)
    for (const crossing of run.crossings) {
      if (plan.tables.walls.get(crossing.wall)?.level !== view.level) continue;
      const spot = crossing.at.map((v) => Math.round(v / 100)).join(',');
      const id = `${crossing.wall} ${spot}`;
      if (!seen.has(id)) seen.set(id, crossing);
    }
  return [...seen.values()];
}
