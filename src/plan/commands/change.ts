import type { Id } from '../../base/ids.ts';
import { type Message, msg } from '../../base/message.ts';
import { FAR } from '../../base/units.ts';
import type { Point } from '../../geometry/point.ts';
import { type Changes, Draft } from '../change.ts';
import { checkRow, removeRows } from '../integrity.ts';
import { carryJoints, carryMounted, collapsed } from '../joints.ts';
import { isLocked, LOCKED } from '../locks.ts';
import {
  alongOf,
  fittedAlong,
  gapsAt,
  OVERLAPS,
  overlapsOpening,
  placeAlong,
  wallAt,
} from '../openings.ts';
import { followDevices, followWalls, nearestFace } from '../outlet-place.ts';
import {
  type AnyEntity,
  type Device,
  makeRow,
  type Opening,
  type Outlet,
  onLevel,
  type Plan,
  type Ref,
  type Wall,
} from '../plan.ts';
import type { TableName } from '../schema.ts';
import type { Command } from './command.ts';

/** How near an outlet that is moved by hand snaps to a wall. */
const FACE_REACH = 400;
/** How near it must lie to hang there still, after it was moved along with others. */
const TOUCH = 10;

const outletsOn = (plan: Plan, wall: Id): Outlet[] =>
  [...plan.tables.outlets.values()].filter((outlet) => outlet.wall === wall);

/** Hangs an outlet on the nearest face of these walls; on none of them where none is within reach. */
function hang(draft: Draft, outlet: Outlet, walls: readonly Wall[], reach: number): void {
  const gaps = gapsAt(draft.plan, outlet.height);
  const face = nearestFace(walls, outlet.at, reach, gaps);
  draft.patch('outlets', outlet.id, {
    at: face?.at ?? outlet.at,
    wall: face?.wall.id ?? null,
  });
}

/** Moved by hand, an outlet hangs on the wall face that it was dropped at, or keeps the place. */
function dropOutlet(draft: Draft, id: Id, to: Point): void {
  const outlet = draft.plan.tables.outlets.get(id)!;
  const hangs = outlet.mount === 'wall' || outlet.mount === 'pole';
  const face = hangs
    ? nearestFace(
        onLevel(draft.plan, 'walls', outlet.level),
        to,
        FACE_REACH,
        gapsAt(draft.plan, outlet.height),
      )
    : null;
  draft.patch('outlets', id, {
    at: face?.at ?? to,
    wall: face?.wall.id ?? null,
    ...(face ? { mount: 'wall' as const } : {}),
    placed: 'hand',
  });
}

/** Fields whose names alone would not be understood. */
const FIELD_WORDS: Readonly<Record<string, string>> = { rated: 'fire rating', at: 'place' };

/** The name of a field as people read it: `closetLoop` is the closet loop. */
const inWords = (field: string): string =>
  FIELD_WORDS[field] ?? field.replace(/[A-Z0-9]+/g, (more) => ` ${more.toLowerCase()}`);

/** Said when a jack that hung on a wall becomes a drop from the ceiling, since the cord reaches no wall any more. */
function dropNotice(before: Plan, after: Plan, table: TableName, id: Id): { notice?: Message } {
  if (table !== 'devices') return {};
  for (const jack of after.tables.jacks.values()) {
    if (jack.device !== id) continue;
    const was = before.tables.outlets.get(jack.outlet);
    const is = after.tables.outlets.get(jack.outlet);
    if (was?.mount !== 'wall' || was.wall === null || is?.mount !== 'pole') continue;
    return {
      notice: msg(
        'Jack {label} hangs from the ceiling now: no wall is within the reach of this cord. A longer cord brings it back.',
        { label: jack.label },
      ),
    };
  }
  return {};
}

/** Sets fields of one row; what follows from them (an outlet its device, outlets their wall) follows. */
export const edit: Command<{
  table: TableName;
  id: Id;
  fields: Readonly<Record<string, unknown>>;
}> = (plan, { table, id, fields }, { kinds }) => {
  const row = plan.tables[table].get(id) as AnyEntity | undefined;
  if (!row) return { ok: false, why: msg('What you want to change is no longer there.') };
  const { id: _, ...current } = row;
  let next: AnyEntity;
  try {
    next = makeRow(table, id, { ...current, ...fields } as never) as AnyEntity;
  } catch {
    const names = Object.keys(fields).map(inWords).join(', ');
    return {
      ok: false,
      why: msg('That value does not fit ({fields}). Nothing was changed.', { fields: names }),
    };
  }
  const draft = new Draft(plan);
  draft.put(table, next as never);
  const fault = checkRow(draft.plan, table, next, new Set(kinds.keys()))[0];
  if (fault) return { ok: false, why: msg('{what} Nothing was changed.', { what: fault.message }) };
  if (table === 'devices') followDevices(draft, [next as Device], kinds);
  if (table === 'walls') {
    carryMounted(draft, { before: row as Wall, after: next as Wall });
    const tight = collapsed(draft.plan, draft);
    if (tight) return { ok: false, why: tight };
    for (const outlet of outletsOn(draft.plan, id)) hang(draft, outlet, [next as Wall], FACE_REACH);
    followWalls(draft, [row as Wall, next as Wall], kinds);
  }
  if (table === 'outlets' && !('placed' in fields)) draft.patch('outlets', id, { placed: 'hand' });
  return {
    ok: true,
    changes: draft.changes(),
    ...dropNotice(plan, draft.plan, table, id),
    label: msg('Change {fields}', { fields: Object.keys(fields).map(inWords).join(', ') }),
  };
};

const shifted = (p: Point, by: Point): Point => [p[0] + by[0], p[1] + by[1]];

/** The fields that hold places, by table. */
const PLACES: Partial<Record<TableName, readonly string[]>> = {
  backgrounds: ['origin'],
  zones: ['outline'],
  walls: ['a', 'b'],
  keepouts: ['outline'],
  pathways: ['points'],
  risers: ['at'],
  pins: ['points'],
  closets: ['at'],
  devices: ['at'],
  outlets: ['at'],
  powers: ['at'],
  notes: ['at', 'to'],
  dimensions: ['a', 'b'],
};

/** The fields of a row that hold places, each place laid anew; in whole mm. */
export function laidAnew(
  row: AnyEntity,
  table: TableName,
  to: (p: Point) => Point,
): Record<string, Point | readonly Point[]> {
  const values = row as unknown as Record<string, unknown>;
  const lay = (p: Point): Point => {
    const [x, y] = to(p);
    return [Math.round(x) + 0, Math.round(y) + 0];
  };
  const fields = PLACES[table] ?? [];
  return Object.fromEntries(
    fields.flatMap((field) => {
      const value = values[field] as Point | readonly Point[] | null;
      if (value === null) return [];
      const laid =
        typeof value[0] === 'number' ? lay(value as Point) : (value as readonly Point[]).map(lay);
      return [[field, laid]];
    }),
  );
}

/** The fields of a row that hold places, shifted. */
export const shiftRow = (row: AnyEntity, table: TableName, by: Point) =>
  laidAnew(row, table, (p) => shifted(p, by));

/** The same for a row of a plan by its name; none where it is not there. */
export function withPlaces(plan: Plan, { table, id }: Ref, to: (p: Point) => Point) {
  const row = plan.tables[table].get(id) as AnyEntity | undefined;
  return row ? laidAnew(row, table, to) : {};
}

/** All places of a row; none for what has no place of its own, as an opening in its wall. */
export const placesOfRow = (plan: Plan, ref: Ref): readonly Point[] =>
  Object.values(withPlaces(plan, ref, (p) => p)).flatMap((value) =>
    typeof value[0] === 'number' ? [value as Point] : (value as readonly Point[]),
  );

/** Whether a place lies beyond what a plan can hold. */
export const tooFar = (place: Point | readonly Point[]): boolean =>
  place.flat().some((n) => Math.abs(n) > FAR);

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
  const at = shifted(placeAlong(own, opening.along), by);
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
 * is moved leaves its neighbours as they are. One outlet by itself is dropped on the nearest wall face and stays where
 * it was put, one opening on the wall there; the outlets of moved devices go along unless somebody moved them by hand.
 * What is locked stays.
 */
export const move: Command<{ refs: readonly Ref[]; by: Point }> = (
  plan,
  { refs, by },
  { kinds },
) => {
  const whole: Point = [Math.round(by[0]), Math.round(by[1])];
  const loose = refs.filter((ref) => !isLocked(plan, ref));
  if (refs.length > 0 && loose.length === 0) return { ok: false, why: LOCKED };
  const all = withCompany(plan, loose);
  const draft = new Draft(plan);
  const devices: Device[] = [];
  const walls = new Map<Id, Wall>();
  for (const { table, id } of all.values()) {
    const row = plan.tables[table].get(id) as AnyEntity | undefined;
    if (!row || !(table in PLACES)) continue;
    const places = shiftRow(row, table, whole);
    if (Object.values(places).some(tooFar))
      return { ok: false, why: msg('That is farther than a plan can reach.') };
    if (table === 'outlets' && all.size === 1) {
      dropOutlet(draft, id, places.at as Point);
      continue;
    }
    draft.patch(table, id, places as never);
    if (table === 'devices') devices.push(draft.plan.tables.devices.get(id)!);
    if (table === 'walls') walls.set(id, row as Wall);
  }
  const fault =
    moveOpenings(draft, all, whole) ??
    carryWalls(draft, walls, all) ??
    collapsed(draft.plan, draft);
  if (fault) return { ok: false, why: fault };
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
  const stayed = refs.length - loose.length;
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Move {what}', { what: nameOf(plan, loose) }),
    ...stayedNotice(stayed),
  };
};

/** What is said of locked rows that were asked for among others. */
const stayedNotice = (stayed: number): { notice?: Message } =>
  stayed === 0
    ? {}
    : {
        notice:
          stayed === 1
            ? msg('1 locked thing stayed as it is.')
            : msg('{count} locked things stayed as they are.', { count: stayed }),
      };

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
): null {
  const rooms = [...all.values()].some(({ table }) => table === 'zones');
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

const WORDS: Readonly<Record<TableName, string>> = {
  job: 'job',
  settings: 'settings',
  prices: 'price book',
  allowances: 'allowances of a kind',
  levels: 'level',
  backgrounds: 'background',
  zones: 'room',
  walls: 'wall',
  openings: 'opening',
  keepouts: 'keep-out',
  pathways: 'pathway',
  risers: 'riser',
  pins: 'pin',
  closets: 'network closet',
  devices: 'device',
  outlets: 'outlet',
  jacks: 'jack',
  powers: 'power outlet',
  notes: 'note',
  dimensions: 'dimension line',
};

/** What a step is about, in words: `device A3`, `wall`, `5 things`. */
export function nameOf(plan: Plan, refs: readonly Ref[]): string {
  const walls = refs.filter((ref) => ref.table === 'walls').length;
  const rooms = refs.filter((ref) => ref.table === 'zones').length;
  if (rooms === 1 && walls > 0 && walls + rooms === refs.length) return 'room with its walls';
  if (refs.length !== 1) return `${refs.length} things`;
  const { table, id } = refs[0]!;
  const label = [...plan.tables.jacks.values()].find(
    (jack) =>
      (table === 'devices' && jack.device === id) ||
      (table === 'outlets' && jack.outlet === id) ||
      (table === 'jacks' && jack.id === id),
  )?.label;
  return label ? `${WORDS[table]} ${label}` : WORDS[table];
}

/** Removes rows with all that cannot stand without them. What is locked stays. */
export const remove: Command<{ refs: readonly Ref[] }> = (plan, { refs }, { kinds }) => {
  const levels = refs.filter((ref) => ref.table === 'levels').length;
  if (levels > 0 && levels >= plan.tables.levels.size) {
    return { ok: false, why: msg('A plan needs at least one level.') };
  }
  const loose = refs.filter((ref) => !isLocked(plan, ref));
  if (refs.length > 0 && loose.length === 0) return { ok: false, why: LOCKED };
  const draft = new Draft(plan);
  const walls = loose
    .flatMap((ref) => (ref.table === 'walls' ? [plan.tables.walls.get(ref.id)!] : []))
    .filter(Boolean);
  removeRows(
    draft,
    loose.filter((ref) => !['job', 'settings', 'prices'].includes(ref.table)),
  );
  followWalls(draft, walls, kinds);
  if (draft.changes().length === 0) return { ok: false, why: msg('There is nothing to delete.') };
  const stayed = refs.filter((ref) => isLocked(plan, ref));
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Delete {what}', { what: nameOf(plan, loose) }),
    select: stayed,
    ...stayedNotice(stayed.length),
  };
};

/** Turns devices about themselves by an angle in degrees clockwise. */
export const turn: Command<{ refs: readonly Ref[]; by: number }> = (plan, { refs, by }) => {
  const draft = new Draft(plan);
  for (const { table, id } of refs) {
    if (table !== 'devices') continue;
    const device = plan.tables.devices.get(id);
    if (!device) continue;
    draft.patch('devices', id, { turn: (device.turn + by + 360) % 360 });
  }
  if (draft.changes().length === 0) return { ok: false, why: msg('Only devices can be turned.') };
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Turn {what}', { what: nameOf(plan, refs) }),
  };
};
