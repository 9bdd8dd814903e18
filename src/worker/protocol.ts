import type { Id } from '../base/ids.ts';
import { inOrder } from '../plan/change.ts';
import type { AnyEntity, Plan, Tables } from '../plan/plan.ts';
import { TABLES, type TableName } from '../plan/schema.ts';
import type { Run, Survey } from '../results/types.ts';

/**
 * The whole wire format between the screen and the survey: one question, one answer, in order. Everything travels by
 * structured clone, which makes a new object of each row; so only what changed is sent, and what did not stays the
 * same object at the other end, where results are remembered by it.
 */

/** A question: the rows that are not as in the question before, null for one that is gone. */
export interface Ask {
  readonly id: number;
  readonly rows: readonly SentRow[];
}

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

/** The survey of the plan that was asked about, or why there is none. */
export type Answer =
  | { readonly id: number; readonly survey: PackedSurvey }
  | { readonly id: number; readonly failed: string };

/**
 * A survey as it travels. Runs that are the same as in the answer before are named by their place there: a move
 * changes few of hundreds, and the screen draws anew only what is another object.
 */
export interface PackedSurvey extends Omit<Survey, 'runs'> {
  readonly runs: readonly (Run | number)[];
}

/** Packs a survey against the runs of the answer before. */
export function pack(survey: Survey, before: readonly Run[]): PackedSurvey {
  const places = new Map(before.map((run, place) => [run, place]));
  return { ...survey, runs: survey.runs.map((run) => places.get(run) ?? run) };
}

/** Unpacks a survey with the runs of the answer before. Throws on a place that is not there. */
export function unpack(packed: PackedSurvey, before: readonly Run[]): Survey {
  const runs = packed.runs.map((run) => {
    const found = typeof run === 'number' ? before[run] : run;
    if (!found) throw new Error(`the answer before has no run ${run}`);
    return found;
  });
  return { ...packed, runs };
}
