import { compareIds, type Id } from '../base/ids.ts';
import type { Message } from '../base/message.ts';
import { type AnyEntity, type Entity, freshId, type Plan, type Ref, type Tables } from './plan.ts';
import type { TableName } from './schema.ts';

/** One row before and after; null where it is not there. */
export interface Change {
  readonly table: TableName;
  readonly id: Id;
  readonly before: AnyEntity | null;
  readonly after: AnyEntity | null;
}

/** At most one change for each row. */
export type Changes = readonly Change[];

/** One step of the history: plain data that can be kept, replayed and inverted. */
export interface Transaction {
  readonly label: Message;
  readonly changes: Changes;
  /** Steps of one gesture (nudges, typed digits) carry the same key and merge into one. */
  readonly merge?: string;
}

const same = (a: unknown, b: unknown): boolean =>
  a === b || JSON.stringify(a) === JSON.stringify(b);

/** A table in the order of its ids, so that nothing that is derived depends on what was undone or when it was drawn. */
export function inOrder<T>(rows: ReadonlyMap<Id, T>): ReadonlyMap<Id, T> {
  let last: Id | null = null;
  for (const id of rows.keys()) {
    if (last !== null && compareIds(last, id) > 0)
      return new Map([...rows].sort(([a], [b]) => compareIds(a, b)));
    last = id;
  }
  return rows;
}

/**
 * Carries changes out on a plan, sharing every table that they do not touch. Tables stay in the order of their ids.
 *
 * @throws when a change does not start from what the plan holds: a broken contract between our own functions
 */
export function apply(plan: Plan, changes: Changes): Plan {
  if (changes.length === 0) return plan;
  const touched = new Map<TableName, Map<Id, AnyEntity>>();
  const grown = new Set<TableName>();
  for (const change of changes) {
    let table = touched.get(change.table);
    if (!table) {
      table = new Map(plan.tables[change.table] as ReadonlyMap<Id, AnyEntity>);
      touched.set(change.table, table);
    }
    if (!same(table.get(change.id) ?? null, change.before)) {
      throw new Error(
        `change of ${change.table}/${change.id} does not start from what the plan holds`,
      );
    }
    if (change.after === null) table.delete(change.id);
    else {
      if (!table.has(change.id)) grown.add(change.table);
      table.set(change.id, change.after);
    }
  }
  // Rows that merely change keep their place.
  const tables = [...touched].map(([table, rows]) => [
    table,
    grown.has(table) ? inOrder(rows) : rows,
  ]);
  return { tables: { ...plan.tables, ...Object.fromEntries(tables) } as Tables };
}

/** The changes that take these back. */
export const invert = (changes: Changes): Changes =>
  changes.map((c) => ({ table: c.table, id: c.id, before: c.after, after: c.before })).reverse();

/** Both in order, as one change for each row; what ends where it began is dropped. */
export function compose(first: Changes, second: Changes): Changes {
  const rows = new Map<string, Change>();
  for (const change of [...first, ...second]) {
    const key = `${change.table}/${change.id}`;
    const earlier = rows.get(key);
    rows.set(key, earlier ? { ...earlier, after: change.after } : change);
  }
  return [...rows.values()].filter((c) => !same(c.before, c.after));
}

/** Tables that a draft is still changing. */
const inHand = new WeakSet<object>();

/** Whether a table may still change, so that nothing may be remembered of it. */
export const isInHand = (table: object): boolean => inHand.has(table);

/** Gathers changes against a plan; reads see what was already put. */
export class Draft {
  readonly #base: Plan;
  readonly #touched = new Map<TableName, Map<Id, AnyEntity>>();
  readonly #rows = new Map<string, Ref>();
  #plan: Plan;

  constructor(plan: Plan) {
    this.#base = plan;
    this.#plan = plan;
  }

  /** The plan with everything that was put so far; it changes as more is put. */
  get plan(): Plan {
    return this.#plan;
  }

  /** Puts a row: adds it, or takes the place of the one with its id. */
  put<T extends TableName>(table: T, row: Entity<T>): Entity<T> {
    this.#table(table).set(row.id, Object.freeze(row) as unknown as AnyEntity);
    this.#rows.set(`${table}/${row.id}`, { table, id: row.id });
    return row;
  }

  /** Changes some fields of a row that is there. */
  patch<T extends TableName>(table: T, id: Id, fields: Partial<Omit<Entity<T>, 'id'>>): void {
    const row = this.#plan.tables[table].get(id);
    if (!row) throw new Error(`no ${table}/${id} to change`);
    this.put(table, { ...row, ...fields } as Entity<T>);
  }

  remove(ref: Ref): void {
    if (!this.#plan.tables[ref.table].has(ref.id)) return;
    this.#table(ref.table).delete(ref.id);
    this.#rows.set(`${ref.table}/${ref.id}`, ref);
  }

  /** Takes over what a command asked for on the plan as it is here. */
  take(changes: Changes): void {
    for (const { table, id, after } of changes)
      if (after) this.put(table, after as never);
      else this.remove({ table, id });
  }

  /** The next free id of a table, counting what was put. */
  fresh(table: TableName): Id {
    return freshId(this.#plan, table);
  }

  changes(): Changes {
    const row = (plan: Plan, ref: Ref) =>
      (plan.tables[ref.table].get(ref.id) ?? null) as AnyEntity | null;
    return [...this.#rows.values()]
      .map((ref) => ({ ...ref, before: row(this.#base, ref), after: row(this.#plan, ref) }))
      .filter((c) => !same(c.before, c.after));
  }

  /** A table is copied at its first change only, so that many puts stay linear. */
  #table(table: TableName): Map<Id, AnyEntity> {
    let rows = this.#touched.get(table);
    if (!rows) {
      rows = new Map(this.#plan.tables[table] as ReadonlyMap<Id, AnyEntity>);
      inHand.add(rows);
      this.#touched.set(table, rows);
      this.#plan = { tables: { ...this.#plan.tables, [table]: rows } as Tables };
    }
    return rows;
  }
}
