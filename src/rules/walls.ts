import { groupBy } from '../base/group.ts';
import type { Id } from '../base/ids.ts';
import type { Plan } from '../plan/plan.ts';
import type { Crossing, Run } from '../results/types.ts';
import type { Spot } from './spots.ts';
import { labelsOf } from './words.ts';

/** A wall that cables pass, the place of the first of them, and the labels of all. */
interface CrossedWall {
  readonly wall: Id;
  readonly at: Spot;
  readonly labels: string;
}

/** The walls that runs pass by crossings of some sort, one entry a wall. */
export function crossedWalls(
  plan: Plan,
  runs: readonly Run[],
  counts: (crossing: Crossing) => boolean,
): CrossedWall[] {
  const passes = runs.flatMap((run) =>
    run.crossings.filter(counts).map((crossing) => ({ crossing, label: run.label })),
  );
  return [...groupBy(passes, (pass) => pass.crossing.wall)].map(([wall, group]) => ({
    wall,
    at: spot(plan, group[0]!.crossing),
    labels: labelsOf(group),
  }));
}

function spot(plan: Plan, crossing: Crossing): Spot {
  const wall = plan.tables.walls.get(crossing.wall);
  const [x, y] = crossing.at;
  return wall ? { level: wall.level, point: [Math.round(x), Math.round(y)] } : null;
}
