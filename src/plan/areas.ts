import type { Id } from '../base/ids.ts';
import type { Point } from '../geometry/point.ts';
import { insidePolygon } from '../geometry/polygon.ts';
import { type Level, onLevel, type Plan, type Zone } from './plan.ts';

/** The zone over a place: where zones overlap, the one drawn last; null where none is. */
export function zoneAt(plan: Plan, level: Id, at: Point): Zone | null {
  let found: Zone | null = null;
  for (const zone of onLevel(plan, 'zones', level)) {
    if (insidePolygon(zone.outline, at[0], at[1])) found = zone;
  }
  return found;
}

/** The letter of the service area at a place. */
export function areaAt(plan: Plan, level: Id, at: Point): string {
  return zoneAt(plan, level, at)?.area ?? plan.tables.levels.get(level)?.area ?? 'A';
}

/** The ceiling at a place: the zone's, or the level's own. */
export function ceilingAt(plan: Plan, level: Id, at: Point): Level['ceiling'] {
  return zoneAt(plan, level, at)?.ceiling ?? plan.tables.levels.get(level)!.ceiling;
}
