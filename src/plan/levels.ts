import { compareIds, type Id } from '../base/ids.ts';
import { type Level, onLevel, type Plan, type Riser } from './plan.ts';

/** The levels from the lowest floor up; those at one height in the order of their ids. */
export const levelsUp = (plan: Plan): Level[] =>
  [...plan.tables.levels.values()].sort(
    (a, b) => a.elevation - b.elevation || compareIds(a.id, b.id),
  );

/** The level next above (1) or below (-1) in the building; null where there is none. */
export function levelBeside(plan: Plan, id: Id, by: 1 | -1): Level | null {
  const levels = levelsUp(plan);
  const at = levels.findIndex((level) => level.id === id);
  return at < 0 ? null : (levels[at + by] ?? null);
}

/** The risers that can be seen on a level: those that start from it, then those that come out on it. */
export const risersOn = (plan: Plan, level: Id): Riser[] => [
  ...onLevel(plan, 'risers', level),
  ...[...plan.tables.risers.values()].filter(
    (riser) => riser.upper === level && riser.level !== level,
  ),
];

/** The other level of a riser, seen from one of its two; null where that row is not there. */
export const riserEnd = (plan: Plan, riser: Riser, from: Id): Level | null =>
  plan.tables.levels.get(riser.level === from ? riser.upper : riser.level) ?? null;

/** Letters that service areas can have; I and O are left out, since they read as 1 and 0 (common practice, no source). */
export const AREA_LETTERS: readonly string[] = [...'ABCDEFGHJKLMNPQRSTUVWXYZ'];

/** The area of the room that was drawn last on a level; null where none is drawn. */
export const lastArea = (plan: Plan, level: Id): string | null =>
  onLevel(plan, 'zones', level).at(-1)?.area ?? null;

/** The letters that areas of the plan or labels of its jacks have, levels' own among them. */
export function lettersTaken(plan: Plan): Set<string> {
  const taken = new Set<string>();
  for (const level of plan.tables.levels.values()) taken.add(level.area);
  for (const zone of plan.tables.zones.values()) taken.add(zone.area);
  for (const jack of plan.tables.jacks.values()) taken.add(jack.label.charAt(0));
  return taken;
}
