import type * as z from 'zod/mini';
import { type Id, nextId } from '../base/ids.ts';
import { ID_PREFIX, SINGLETONS, TABLES, type TableName, tableSchemas } from './schema.ts';

/** A row of a table, with its id; rows are never changed in place. */
export type Entity<T extends TableName> = Readonly<z.output<(typeof tableSchemas)[T]>> & {
  readonly id: Id;
};

export type Job = Entity<'job'>;
export type Settings = Entity<'settings'>;
export type Prices = Entity<'prices'>;
export type Level = Entity<'levels'>;
export type Background = Entity<'backgrounds'>;
export type Zone = Entity<'zones'>;
export type Wall = Entity<'walls'>;
export type Opening = Entity<'openings'>;
export type Keepout = Entity<'keepouts'>;
export type Pathway = Entity<'pathways'>;
export type Riser = Entity<'risers'>;
export type Pin = Entity<'pins'>;
export type Closet = Entity<'closets'>;
export type Device = Entity<'devices'>;
export type Outlet = Entity<'outlets'>;
export type Jack = Entity<'jacks'>;
export type Note = Entity<'notes'>;
export type Dimension = Entity<'dimensions'>;
export type AnyEntity = { [T in TableName]: Entity<T> }[TableName];

export type Tables = { readonly [T in TableName]: ReadonlyMap<Id, Entity<T>> };

/** What somebody decided: immutable tables from stable id to small frozen rows. All else is derived by the survey. */
export interface Plan {
  readonly tables: Tables;
}

/** Names one row. */
export interface Ref {
  readonly table: TableName;
  readonly id: Id;
}

/** Tables of what is drawn and stands on a level by itself: not the pictures beneath, nor openings and jacks. */
export const DRAWN = [
  'zones',
  'walls',
  'keepouts',
  'pathways',
  'risers',
  'pins',
  'closets',
  'devices',
  'outlets',
  'powers',
  'notes',
  'dimensions',
] as const satisfies readonly TableName[];
export type Drawn = (typeof DRAWN)[number];

/** A text that stands for one row, as a key of a map. */
export const refKey = (ref: Ref): string => `${ref.table}/${ref.id}`;

/** Name, address and units of the job. */
export const job = (plan: Plan): Job => plan.tables.job.get('job')!;
/** Allowances, limits and prices of the search. */
export const settings = (plan: Plan): Settings => plan.tables.settings.get('settings')!;
/** The price book of the job. */
export const prices = (plan: Plan): Prices => plan.tables.prices.get('prices')!;

/** A row of a table by its id; undefined where there is none. */
export function entity<T extends TableName>(plan: Plan, table: T, id: Id): Entity<T> | undefined {
  return plan.tables[table].get(id);
}

/** The rows of a table that stand on a level. */
export function onLevel<
  T extends
    | 'backgrounds'
    | 'zones'
    | 'walls'
    | 'keepouts'
    | 'pathways'
    | 'risers'
    | 'pins'
    | 'closets'
    | 'devices'
    | 'outlets'
    | 'powers'
    | 'notes'
    | 'dimensions',
>(plan: Plan, table: T, level: Id): Entity<T>[] {
  const rows: Entity<T>[] = [];
  for (const row of plan.tables[table].values() as Iterable<Entity<T>>)
    if (row.level === level) rows.push(row);
  return rows;
}

/** Jacks in a device's service: its own, or its host's when it shares. */
export function jacksOf(plan: Plan, device: Device): Jack[] {
  const owner = device.host ?? device.id;
  return [...plan.tables.jacks.values()].filter((jack) => jack.device === owner);
}

/** The next free id of a table. */
export const freshId = (plan: Plan, table: TableName): Id =>
  nextId(ID_PREFIX[table], plan.tables[table].keys());

/** A row from its decided fields, with the schema's defaults for the rest. Throws on fields that do not fit. */
export function makeRow<T extends TableName>(
  table: T,
  id: Id,
  fields: z.input<(typeof tableSchemas)[T]>,
): Entity<T> {
  const parsed = tableSchemas[table].parse(fields) as object;
  return Object.freeze({ id, ...parsed }) as Entity<T>;
}

/** Whether a row is one that a file can hold and give back. */
export function isSound(table: TableName, { id: _, ...fields }: AnyEntity): boolean {
  return tableSchemas[table].safeParse(fields).success;
}

/** A job on a blank sheet: the singletons at their defaults and one level. */
export function emptyPlan(): Plan {
  const tables = Object.fromEntries(TABLES.map((table) => [table, new Map()])) as Record<
    TableName,
    Map<Id, AnyEntity>
  >;
  for (const table of SINGLETONS) tables[table].set(table, makeRow(table, table, {}) as AnyEntity);
  tables.levels.set('L1', makeRow('levels', 'L1', {}) as AnyEntity);
  return { tables: tables as unknown as Tables };
}
