import { groupBy } from '../base/group.ts';
import type { Id } from '../base/ids.ts';
import { sortByLabel } from '../base/labels.ts';
import type { Run } from '../results/types.ts';

/** A port of a closet's panels and the jack at the far end of its cable. */
export interface PortUse {
  readonly closet: Id;
  /** From 1, in the order of the labels. */
  readonly port: number;
  readonly jack: Id;
  readonly label: string;
}

/** Runs in the order in which people read their labels; equal labels by the jack's id, so that the order is fixed. */
export const inLabelOrder = (runs: readonly Run[]): Run[] =>
  sortByLabel(
    runs,
    (run) => run.label,
    (run) => run.jack,
  );

/**
 * The port map: for each closet its ports from 1 in the order of the labels. A run that has no way yet keeps its
 * port as long as it is known which closet it belongs to, so that the others' ports stay when it gets one.
 */
export function portMap(runs: readonly Run[]): ReadonlyMap<Id, readonly PortUse[]> {
  const homed = inLabelOrder(runs).filter((run) => run.closet !== null);
  const byCloset = groupBy(homed, (run) => run.closet!);
  return new Map(
    [...byCloset].map(([closet, group]) => [
      closet,
      group.map((run, i) => ({ closet, port: i + 1, jack: run.jack, label: run.label })),
    ]),
  );
}
