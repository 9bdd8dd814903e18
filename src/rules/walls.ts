import { groupBy } from '../base/group.ts';
import type { Id } from '../base/ids.ts';
import { compareLabels } from '../base/labels.ts';
import type { Plan } from '../plan/plan.ts';
import type { Crossing, Run } from '../results/types.ts';
import type { Spot } from './spots.ts';

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
    labels: listed([...new Set(group.map((pass) => pass.label))].sort(compareLabels)),
  }));
}

/** Labels that are listed by name; of more, the number says enough. */
const MOST_LISTED = 8;

function listed(labels: readonly string[]): string {
  const rest = labels.length - MOST_LISTED;
  const shown = labels.slice(0, MOST_LISTED).join(', ');
  return rest > 0 ? `${shown} and ${rest} more` : shown;
}

function spot(plan: Plan, crossing: Crossing): Spot {
  const wall = plan.tables.walls.get(crossing.wall);
  const [x, y] = crossing.at;
  return wall ? { level: wall.level, point: [Math.round(x), Math.round(y)] } : null;
}
