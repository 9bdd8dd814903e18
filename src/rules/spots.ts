import type { Id } from '../base/ids.ts';
import type { Plan, Ref } from '../plan/plan.ts';
import type { Finding, Place, Run } from '../results/types.ts';

/** Where a finding is shown: a place on a level, or nowhere. */
export type Spot = Finding['at'];

/** The place of a row that stands at one point. */
export function spotOf(
  plan: Plan,
  table: 'outlets' | 'devices' | 'closets' | 'powers',
  id: Id,
): Spot {
  const row = plan.tables[table].get(id);
  return row ? { level: row.level, point: row.at } : null;
}

/** The place of a run's jack. */
export const jackSpot = (plan: Plan, run: Run): Spot => spotOf(plan, 'outlets', run.outlet);

/** A place in the building, on the highest level whose floor is not above it. */
export function placeSpot(plan: Plan, place: Place): Spot {
  const levels = [...plan.tables.levels.values()].sort((a, b) => a.elevation - b.elevation);
  const level = levels.findLast((l) => l.elevation <= place[2]) ?? levels[0];
  return level ? { level: level.id, point: [Math.round(place[0]), Math.round(place[1])] } : null;
}

/** The row that a run is about: its jack. */
export const jackRef = (run: Run): Ref => ({ table: 'jacks', id: run.jack });

/** What a remark about one run points at. */
export const atJack = (plan: Plan, run: Run): { subjects: Ref[]; at: Spot } => ({
  subjects: [jackRef(run)],
  at: jackSpot(plan, run),
});
