import type { Id } from '../../base/ids.ts';
import { type Message, msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { carryRecord } from '../carry-record.ts';
import { type Changes, Draft } from '../change.ts';
import { followCeilings } from '../follow-ceilings.ts';
import { carryJoints, collapsed } from '../joints.ts';
import { isLocked, LOCKED } from '../locks.ts';
import {
  alongOf,
  fittedAlong,
  OVERLAPS,
  overlapsOpening,
  placeAlong,
  wallAt,
} from '../openings.ts';
import { followDevices, followWalls } from '../outlet-place.ts';
import {
  type AnyEntity,
  type Device,
  type Opening,
  onLevel,
  type Plan,
  type Ref,
  refKey,
  type Wall,
  type Zone,
} from '../plan.ts';
import { withRoomCompany } from '../room-company.ts';
import { BEYOND, hasPlaces, shiftRow, tooFar } from '../row-places.ts';
import type { TableName } from '../schema.ts';
import type { Command } from './command.ts';
import { dropOutlet, FACE_REACH, hang, TOUCH } from './hang.ts';
import { partWalls } from './part-walls.ts';
import { nameOf, stayedNotice } from './step-words.ts';

/** A selection with all that goes along: devices that share a jack, outlets on a moved wall. */
function withCompany(plan: Plan, refs: readonly Ref[]): Map<string, Ref> {
  const all = new Map(refs.map((ref) => [`${ref.table}/${ref.id}`, ref]));
  const add = (table: TableName, id: Id) => all.set(`${table}/${id}`, { table, id });
  const picked = (table: TableName) =>
    new Set(refs.filter((ref) => ref.table === table).map((ref) => ref.id));
  // Asked in every frame of a drag: no text is made for a row that stays.
  const hosts = picked('devices');
  if (hosts.size > 0)
    for (const { id, host } of plan.tables.devices.values())
      if (host !== null && hosts.has(host)) {
        hosts.add(id);
        add('devices', id);
      }
  const walls = picked('walls');
  if (walls.size > 0)
    for (const { id, wall } of plan.tables.outlets.values())
      if (wall !== null && walls.has(wall)) add('outlets', id);
  return all;
}

/** Where an opening goes that is moved: into the wall at its new place, or along its own. */
function moveOpening(draft: Draft, opening: Opening, by: Point, free: boolean): Message | null {
  const own = draft.plan.tables.walls.get(opening.wall)!;
  const [x, y] = placeAlong(own, opening.along);
  const at: Point = [x + by[0], y + by[1]];
  const near = free ? wallAt(onLevel(draft.plan, 'walls', own.level), at, FACE_REACH) : null;
  const wall = near ?? own;
  const along = fittedAlong(wall, alongOf(wall, at), opening.width);
  if (along === null) return msg('That wall is too short for it.');
  const next = { ...opening, wall: wall.id, along };
  if (overlapsOpening(draft.plan, next)) return OVERLAPS;
  draft.put('openings', next);
  return null;
}

/**
 * Moves rows. What is joined to a moved wall stays joined to it: walls, corners of rooms, openings, outlets; a room that
 * is moved takes along what stands in it and the walls that are its alone, and leaves its neighbours as they are. One
 * outlet by itself is dropped on the nearest wall face and stays where it was put, one opening on the wall there; the
 * outlets of moved devices go along unless somebody moved them by hand. What is locked stays.
 */
export const move: Command<{ refs: readonly Ref[]; by: Point }> = (
  plan,
  { refs, by },
  { kinds },
) => {
  const whole: Point = [Math.round(by[0]), Math.round(by[1])];
  const free = (ref: Ref): boolean => !isLocked(plan, ref);
  const picked = refs.filter(free);
  const company = withRoomCompany(plan, picked);
  const loose = company.filter(free);
  if (refs.length > 0 && loose.length === 0) return { ok: false, why: LOCKED };
  const all = withCompany(plan, loose);
  const draft = new Draft(plan);
  const devices: Device[] = [];
  const walls = new Map<Id, Wall>();
  const rooms: Zone[] = [];
  for (const { table, id } of all.values()) {
    const row = plan.tables[table].get(id) as AnyEntity | undefined;
    if (!row || !hasPlaces(table)) continue;
    const places = shiftRow(row, table, whole);
    if (Object.values(places).some(tooFar)) return { ok: false, why: BEYOND };
    if (table === 'outlets' && all.size === 1) {
      dropOutlet(draft, id, places.at as Point);
      continue;
    }
    draft.patch(table, id, places as never);
    if (table === 'devices') devices.push(draft.plan.tables.devices.get(id)!);
    if (table === 'walls') walls.set(id, row as Wall);
    if (table === 'zones') rooms.push(row as Zone);
  }
  const fault =
    moveOpenings(draft, all, whole) ??
    carryWalls(draft, walls, all, rooms.length > 0) ??
    collapsed(draft.plan, draft);
  if (fault) return { ok: false, why: fault };
  partWalls(draft, rooms, whole, walls);
  for (const { table, id } of all.values()) {
    if (table !== 'outlets' || all.size === 1) continue;
    const outlet = draft.plan.tables.outlets.get(id);
    // Torn off the wall that it hung on, it hangs on whatever wall it came to.
    if (outlet && outlet.wall !== null && !all.has(`walls/${outlet.wall}`))
      hang(draft, outlet, onLevel(draft.plan, 'walls', outlet.level), TOUCH);
  }
  // Outlets that were moved as part of the group keep their place beside their device.
  followDevices(
    draft,
    devices.filter((d) => !movesWithOutlet(plan, d, all)),
    kinds,
  );
  const changed = draft.changes();
  if (changed.length === 0) return { ok: false, why: msg('There is nothing to move.') };
  followWalls(draft, wallsIn(changed), kinds);
  for (const level of levelsOf(plan, all))
    followCeilings(draft, plan, level, kinds, rooms.length > 0 ? undefined : all);
  carryRecord(draft, plan, ([x, y]) => [x + whole[0], y + whole[1]]);
  const stayed = refs.length - picked.length + company.length - loose.length;
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Move {what}', { what: wordsOf(plan, loose) }),
    ...stayedNotice(stayed),
  };
};

/** What is moved, in words: of a room with its company the room alone is named. */
function wordsOf(plan: Plan, refs: readonly Ref[]): string {
  const rooms = refs.filter(({ table }) => table === 'zones');
  const furnished = refs.some(({ table }) => table !== 'zones' && table !== 'walls');
  if (rooms.length !== 1 || !furnished) return nameOf(plan, refs);
  const own = new Set(withRoomCompany(plan, rooms).map(refKey));
  return refs.every((ref) => own.has(refKey(ref)))
    ? 'room with what stands in it'
    : nameOf(plan, refs);
}

/** The levels of things under which a ceiling may come to be another one. */
function levelsOf(plan: Plan, all: ReadonlyMap<string, Ref>): Set<Id> {
  const levels = new Set<Id>();
  for (const { table, id } of all.values())
    if (table === 'zones' || table === 'devices' || table === 'outlets') {
      const row = plan.tables[table].get(id);
      if (row) levels.add(row.level);
    }
  return levels;
}

function moveOpenings(draft: Draft, all: ReadonlyMap<string, Ref>, by: Point): Message | null {
  for (const { table, id } of all.values()) {
    const opening = table === 'openings' ? draft.plan.tables.openings.get(id) : undefined;
    if (!opening || all.has(`walls/${opening.wall}`)) continue;
    const fault = moveOpening(draft, opening, by, all.size === 1);
    if (fault) return fault;
  }
  return null;
}

/** Keeps what is joined to moved walls; outlets that go along with their wall have moved already. */
function carryWalls(
  draft: Draft,
  walls: ReadonlyMap<Id, Wall>,
  all: ReadonlyMap<string, Ref>,
  rooms: boolean,
): null {
  const first = [...walls.values()][0];
  if (!first || rooms) return null;
  const outlets = [...draft.plan.tables.outlets.values()].filter((o) => all.has(`outlets/${o.id}`));
  carryJoints(draft, walls, first.level);
  for (const outlet of outlets) draft.put('outlets', outlet);
  return null;
}

/** The walls among changes, before and after. */
const wallsIn = (changes: Changes): Wall[] =>
  changes.flatMap(({ table, before, after }) =>
    table === 'walls' ? ([before, after].filter(Boolean) as Wall[]) : [],
  );

function movesWithOutlet(plan: Plan, device: Device, all: ReadonlyMap<string, Ref>): boolean {
  for (const jack of plan.tables.jacks.values()) {
    if (jack.device === device.id && all.has(`outlets/${jack.outlet}`)) return true;
  }
  return false;
}
