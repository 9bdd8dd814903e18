import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { areaAt } from '../areas.ts';
import { Draft } from '../change.ts';
import type { KindFacts } from '../kind-facts.ts';
import { makeLabel, nextNumber } from '../labels.ts';
import {
  alongOf,
  fittedAlong,
  openingsIn,
  overlapsOpening,
  placeAlong,
  wallAt,
} from '../openings.ts';
import { nearestFace } from '../outlet-place.ts';
import {
  type AnyEntity,
  type Device,
  type Jack,
  makeRow,
  type Outlet,
  onLevel,
  type Plan,
  type Ref,
} from '../plan.ts';
import { BEYOND, shiftRow, tooFar } from '../row-places.ts';
import type { TableName } from '../schema.ts';
import type { Command } from './command.ts';
import { serveDevice } from './place.ts';
import { nameOf } from './step-words.ts';

/** Tables whose rows stand by themselves and are copied as they are. */
const PLAIN: readonly TableName[] = [
  'zones',
  'walls',
  'keepouts',
  'pathways',
  'closets',
  'powers',
  'notes',
  'dimensions',
];
/** How near an outlet that is copied must come to a wall to hang on it. */
const FACE_REACH = 400;

/** Copies in a row are many at the most. */
const MOST = 200;

/**
 * Copies rows, once or several times in a row, each `by` further than the last. A device is copied with an outlet and
 * jacks of its own, with the next labels; one that shares a jack goes on sharing with the copy of its host. An outlet
 * by itself is copied with spare jacks.
 */
export const duplicate: Command<{
  refs: readonly Ref[];
  by: Point;
  count?: number;
  /** The level on which the copies stand; that of each row where it is left out. */
  level?: Id;
}> = (plan, { refs, by, count = 1, level }, { kinds }) => {
  if (level !== undefined && !plan.tables.levels.has(level))
    return { ok: false, why: msg('That level is no longer there.') };
  if (!Number.isInteger(count) || count < 1 || count > MOST)
    return {
      ok: false,
      why: msg('Between 1 and {most} copies can be made at once.', { most: MOST }),
    };
  const draft = new Draft(plan);
  const copies: Ref[] = [];
  for (let i = 1; i <= count; i++) {
    const shift: Point = [Math.round(by[0]) * i, Math.round(by[1]) * i];
    const made = copyOnce(draft, plan, refs, { by: shift, level }, kinds);
    if (made === null) return { ok: false, why: BEYOND };
    copies.push(...made);
  }
  if (copies.length === 0) return { ok: false, why: msg('There is nothing here to copy.') };
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Copy {what}', { what: nameOf(plan, refs) }),
    select: copies,
  };
};

/** How far a copy lies from its own, and on which level. */
interface Copying {
  readonly by: Point;
  readonly level: Id | undefined;
}

const onto = ({ level }: Copying) => (level === undefined ? {} : { level });

/** The openings of a wall, in its copy. */
function copyOpenings(draft: Draft, plan: Plan, wall: Id, copy: Id): void {
  for (const opening of openingsIn(plan, wall))
    draft.put('openings', { ...opening, id: draft.fresh('openings'), wall: copy, locked: false });
}

/** Openings whose wall is not copied: further along the wall at the new place, where they fit. */
function copyAlone(draft: Draft, plan: Plan, refs: readonly Ref[], to: Copying): Ref[] {
  const walls = new Set(refs.filter(({ table }) => table === 'walls').map(({ id }) => id));
  return refs.flatMap(({ table, id }): Ref[] => {
    const opening = table === 'openings' ? plan.tables.openings.get(id) : undefined;
    if (!opening || walls.has(opening.wall)) return [];
    const own = plan.tables.walls.get(opening.wall)!;
    const [x, y] = placeAlong(own, opening.along);
    const at: Point = [x + to.by[0], y + to.by[1]];
    const wall = wallAt(onLevel(draft.plan, 'walls', to.level ?? own.level), at, FACE_REACH);
    const along = wall && fittedAlong(wall, alongOf(wall, at), opening.width);
    if (!wall || along === null) return [];
    const row = {
      ...opening,
      id: draft.fresh('openings'),
      wall: wall.id,
      along,
      locked: false,
    };
    if (overlapsOpening(draft.plan, row)) return [];
    draft.put('openings', row);
    return [{ table: 'openings', id: row.id }];
  });
}

/** One copy of all; null where it would lie too far away. */
function copyOnce(
  draft: Draft,
  plan: Plan,
  refs: readonly Ref[],
  to: Copying,
  kinds: ReadonlyMap<string, KindFacts>,
): Ref[] | null {
  const { by } = to;
  const made: Ref[] = [];
  const ids = (table: TableName) => refs.filter((ref) => ref.table === table).map((ref) => ref.id);
  for (const table of PLAIN)
    for (const id of ids(table)) {
      const row = plan.tables[table].get(id) as AnyEntity | undefined;
      if (!row) continue;
      const places = shiftRow(row, table, by);
      if (Object.values(places).some(tooFar)) return null;
      const copy = { ...row, ...places, ...onto(to), locked: false, id: draft.fresh(table) };
      draft.put(table, copy as never);
      if (table === 'walls') copyOpenings(draft, plan, id, copy.id);
      made.push({ table, id: copy.id });
    }
  const devices = ids('devices').flatMap((id) => plan.tables.devices.get(id) ?? []);
  const outlets = ids('outlets').flatMap((id) => plan.tables.outlets.get(id) ?? []);
  if ([...devices, ...outlets].some(({ at }) => tooFar([at[0] + by[0], at[1] + by[1]])))
    return null;
  made.push(...copyAlone(draft, plan, refs, to));
  made.push(...copyDevices(draft, plan, devices, to, kinds));
  const along = new Set(devices.map(({ id }) => id));
  for (const outlet of outlets) {
    const jacks = [...plan.tables.jacks.values()].filter((jack) => jack.outlet === outlet.id);
    const served = jacks.length > 0 && jacks.every((j) => j.device !== null && along.has(j.device));
    if (!served) made.push(copyOutlet(draft, outlet, jacks, to));
  }
  return made;
}

/** Hosts first, so that those who share find the copy of theirs. */
function copyDevices(
  draft: Draft,
  plan: Plan,
  devices: readonly Device[],
  to: Copying,
  kinds: ReadonlyMap<string, KindFacts>,
): Ref[] {
  const copyOf = new Map<Id, Id>();
  const hostsFirst = [...devices].sort((a, b) => Number(a.host !== null) - Number(b.host !== null));
  return hostsFirst.map((device) => {
    const id = draft.fresh('devices');
    const host = device.host === null ? null : (copyOf.get(device.host) ?? null);
    const at: Point = [device.at[0] + to.by[0], device.at[1] + to.by[1]];
    const fields = { ...onto(to), id, at, host, name: '', locked: false };
    const copy = draft.put('devices', { ...device, ...fields });
    copyOf.set(device.id, id);
    const kind = kinds.get(device.kind);
    const own = [...plan.tables.jacks.values()].filter((jack) => jack.device === device.id).length;
    const jacks = device.host === null ? own : (kind?.jacks ?? 0);
    if (kind && host === null) serveDevice(draft, { ...kind, jacks }, copy);
    return { table: 'devices', id };
  });
}

function copyOutlet(draft: Draft, outlet: Outlet, jacks: readonly Jack[], to: Copying): Ref {
  const id = draft.fresh('outlets');
  const at: Point = [outlet.at[0] + to.by[0], outlet.at[1] + to.by[1]];
  const level = to.level ?? outlet.level;
  const walls = onLevel(draft.plan, 'walls', level);
  const face = outlet.mount === 'wall' ? nearestFace(walls, at, FACE_REACH) : null;
  draft.put('outlets', {
    ...outlet,
    id,
    level,
    locked: false,
    at: face?.at ?? at,
    wall: face?.wall.id ?? null,
    placed: 'hand',
  });
  for (let i = 0; i < Math.max(1, jacks.length); i++) {
    const area = areaAt(draft.plan, level, at);
    const label = makeLabel(area, nextNumber(draft.plan, area));
    draft.put('jacks', makeRow('jacks', draft.fresh('jacks'), { outlet: id, label, spare: true }));
  }
  return { table: 'outlets', id };
}
