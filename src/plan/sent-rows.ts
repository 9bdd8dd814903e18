import type { Id } from '../base/ids.ts';
import { inOrder } from './change.ts';
import type { AnyEntity, Plan, Tables } from './plan.ts';
import { TABLES, type TableName } from './schema.ts';

/**
 * Plans as they travel to a worker. Structured clone makes a new object of each row; so only rows that changed are
 * sent, and the others stay the same objects at the other end, where results are remembered by them.
 */

/** A row that is not as it was when the plan was sent last; null for one that is gone. */
export interface SentRow {
  readonly table: TableName;
  readonly id: Id;
  readonly row: AnyEntity | null;
}

type Rows = ReadonlyMap<Id, AnyEntity>;

/** The rows that differ between two plans, by identity: rows are never changed in place. */
export function rowsBetween(before: Plan | null, after: Plan): SentRow[] {
  return TABLES.flatMap((table) => {
    const old = before?.tables[table] as Rows | undefined;
    const rows = after.tables[table] as Rows;
    if (old === rows) return [];
    const put = [...rows].filter(([id, row]) => old?.get(id) !== row);
    const gone = [...(old?.keys() ?? [])].filter((id) => !rows.has(id));
    return [
      ...put.map(([id, row]): SentRow => ({ table, id, row })),
      ...gone.map((id): SentRow => ({ table, id, row: null })),
    ];
  });
}

/** The plan with these rows; tables without any stay the same objects. */
export function withRows(plan: Plan, sent: readonly SentRow[]): Plan {
  const touched = new Map<TableName, Map<Id, AnyEntity>>();
  for (const { table, id, row } of sent) {
    const rows = touched.get(table) ?? new Map(plan.tables[table] as Rows);
    touched.set(table, rows);
    if (row === null) rows.delete(id);
    else rows.set(id, row);
  }
  const tables = [...touched].map(([table, rows]) => [table, inOrder(rows)]);
  return { tables: { ...plan.tables, ...Object.fromEntries(tables) } as Tables };
}

/** A plan without a row, not even those that every plan has: where both ends begin. */
export const noRows = (): Plan => ({
  tables: Object.fromEntries(TABLES.map((table) => [table, new Map()])) as unknown as Tables,
});
