import { groupBy } from '../base/group.ts';
import type { Id } from '../base/ids.ts';
import { sortByLabel } from '../base/labels.ts';
import type { Run } from './types.ts';

/** A port of a closet's panels and the jack at the far end of its cable. */
export interface PortUse {
  readonly closet: Id;
  /** As it is recorded, else from 1 in the order of the labels. */
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
 *
 * @param built ports that are recorded as built, by their jacks: they stay, and the others take those that are left
 */
export function portMap(
  runs: readonly Run[],
  built: ReadonlyMap<Id, number> = new Map(),
): ReadonlyMap<Id, readonly PortUse[]> {
  const homed = inLabelOrder(runs).filter((run) => run.closet !== null);
  const byCloset = groupBy(homed, (run) => run.closet!);
  return new Map(
    [...byCloset].map(([closet, group]) => {
      const taken = new Set(group.flatMap((run) => built.get(run.jack) ?? []));
      let last = 0;
      const free = (): number => {
        do last += 1;
        while (taken.has(last));
        return last;
      };
      const uses = group.map(({ jack, label }) => ({
        closet,
        port: built.get(jack) ?? free(),
        jack,
        label,
      }));
      return [closet, uses];
    }),
  );
}

/** The port of each jack that has a closet; `built` as for the port map. */
export const portsOf = (
  runs: readonly Run[],
  built?: ReadonlyMap<Id, number>,
): ReadonlyMap<Id, number> =>
  new Map([...portMap(runs, built).values()].flat().map(({ jack, port }) => [jack, port]));
