import type { Id } from '../base/ids.ts';
import type { Message } from '../base/message.ts';
import type { Change, Changes, Transaction } from '../plan/change.ts';
import { type History, redo, undo } from '../plan/history.ts';
import type { AnyEntity, Plan, Tables } from '../plan/plan.ts';
import { FORMAT_VERSION, TABLES, type TableName, tableSchemas } from '../plan/schema.ts';

/** What came from one state of a job to the next: steps forgotten at the front, kept, added, and how many are in force. */
export interface Advance {
  readonly drop: number;
  readonly keep: number;
  readonly add: readonly Transaction[];
  readonly cursor: number;
}

function moveTo(history: History, cursor: number): History {
  const there = (n: number) => n >= 0 && n <= history.steps.length;
  if (!there(cursor) || !there(history.cursor)) throw new Error('there is no such step');
  let at = history;
  while (at.cursor > cursor) at = undo(at);
  while (at.cursor < cursor) at = redo(at);
  return at;
}

/**
 * Carries an advance out.
 *
 * @throws when it does not start from this state
 */
export function advance(from: History, by: Advance): History {
  const last = by.drop + by.keep;
  if (last > from.steps.length || by.cursor > by.keep + by.add.length)
    throw new Error('the advance does not start from this state of the job');
  const at = moveTo(from, Math.min(Math.max(from.cursor, by.drop), last));
  const steps = [...at.steps.slice(by.drop, last), ...by.add];
  return moveTo({ plan: at.plan, steps, cursor: at.cursor - by.drop }, by.cursor);
}

/** The advance from one state to a later one of the same job; null when the later one does not follow from it. */
export function advanceBetween(before: History, after: History): Advance | null {
  const first = after.steps[0];
  const drop = first === undefined ? 0 : Math.max(0, before.steps.indexOf(first));
  let keep = 0;
  while (
    keep < after.steps.length &&
    drop + keep < before.steps.length &&
    before.steps[drop + keep] === after.steps[keep]
  )
    keep++;
  const by = { drop, keep, add: after.steps.slice(keep), cursor: after.cursor };
  try {
    return samePlan(advance(before, by).plan, after.plan) ? by : null;
  } catch {
    return null;
  }
}

function samePlan(a: Plan, b: Plan): boolean {
  return TABLES.every((table) => sameRows(a.tables[table], b.tables[table]));
}

function sameRows(a: ReadonlyMap<Id, unknown>, b: ReadonlyMap<Id, unknown>): boolean {
  if (a === b) return true;
  if (a.size !== b.size) return false;
  for (const [id, row] of a) {
    const other = b.get(id);
    if (row !== other && JSON.stringify(row) !== JSON.stringify(other)) return false;
  }
  return true;
}

/**
 * A row as this version knows it: fields that came since get their defaults. A row that does not fit is taken as it
 * is: it was on the screen a moment ago, and a job that comes back with one odd row is better than none.
 */
function readRow(table: TableName, raw: unknown): AnyEntity {
  const { id, ...fields } = raw as { id: Id };
  const parsed = tableSchemas[table].safeParse(fields);
  return Object.freeze({ id, ...(parsed.success ? parsed.data : fields) }) as AnyEntity;
}

function readChange(raw: Change): Change {
  if (!TABLES.includes(raw.table)) throw new Error(`there is no table "${raw.table}"`);
  const row = (side: AnyEntity | null) => (side === null ? null : readRow(raw.table, side));
  return { table: raw.table, id: raw.id, before: row(raw.before), after: row(raw.after) };
}

const readStep = (raw: Transaction): Transaction => ({
  label: raw.label as Message,
  changes: raw.changes.map(readChange) as Changes,
  ...(raw.merge === undefined ? {} : { merge: raw.merge }),
});

export const writeAdvance = (by: Advance): string => JSON.stringify(by);

/** Reads what `writeAdvance` wrote. Throws on anything else. */
export function readAdvance(text: string): Advance {
  const raw = JSON.parse(text) as Advance;
  return { drop: raw.drop, keep: raw.keep, add: raw.add.map(readStep), cursor: raw.cursor };
}

/** A whole state of a job: rows in the order of their tables, since a later step may lean on it. */
export function writeHistory(history: History): string {
  const tables = Object.fromEntries(
    TABLES.map((table) => [table, [...history.plan.tables[table].values()]]),
  );
  return JSON.stringify({
    version: FORMAT_VERSION,
    tables,
    steps: history.steps,
    cursor: history.cursor,
  });
}

/** Reads what `writeHistory` wrote. Throws on anything else, and on another version of the format. */
export function readHistory(text: string): History {
  const raw = JSON.parse(text) as {
    version: number;
    tables: Partial<Record<TableName, readonly unknown[]>>;
    steps: readonly Transaction[];
    cursor: number;
  };
  if (raw.version !== FORMAT_VERSION)
    throw new Error(`the job was kept in format ${raw.version}, this is format ${FORMAT_VERSION}`);
  const tables = Object.fromEntries(
    TABLES.map((table) => [
      table,
      new Map((raw.tables[table] ?? []).map((r) => readRow(table, r)).map((r) => [r.id, r])),
    ]),
  ) as unknown as Tables;
  const steps = raw.steps.map(readStep);
  if (!(raw.cursor >= 0 && raw.cursor <= steps.length))
    throw new Error('the cursor is out of range');
  return { plan: { tables }, steps, cursor: raw.cursor };
}
