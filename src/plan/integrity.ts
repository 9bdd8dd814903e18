import { addUnder } from '../base/group.ts';
import type { Issue } from '../base/result.ts';
import type { Point } from '../geometry/point.ts';
import { doubleArea } from '../geometry/polygon.ts';
import type { Draft } from './change.ts';
import { fitsIn } from './openings.ts';
import type { AnyEntity, Entity, Plan, Ref } from './plan.ts';
import { REFERENCES, TABLES, type TableName } from './schema.ts';

type Row = Readonly<Record<string, unknown>> & { readonly id: string };

/** Rows that cannot stand without the row which they name; elsewhere the name is emptied. */
const TAKEN_ALONG: Readonly<Record<string, boolean>> = {
  level: true,
  upper: true,
  outlet: true,
  device: false,
  host: false,
  wall: false,
  closet: false,
  pin: false,
};

/** Tables and fields whose rows cannot stand without the row that they name, although others can. */
const STANDS_IN: ReadonlySet<string> = new Set(['jacks device', 'openings wall']);

const samePoint = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];

function* rowsOf(plan: Plan): Iterable<[TableName, Row]> {
  for (const table of TABLES) {
    for (const row of plan.tables[table].values()) yield [table, row as unknown as Row];
  }
}

/** What one row lacks; each fault is the end of a sentence that begins with the row's path. */
type Fault = readonly [code: string, field: string, words: string];

function danglingIn(plan: Plan, table: TableName, row: Row): Fault[] {
  return Object.entries(REFERENCES[table] ?? {}).flatMap(([field, target]): Fault[] => {
    const id = row[field] as string | null;
    if (id === null || plan.tables[target].has(id)) return [];
    const words = `names "${id}", but there is no such row in ${target}. Add it, or correct the name.`;
    return [['dangling-id', field, words]];
  });
}

function shapeFaults(plan: Plan, table: TableName, row: Row): Fault[] {
  if (table === 'walls') {
    const wall = row as unknown as Entity<'walls'>;
    if (samePoint(wall.a, wall.b))
      return [
        [
          'no-length',
          '',
          'has no length: both ends are at the same place. Move one end, or take the wall out.',
        ],
      ];
  }
  if (table === 'openings') return openingFaults(plan, row as unknown as Entity<'openings'>);
  if (table === 'dimensions') {
    const { a, b } = row as unknown as Entity<'dimensions'>;
    if (samePoint(a, b))
      return [['no-length', '', 'has no length: both its places are the same. Move one of them.']];
  }
  if (table === 'pathways') {
    const { points } = row as unknown as Entity<'pathways'>;
    if (points.every((p) => samePoint(p, points[0]!)))
      return [
        [
          'no-length',
          '',
          'has no length: all its points are at the same place. Move one, or take the pathway out.',
        ],
      ];
  }
  if (table === 'backgrounds') {
    const { crop, width, height } = row as unknown as Entity<'backgrounds'>;
    if (crop && !(crop.x0 < crop.x1 && crop.x1 <= width && crop.y0 < crop.y1 && crop.y1 <= height))
      return [
        ['no-area', 'crop', 'shows nothing of the picture. Say corners that lie in it, or null.'],
      ];
  }
  if (table === 'risers') {
    const { level, upper } = row as unknown as Entity<'risers'>;
    if (level === upper)
      return [['one-level', 'upper', 'is the level that it starts from. Name another level.']];
  }
  if (table === 'allowances') {
    const { kind } = row as unknown as Entity<'allowances'>;
    for (const other of plan.tables.allowances.values())
      if (other.kind === kind && other.id < row.id)
        return [['twice', 'kind', `is already in allowances.${other.id}. Take one of them out.`]];
  }
  if (table === 'zones' || table === 'keepouts') {
    const { outline } = row as unknown as Entity<'zones'>;
    if (doubleArea(outline) === 0)
      return [
        ['no-area', 'outline', 'holds no area: its corners are in a line. Move one of them.'],
      ];
  }
  return [];
}

function openingFaults(plan: Plan, opening: Entity<'openings'>): Fault[] {
  const wall = plan.tables.walls.get(opening.wall);
  if (!wall || fitsIn(wall, opening)) return [];
  return [
    ['off-wall', '', 'reaches beyond its wall. Move it along the wall, or make it narrower.'],
  ];
}

function deviceFaults(plan: Plan, row: Row, kinds: ReadonlySet<string>): Fault[] {
  const device = row as unknown as Entity<'devices'>;
  const faults: Fault[] = [];
  if (!kinds.has(device.kind)) {
    const known = [...kinds].join(', ');
    const words = `is "${device.kind}", which this version does not know. It knows ${known}.`;
    faults.push(['unknown-kind', 'kind', words]);
  }
  if (device.host === device.id) {
    faults.push(['shares-twice', 'host', 'names the device itself.']);
  } else if (device.host !== null && plan.tables.devices.get(device.host)?.host != null) {
    const words = 'names a device that itself shares a jack. Name the one that has the jack.';
    faults.push(['shares-twice', 'host', words]);
  }
  return faults;
}

/**
 * What is wrong with one row that no single field shows: an id that names nothing, a kind that nobody knows, a wall
 * or a pathway without length, a room without area, a device that shares with one that shares.
 */
export function checkRow(
  plan: Plan,
  table: TableName,
  entity: AnyEntity,
  kinds: ReadonlySet<string>,
): Issue[] {
  const row = entity as unknown as Row;
  const faults = [
    ...danglingIn(plan, table, row),
    ...shapeFaults(plan, table, row),
    ...(table === 'devices' ? deviceFaults(plan, row, kinds) : []),
  ];
  return faults.map(([code, field, words]) => {
    const path = `${table}.${row.id}${field ? `.${field}` : ''}`;
    return { code, path, message: `${path} ${words}` };
  });
}

/** What is wrong with a whole plan that no single field shows: the faults of its rows, no level, missing pictures. */
export function checkWhole(
  plan: Plan,
  kinds: ReadonlySet<string>,
  assets: ReadonlyMap<string, unknown>,
): Issue[] {
  const issues: Issue[] = [];
  for (const [table, row] of rowsOf(plan)) {
    issues.push(...checkRow(plan, table, row as unknown as AnyEntity, kinds));
  }
  const add = (code: string, path: string, words: string) =>
    issues.push({ code, path, message: `${path} ${words}` });
  if (plan.tables.levels.size === 0)
    add('no-level', 'levels', 'is empty: a plan needs at least one level.');
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

/** A row that names another, with the field in which it does. */
interface Naming {
  readonly table: TableName;
  readonly row: Row;
  readonly field: string;
}

/** Who names each row, under `table/id`. */
function namings(plan: Plan): ReadonlyMap<string, readonly Naming[]> {
  const found = new Map<string, Naming[]>();
  for (const [table, row] of rowsOf(plan)) {
    for (const [field, target] of Object.entries(REFERENCES[table] ?? {})) {
      if (row[field] === null) continue;
      addUnder(found, `${target}/${String(row[field])}`, { table, row, field });
    }
  }
  return found;
}

/** What goes when a row goes: those that cannot stand without it, and outlet and pin that their last jack leaves. */
function followers(
  plan: Plan,
  { table, id }: Ref,
  named: ReadonlyMap<string, readonly Naming[]>,
  gone: ReadonlyMap<string, Ref>,
): Ref[] {
  const refs: Ref[] = [];
  for (const by of named.get(`${table}/${id}`) ?? []) {
    const own = STANDS_IN.has(`${by.table} ${by.field}`);
    if (TAKEN_ALONG[by.field] || own) refs.push({ table: by.table, id: by.row.id });
  }
  if (table === 'jacks') {
    const outlet = plan.tables.jacks.get(id)!.outlet;
    const left = (named.get(`outlets/${outlet}`) ?? []).some(
      (by) => by.table === 'jacks' && !gone.has(`jacks/${by.row.id}`),
    );
    if (!left) refs.push({ table: 'outlets', id: outlet });
    const { pin } = plan.tables.jacks.get(id)!;
    const passed = (named.get(`pins/${pin}`) ?? []).some((by) => !gone.has(`jacks/${by.row.id}`));
    if (pin !== null && !passed) refs.push({ table: 'pins', id: pin });
  }
  return refs;
}

/**
 * Removes rows with all that cannot stand without them: a level takes what stands on it, a device its jacks, a jack
 * the outlet that it leaves empty and the pin that nobody passes any more. What merely names a removed row (an outlet
 * its wall) forgets it. Rows that are not there are passed over.
 */
export function removeRows(draft: Draft, refs: readonly Ref[]): void {
  const { plan } = draft;
  const named = namings(plan);
  const gone = new Map<string, Ref>();
  const queue: Ref[] = [];
  const add = (ref: Ref): void => {
    const key = `${ref.table}/${ref.id}`;
    if (gone.has(key) || !plan.tables[ref.table].has(ref.id)) return;
    gone.set(key, ref);
    queue.push(ref);
  };
  refs.forEach(add);
  for (let i = 0; i < queue.length; i++) followers(plan, queue[i]!, named, gone).forEach(add);
  for (const key of gone.keys()) {
    for (const { table, row, field } of named.get(key) ?? []) {
      if (!gone.has(`${table}/${row.id}`)) draft.patch(table, row.id, { [field]: null } as never);
    }
  }
  for (const ref of queue) draft.remove(ref);
}
