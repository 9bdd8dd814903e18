import type { Id } from '../../base/ids.ts';
import { type Message, msg } from '../../base/message.ts';
import { Draft } from '../change.ts';
import { followCeilings } from '../follow-ceilings.ts';
import { checkRow } from '../integrity.ts';
import { carryMounted, collapsed } from '../joints.ts';
import { followDevices, followWalls } from '../outlet-place.ts';
import { type AnyEntity, type Device, makeRow, type Plan, type Wall, type Zone } from '../plan.ts';
import type { TableName } from '../schema.ts';
import type { Command } from './command.ts';
import { FACE_REACH, hang, outletsOn } from './hang.ts';

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
  if (table === 'zones') followCeilings(draft, plan, (next as Zone).level, kinds);
  if (table === 'levels') followCeilings(draft, plan, id, kinds);
  if (table === 'outlets' && !('placed' in fields)) draft.patch('outlets', id, { placed: 'hand' });
  return {
    ok: true,
    changes: draft.changes(),
    ...dropNotice(plan, draft.plan, table, id),
    label: msg('Change {fields}', { fields: Object.keys(fields).map(inWords).join(', ') }),
  };
};
