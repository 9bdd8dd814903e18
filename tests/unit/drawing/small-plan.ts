import type * as z from 'zod/mini';
import type { Id } from '../../../src/base/ids.ts';
import { type Entity, emptyPlan, makeRow, type Plan } from '../../../src/plan/plan.ts';
import type { TableName, tableSchemas } from '../../../src/plan/schema.ts';
import type { Survey, Way } from '../../../src/results/types.ts';

type Fields<T extends TableName> = z.input<(typeof tableSchemas)[T]>;
export type Rows = { readonly [T in TableName]?: Readonly<Record<Id, Fields<T>>> };

/** A plan from rows by table and id, with the schema's defaults for the rest. */
export function planOf(rows: Rows): Plan {
  const blank = emptyPlan();
  const tables = { ...blank.tables } as Record<TableName, ReadonlyMap<Id, Entity<TableName>>>;
  for (const [table, entries] of Object.entries(rows) as [TableName, Record<Id, never>][])
    tables[table] = new Map([
      ...(tables[table] as ReadonlyMap<Id, Entity<TableName>>),
      ...Object.entries(entries).map(
        ([id, fields]) => [id, makeRow(table, id, fields)] as [Id, Entity<TableName>],
      ),
    ]);
  return { tables: tables as unknown as Plan['tables'] };
}

/** A survey that found nothing. */
export const NOTHING: Survey = {
  runs: [],
  ways: [],
  findings: [],
  price: {
    currency: '$',
    lines: [],
    materialCents: 0,
    labourCents: 0,
    markupCents: 0,
    taxCents: 0,
    totalCents: 0,
    hours: 0,
  },
  boxPlan: { boxes: [], bound: 0, oversize: [], byLength: 0, byAverage: 0 },
  averaging: null,
  totals: { cable: 0, order: 0, jacks: 0, devices: 0, boxes: 0, priceCents: 0 },
};

/** A flat way on the first level. */
export const way = (
  from: readonly [number, number],
  to: readonly [number, number],
  jacks: readonly Id[],
): Way => ({ level: 'L1', from: [...from, 2850], to: [...to, 2850], pathway: null, jacks });
