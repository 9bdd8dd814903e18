import type { Id } from '../base/ids.ts';
import type { Plan } from '../plan/plan.ts';

/** Tables whose rows are symbols: these can be drawn by themselves while they move. */
export const SYMBOLS = ['devices', 'outlets', 'powers', 'closets'] as const;

/** What a plan's drawing is made of, apart from its symbols. */
export const SHAPES = [
  'job',
  'levels',
  'backgrounds',
  'zones',
  'walls',
  'keepouts',
  'pathways',
  'risers',
  'pins',
  'openings',
  'notes',
  'dimensions',
] as const;

/** Tables whose rows are drawn by themselves; a picture is not laid out but painted. */
type DrawnTable =
  | (typeof SYMBOLS)[number]
  | Exclude<(typeof SHAPES)[number], 'job' | 'levels' | 'backgrounds'>;
/** Tables that a drawing between two plans is made of. */
export const DRAWN: readonly DrawnTable[] = [
  ...SYMBOLS,
  ...SHAPES.filter((table) => table !== 'job' && table !== 'levels' && table !== 'backgrounds'),
];

type Rows = ReadonlyMap<Id, unknown>;
export type Changed = ReadonlyMap<DrawnTable, Rows>;

/** Rows that a plan has and another has not, or has otherwise; tables without any are left out. */
export function changedRows(before: Plan, after: Plan, tables: readonly DrawnTable[]): Changed {
  const changed = new Map<DrawnTable, Rows>();
  for (const table of tables) {
    const old: Rows = before.tables[table];
    const rows: Rows = after.tables[table];
    if (old === rows) continue;
    const other = new Map<Id, unknown>();
    for (const [id, row] of rows) if (old.get(id) !== row) other.set(id, row);
    if (other.size > 0) changed.set(table, other);
  }
  return changed;
}

/** A text that stands for which rows these are, whatever has changed in them. */
export const namesOf = (changed: Changed): string =>
  [...changed].flatMap(([table, rows]) => [table, ...rows.keys()]).join(' ');

const withTables = (plan: Plan, tables: Iterable<readonly [DrawnTable, Rows]>): Plan => ({
  tables: { ...plan.tables, ...Object.fromEntries(tables) } as Plan['tables'],
});

/** A plan with only the changed rows in some of its tables, and the walls that these lie on. */
export function alone(plan: Plan, tables: readonly DrawnTable[], changed: Changed): Plan {
  const walls = new Map<Id, unknown>(tables.includes('walls') ? changed.get('walls') : []);
  for (const rows of changed.values())
    for (const row of rows.values()) {
      const { wall } = row as { wall?: Id | null };
      const found = wall && plan.tables.walls.get(wall);
      if (found) walls.set(found.id, found);
    }
  return withTables(plan, [
    ...tables.map((table) => [table, changed.get(table) ?? new Map()] as const),
    ['walls', walls] as const,
  ]);
}

/** A plan without the changed rows. */
export const without = (plan: Plan, changed: Changed): Plan =>
  withTables(
    plan,
    [...changed].map(([table, gone]) => {
      const rows: Rows = plan.tables[table];
      return [table, new Map([...rows].filter(([id]) => !gone.has(id)))] as const;
    }),
  );

/** Rows on a level from which its drawing is made. */
export function rowsDrawn(plan: Plan): number {
  return DRAWN.reduce((sum, table) => sum + plan.tables[table].size, 0);
}
