import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { areaAt } from '../areas.ts';
import { Draft } from '../change.ts';
import type { KindFacts } from '../kind-facts.ts';
import { makeLabel, nextNumber } from '../labels.ts';
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
import type { TableName } from '../schema.ts';
import { nameOf, shiftRow, tooFar } from './change.ts';
import type { Command } from './command.ts';
import { serveDevice } from './place.ts';

/** Tables whose rows stand by themselves and are copied as they are. */
const PLAIN: readonly TableName[] = ['zones', 'walls', 'keepouts', 'pathways', 'closets', 'powers'];
/** How near an outlet that is copied must come to a wall to hang on it. */
const FACE_REACH = 400;

/** Copies in a row are many at the most. */
const MOST = 200;

/**
 * Copies rows, once or several times in a row, each `by` further than the last. A device is copied with an outlet and
 * jacks of its own, with the next labels; one that shares a jack goes on sharing with the copy of its host. An outlet
 * by itself is copied with spare jacks.
 */
export const duplicate: Command<{ refs: readonly Ref[]; by: Point; count?: number }> = (
  plan,
  { refs, by, count = 1 },
  { kinds },
) => {
  if (!Number.isInteger(count) || count < 1 || count > MOST)
    return {
      ok: false,
      why: msg('Between 1 and {most} copies can be made at once.', { most: MOST }),
    };
  const draft = new Draft(plan);
  const copies: Ref[] = [];
  for (let i = 1; i <= count; i++) {
    const shift: Point = [Math.round(by[0]) * i, Math.round(by[1]) * i];
    const made = copyOnce(draft, plan, refs, shift, kinds);
    if (made === null) return { ok: false, why: msg('That is farther than a plan can reach.') };
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

/** One copy of all; null where it would lie too far away. */
function copyOnce(
  draft: Draft,
  plan: Plan,
  refs: readonly Ref[],
  by: Point,
  kinds: ReadonlyMap<string, KindFacts>,
): Ref[] | null {
  const made: Ref[] = [];
  const ids = (table: TableName) => refs.filter((ref) => ref.table === table).map((ref) => ref.id);
  for (const table of PLAIN)
    for (const id of ids(table)) {
      const row = plan.tables[table].get(id) as AnyEntity | undefined;
      if (!row) continue;
      const places = shiftRow(row, table, by);
      if (Object.values(places).some(tooFar)) return null;
      const copy = { ...row, ...places, id: draft.fresh(table) };
      draft.put(table, copy as never);
      made.push({ table, id: copy.id });
    }
  const devices = ids('devices').flatMap((id) => plan.tables.devices.get(id) ?? []);
  const outlets = ids('outlets').flatMap((id) => plan.tables.outlets.get(id) ?? []);
  if ([...devices, ...outlets].some(({ at }) => tooFar([at[0] + by[0], at[1] + by[1]])))
    return null;
  made.push(...copyDevices(draft, plan, devices, by, kinds));
  const along = new Set(devices.map(({ id }) => id));
  for (const outlet of outlets) {
    const jacks = [...plan.tables.jacks.values()].filter((jack) => jack.outlet === outlet.id);
    const served = jacks.length > 0 && jacks.every((j) => j.device !== null && along.has(j.device));
    if (!served) made.push(copyOutlet(draft, outlet, jacks, by));
  }
  return made;
}

/** Hosts first, so that those who share find the copy of theirs. */
function copyDevices(
  draft: Draft,
  plan: Plan,
  devices: readonly Device[],
  by: Point,
  kinds: ReadonlyMap<string, KindFacts>,
): Ref[] {
  const copyOf = new Map<Id, Id>();
  const hostsFirst = [...devices].sort((a, b) => Number(a.host !== null) - Number(b.host !== null));
  return hostsFirst.map((device) => {
    const id = draft.fresh('devices');
    const host = device.host === null ? null : (copyOf.get(device.host) ?? null);
    const at: Point = [device.at[0] + by[0], device.at[1] + by[1]];
    const copy = draft.put('devices', { ...device, id, at, host, name: '' });
    copyOf.set(device.id, id);
    const kind = kinds.get(device.kind);
    const own = [...plan.tables.jacks.values()].filter((jack) => jack.device === device.id).length;
    const jacks = device.host === null ? own : (kind?.jacks ?? 0);
    if (kind && host === null) serveDevice(draft, { ...kind, jacks }, copy);
    return { table: 'devices', id };
  });
}

function copyOutlet(draft: Draft, outlet: Outlet, jacks: readonly Jack[], by: Point): Ref {
  const id = draft.fresh('outlets');
  const at: Point = [outlet.at[0] + by[0], outlet.at[1] + by[1]];
  const walls = onLevel(draft.plan, 'walls', outlet.level);
  const face = outlet.mount === 'wall' ? nearestFace(walls, at, FACE_REACH) : null;
  draft.put('outlets', {
    ...outlet,
    id,
    at: face?.at ?? at,
    wall: face?.wall.id ?? null,
    placed: 'hand',
  });
  for (let i = 0; i < Math.max(1, jacks.length); i++) {
    const area = areaAt(draft.plan, outlet.level, at);
    const label = makeLabel(area, nextNumber(draft.plan, area));
    draft.put('jacks', makeRow('jacks', draft.fresh('jacks'), { outlet: id, label, spare: true }));
  }
  return { table: 'outlets', id };
}
