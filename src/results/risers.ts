import type { Id } from '../base/ids.ts';
import type { Run } from './types.ts';

/**
 * The runs that go through each riser, by the riser's id, in the order of the runs; a run that goes through it twice
 * counts once. Risers without a cable have no entry.
 */
export function runsByRiser(runs: readonly Run[]): ReadonlyMap<Id, readonly Run[]> {
  const found = new Map<Id, Run[]>();
  for (const run of runs)
    for (const id of risersOf(run)) {
      const there = found.get(id);
      if (there) there.push(run);
      else found.set(id, [run]);
    }
  return found;
}

/** The risers of a run, each once, from the jack to the closet. */
export function risersOf(run: Run): Id[] {
  const found: Id[] = [];
  for (const { riser } of run.segments)
    if (riser != null && !found.includes(riser)) found.push(riser);
  return found;
}

/** How much of a run lies in risers, mm: a part of its vertical length. */
export const riserLength = (run: Run): number =>
  run.segments
    .filter((segment) => segment.kind === 'riser')
    .reduce((sum, segment) => sum + segment.length, 0);
