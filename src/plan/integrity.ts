import type { Issue } from '../base/result.ts';
import { type Changes, Draft } from './change.ts';
import type { Plan, Ref } from './plan.ts';
import { REFERENCES, TABLES, type TableName } from './schema.ts';

type Row = Readonly<Record<string, unknown>> & { readonly id: string };

/** Rows that cannot stand without the row which they name; elsewhere the name is emptied. */
const TAKEN_ALONG: Readonly<Record<string, boolean>> = {
  level: true,
  outlet: true,
  device: false,
  host: false,
  wall: false,
  closet: false,
};

function* rowsOf(plan: Plan): Iterable<[TableName, Row]> {
  for (const table of TABLES) {
    for (const row of plan.tables[table].values()) yield [table, row as unknown as Row];
  }
}

function danglingIn(plan: Plan): Issue[] {
  const issues: Issue[] = [];
  for (const [table, row] of rowsOf(plan)) {
    for (const [field, target] of Object.entries(REFERENCES[table] ?? {})) {
      const id = row[field] as string | null;
      if (id !== null && !plan.tables[target].has(id)) {
        issues.push({
          code: 'dangling-id',
          path: `${table}.${row.id}.${field}`,
          message: `${table}.${row.id}.${field} names "${id}", but there is no such row in ${target}. Add it, or correct the name.`,
        });
      }
    }
  }
  return issues;
}

/**
 * What is wrong with a whole plan that no single field shows: ids that name nothing, kinds that nobody knows, walls
 * and ways without length, devices that share with one that shares, pictures that are missing.
 */
export function checkWhole(
  plan: Plan,
  kinds: ReadonlySet<string>,
  assets: ReadonlyMap<string, unknown>,
): Issue[] {
  const issues = danglingIn(plan);
  const add = (code: string, path: string, message: string) =>
    issues.push({ code, path, message: `${path} ${message}` });
  if (plan.tables.levels.size === 0)
    add('no-level', 'levels', 'is empty: a plan needs at least one level.');
  for (const wall of plan.tables.walls.values()) {
    if (wall.a[0] === wall.b[0] && wall.a[1] === wall.b[1]) {
      add(
        'no-length',
        `walls.${wall.id}`,
        'has no length: both ends are at the same place. Move one end, or take the wall out.',
      );
    }
  }
  for (const way of plan.tables.pathways.values()) {
    if (way.points.every((p) => p[0] === way.points[0]![0] && p[1] === way.points[0]![1])) {
      add(
        'no-length',
        `pathways.${way.id}`,
        'has no length: all its points are at the same place. Move one, or take the pathway out.',
      );
    }
  }
  for (const device of plan.tables.devices.values()) {
    if (!kinds.has(device.kind)) {
      add(
        'unknown-kind',
        `devices.${device.id}.kind`,
        `is "${device.kind}", which this version does not know. It knows ${[...kinds].join(', ')}.`,
      );
    }
    if (device.host !== null && plan.tables.devices.get(device.host)?.host != null) {
      add(
        'shares-twice',
        `devices.${device.id}.host`,
        'names a device that itself shares a jack. Name the one that has the jack.',
      );
    }
    if (device.host === device.id)
      add('shares-twice', `devices.${device.id}.host`, 'names the device itself.');
  }
  for (const background of plan.tables.backgrounds.values()) {
    if (!assets.has(background.asset)) {
      add(
        'no-picture',
        `backgrounds.${background.id}.asset`,
        'names a picture that is not in the file. Add it under "assets", or take the background out.',
      );
    }
  }
  return issues;
}

/** Every row that names one of these, with the field. */
function namedBy(plan: Plan, gone: ReadonlySet<string>): [TableName, Row, string][] {
  const found: [TableName, Row, string][] = [];
  for (const [table, row] of rowsOf(plan)) {
    for (const [field, target] of Object.entries(REFERENCES[table] ?? {})) {
      if (gone.has(`${target}/${String(row[field])}`)) found.push([table, row, field]);
    }
  }
  return found;
}

/**
 * Removes rows with all that cannot stand without them: a level takes what stands on it, a device its jacks, a jack
 * the outlet that it leaves empty. What merely names a removed row (an outlet its wall) forgets it.
 */
export function removeRows(draft: Draft, refs: readonly Ref[]): void {
  const queue = [...refs];
  for (let i = 0; i < queue.length; i++) {
    const ref = queue[i]!;
    if (ref.table === 'devices') {
      for (const jack of draft.plan.tables.jacks.values()) {
        if (jack.device === ref.id) queue.push({ table: 'jacks', id: jack.id });
      }
    }
    if (ref.table === 'jacks') {
      const outlet = draft.plan.tables.jacks.get(ref.id)?.outlet;
      const left = [...draft.plan.tables.jacks.values()].filter(
        (jack) =>
          jack.outlet === outlet && !queue.some((q) => q.table === 'jacks' && q.id === jack.id),
      );
      if (outlet !== undefined && left.length === 0) queue.push({ table: 'outlets', id: outlet });
    }
    for (const [table, row, field] of namedBy(draft.plan, new Set([`${ref.table}/${ref.id}`]))) {
      if (TAKEN_ALONG[field]) queue.push({ table, id: row.id });
    }
    if (queue.length > 1_000_000) throw new Error('removal does not end');
  }
  const gone = new Set(queue.map((ref) => `${ref.table}/${ref.id}`));
  for (const [table, row, field] of namedBy(draft.plan, gone)) {
    if (!gone.has(`${table}/${row.id}`)) draft.patch(table, row.id, { [field]: null } as never);
  }
  for (const ref of queue) draft.remove(ref);
}

/** The changes of a removal. */
export function removal(plan: Plan, refs: readonly Ref[]): Changes {
  const draft = new Draft(plan);
  removeRows(draft, refs);
  return draft.changes();
}
