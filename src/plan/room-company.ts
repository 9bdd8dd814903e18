import { groupBy } from '../base/group.ts';
import { nearestOnSegment } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { insidePolygon } from '../geometry/polygon.ts';
import { bareParts, SLIVER } from './bare-parts.ts';
import { onLevel, type Plan, type Ref, refKey, type Wall, type Zone } from './plan.ts';
import { placesOfRow } from './row-places.ts';

/** What goes with a room in which it stands as a whole; outlets, which may be built into a wall, are asked by themselves. */
const INSIDE = ['closets', 'devices', 'powers', 'keepouts', 'pathways', 'pins', 'notes'] as const;

/** Whether a point lies on a line from one place to another, to the mm. */
function onLine(a: Point, b: Point, at: Point): boolean {
  const near = nearestOnSegment(a, b, at);
  return Math.hypot(near[0] - at[0], near[1] - at[1]) < 1;
}

const sidesOf = ({ outline }: Zone): readonly (readonly [Point, Point])[] =>
  outline.map((a, i) => [a, outline[(i + 1) % outline.length]!]);

const onOutline = (zone: Zone, at: Point): boolean =>
  sidesOf(zone).some(([a, b]) => onLine(a, b, at));

/** Tells whether a wall stands from side to side of one of some rooms, or along sides of several, and nowhere else. */
function alongOf(rooms: readonly Zone[]): (wall: Wall) => boolean {
  const sides = rooms.flatMap(sidesOf).map(([a, b]) => ({ a, b, thickness: 0 }));
  return ({ a, b }) =>
    rooms.some((room) => onOutline(room, a) && onOutline(room, b)) ||
    (rooms.length > 1 && bareParts(sides, a, b).length === 0);
}

/** Whether a room has some of a wall as its own side, be it less than all of it. */
const uses = (zone: Zone, { a, b }: Wall): boolean =>
  sidesOf(zone).some(([p, q]) => {
    const shared = [p, q]
      .filter((at) => onLine(a, b, at))
      .concat([a, b].filter((at) => onLine(p, q, at)));
    return shared.some((s) => shared.some((t) => Math.hypot(s[0] - t[0], s[1] - t[1]) > SLIVER));
  });

/** Whether all of something stands in some rooms; what stands on their very edge does where no other room has a part in that. */
const standsIn = (
  rooms: readonly Zone[],
  others: readonly Zone[],
  places: readonly Point[],
): boolean =>
  places.length > 0 &&
  places.every((at) => {
    const edge = rooms.filter((room) => onOutline(room, at));
    if (rooms.some((room) => !edge.includes(room) && insidePolygon(room.outline, at[0], at[1])))
      return true;
    return edge.length > 0 && !others.some((other) => onOutline(other, at));
  });

/** The outlets that go with a room: those of devices that go, and those that no wall holds. */
function outletsIn(plan: Plan, level: string, devices: ReadonlySet<string>): string[] {
  const served = new Set<string>();
  for (const { outlet, device } of plan.tables.jacks.values())
    if (device !== null && devices.has(device)) served.add(outlet);
  return onLevel(plan, 'outlets', level)
    .filter(({ id, wall }) => wall === null || served.has(id))
    .map(({ id }) => id);
}

/**
 * What moves when these are moved: a room takes what stands in it along, with the walls along its sides that no other
 * room uses. In it stand closets, devices with their outlets, power outlets, keep-outs, pathways, pins and notes that do
 * so with all of themselves; what leads out of the room, as a pathway to the next one, stays, and so do risers, which
 * belong to two levels, and spare outlets in a wall that stays. Rooms that are moved together count as one. A wall that
 * another room uses for a part of it stays as a whole: the neighbour keeps its side, and `partWalls` gives the room that
 * leaves a wall of its own.
 */
export function withRoomCompany(plan: Plan, refs: readonly Ref[]): readonly Ref[] {
  const rooms = refs.flatMap(({ table, id }) =>
    table === 'zones' ? (plan.tables.zones.get(id) ?? []) : [],
  );
  if (rooms.length === 0) return refs;
  const all = new Map(refs.map((ref) => [refKey(ref), ref]));
  const add = (ref: Ref) => all.set(refKey(ref), ref);
  for (const [level, here] of groupBy(rooms, (room) => room.level)) {
    const others = onLevel(plan, 'zones', level).filter((zone) => !here.includes(zone));
    const isAlong = alongOf(here);
    for (const wall of onLevel(plan, 'walls', level))
      if (isAlong(wall) && !others.some((zone) => uses(zone, wall)))
        add({ table: 'walls', id: wall.id });
    const inside = (ref: Ref) => standsIn(here, others, placesOfRow(plan, ref));
    const devices = new Set<string>();
    for (const table of INSIDE)
      for (const { id } of onLevel(plan, table, level)) {
        if (!inside({ table, id })) continue;
        add({ table, id });
        if (table === 'devices') devices.add(id);
      }
    for (const id of outletsIn(plan, level, devices))
      if (inside({ table: 'outlets', id })) add({ table: 'outlets', id });
  }
  return [...all.values()];
}
