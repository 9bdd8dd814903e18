import { nearestOnSegment } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { onLevel, type Plan, type Ref, refKey, type Zone } from './plan.ts';

/** Whether a point lies on a side of an outline, to the mm. */
function onOutline(outline: readonly Point[], at: Point): boolean {
  return outline.some((a, i) => {
    const near = nearestOnSegment(a, outline[(i + 1) % outline.length]!, at);
    return Math.hypot(near[0] - at[0], near[1] - at[1]) < 1;
  });
}

const along = (zone: Zone, a: Point, b: Point): boolean =>
  onOutline(zone.outline, a) && onOutline(zone.outline, b);

/** What moves when these are moved: a room takes the walls along its sides that no other room uses. */
export function withRoomWalls(plan: Plan, refs: readonly Ref[]): readonly Ref[] {
  const rooms = refs.flatMap(({ table, id }) =>
    table === 'zones' ? (plan.tables.zones.get(id) ?? []) : [],
  );
  if (rooms.length === 0) return refs;
  const all = new Map(refs.map((ref) => [refKey(ref), ref]));
  for (const room of rooms) {
    const others = onLevel(plan, 'zones', room.level).filter((zone) => !rooms.includes(zone));
    for (const { id, a, b } of onLevel(plan, 'walls', room.level)) {
      if (!along(room, a, b) || others.some((zone) => along(zone, a, b))) continue;
      const ref: Ref = { table: 'walls', id };
      all.set(refKey(ref), ref);
    }
  }
  return [...all.values()];
}
