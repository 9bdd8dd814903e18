import { levelsUp } from '../plan/levels.ts';
import { passName } from '../plan/names.ts';
import { type Level, onLevel, type Pin, type Plan, type Riser } from '../plan/plan.ts';
import { inLabelOrder } from '../results/ports.ts';
import { runsByRiser } from '../results/risers.ts';
import type { Run } from '../results/types.ts';

/** A level with the runs that start on it. */
export interface LevelUse {
  readonly level: Level;
  readonly runs: readonly Run[];
  readonly closets: number;
}

/** The levels of a plan from the lowest up. */
export const levelUses = (plan: Plan, runs: readonly Run[]): LevelUse[] =>
  levelsUp(plan).map((level) => ({
    level,
    runs: runs.filter((run) => run.level === level.id),
    closets: onLevel(plan, 'closets', level.id).length,
  }));

/** A riser with the runs that go through it, in the order of their labels. */
export interface RiserUse {
  readonly riser: Riser;
  readonly name: string;
  readonly runs: readonly Run[];
}

/** The risers of a plan, used or not. */
export function riserUses(plan: Plan, runs: readonly Run[]): RiserUse[] {
  const through = runsByRiser(runs);
  return [...plan.tables.risers.values()].map((riser) => ({
    riser,
    name: passName(plan, 'risers', riser),
    runs: inLabelOrder(through.get(riser.id) ?? []),
  }));
}

/** A pin with the runs that pass it, in the order of their labels. */
export interface PinUse {
  readonly pin: Pin;
  readonly name: string;
  readonly runs: readonly Run[];
  /** How much longer it makes them together, mm; below 0 where the free ways are cheaper but longer. */
  readonly longer: number;
}

/** The pins of a plan, used or not. */
export const pinUses = (plan: Plan, runs: readonly Run[]): PinUse[] =>
  [...plan.tables.pins.values()].map((pin) => {
    const passing = inLabelOrder(runs.filter((run) => run.pinned?.pin === pin.id));
    return {
      pin,
      name: passName(plan, 'pins', pin),
      runs: passing,
      longer: passing.reduce((sum, run) => sum + run.pinned!.path, 0),
    };
  });
