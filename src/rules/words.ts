import { sortByLabel } from '../base/labels.ts';
import type { Run } from '../results/types.ts';

/** Labels that are listed by name; of more, the number says enough. */
const MOST_LISTED = 8;

/** The labels of runs in their natural order, each once, as they stand in a sentence. */
export function labelsOf(runs: readonly Pick<Run, 'label'>[]): string {
  const labels = sortByLabel([...new Set(runs.map((run) => run.label))], (label) => label);
  const rest = labels.length - MOST_LISTED;
  const shown = labels.slice(0, MOST_LISTED).join(', ');
  return rest > 0 ? `${shown} and ${rest} more` : shown;
}

/** A name as it begins a sentence. */
export const atStart = (name: string): string => name.charAt(0).toUpperCase() + name.slice(1);
