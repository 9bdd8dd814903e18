import type { Id } from '../../base/ids.ts';
import { compareLabels } from '../../base/labels.ts';
import { formatLength, type Units } from '../../base/units.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import type { KindRegistry } from '../../kinds/kind.ts';
import { builtState } from '../../plan/built.ts';
import { jacksOfRefs } from '../../plan/jacks.ts';
import { riserEnd, risersOn } from '../../plan/levels.ts';
import { openingsOn, placeAlong } from '../../plan/openings.ts';
import { job, onLevel, type Plan, type Ref } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { nameOf } from '../names.ts';

/** The groups of the contents, in the order in which they are listed. */
export const GROUPS = [
  'closets',
  'devices',
  'outlets',
  'powers',
  'zones',
  'walls',
  'openings',
  'keepouts',
  'pathways',
  'risers',
  'pins',
  'notes',
  'dimensions',
  'backgrounds',
] as const;
export type GroupTable = (typeof GROUPS)[number];

export interface ContentsRow {
  readonly ref: Ref;
  readonly name: string;
  /** What tells it apart: its labels, its size, where it is. */
  readonly detail: string;
  /** How far the record of its cables as built is; empty for what has none. */
  readonly built: string;
  /** Where it is, for moving it by typing; the first corner of what has several. */
  readonly at: Point;
}

export interface ContentsGroup {
  readonly table: GroupTable;
  readonly title: string;
  readonly rows: readonly ContentsRow[];
}

/** Everything on a level, group by group; groups of nothing are left out. */
export function contentsOf(plan: Plan, level: Id, kinds: KindRegistry): ContentsGroup[] {
  return GROUPS.flatMap((table) => {
    const rows = rowsOf(plan, level, table, kinds);
    return rows.length === 0
      ? []
      : [{ table, title: `${t(`group.${table}`)} ${rows.length}`, rows }];
  });
}

/** The rows of a table on a level; openings are on that of their wall. */
function rowsOn(plan: Plan, level: Id, table: GroupTable): readonly { readonly id: Id }[] {
  if (table === 'risers') return risersOn(plan, level);
  if (table === 'openings') return openingsOn(plan, level).map(({ opening }) => opening);
  return onLevel(plan, table, level);
}

function rowsOf(plan: Plan, level: Id, table: GroupTable, kinds: KindRegistry): ContentsRow[] {
  const shared = outletsOfDevices(plan);
  return rowsOn(plan, level, table)
    .filter((row) => table !== 'outlets' || !shared.has(row.id))
    .map((row): ContentsRow => {
      const ref: Ref = { table, id: row.id };
      return {
        ref,
        name: nameOf(plan, kinds, ref),
        detail: detailOf(plan, ref, level, job(plan).units),
        built: builtWords(plan, ref),
        at: placeOf(plan, ref)!,
      };
    })
    .sort(
      (a, b) =>
        compareLabels(`${a.detail} ${a.name}`, `${b.detail} ${b.name}`) ||
        compareLabels(a.ref.id, b.ref.id),
    );
}

/** Outlets that stand in the service of a device are reached through it. */
function outletsOfDevices(plan: Plan): ReadonlySet<Id> {
  const found = new Set<Id>();
  for (const jack of plan.tables.jacks.values()) if (jack.device !== null) found.add(jack.outlet);
  return found;
}

/** Labels in the service of a device, on an outlet, at a pin, or of a jack; empty for what has none. */
export const labelsOf = (plan: Plan, ref: Ref): string[] =>
  jacksOfRefs(plan, [ref]).map((id) => plan.tables.jacks.get(id)!.label);

function builtWords(plan: Plan, ref: Ref): string {
  if (ref.table !== 'devices' && ref.table !== 'outlets') return '';
  const jacks = jacksOfRefs(plan, [ref]).map((id) => plan.tables.jacks.get(id)!);
  const state = builtState(jacks);
  return state === 'none' ? '' : t(`built.state.${state}`);
}

function detailOf(plan: Plan, ref: Ref, level: Id, units: Units): string {
  const { tables } = plan;
  switch (ref.table) {
    case 'devices':
    case 'outlets':
      return labelsOf(plan, ref).join(' ');
    case 'walls': {
      const wall = tables.walls.get(ref.id)!;
      return formatLength(distance(wall.a, wall.b), units);
    }
    case 'dimensions': {
      const row = tables.dimensions.get(ref.id)!;
      return formatLength(distance(row.a, row.b), units);
    }
    case 'zones':
      return tables.zones.get(ref.id)!.area;
    case 'pathways':
      return formatLength(chainLength(tables.pathways.get(ref.id)!.points), units);
    case 'risers':
      return riserEnd(plan, tables.risers.get(ref.id)!, level)?.name ?? '';
    case 'pins':
      return labelsOf(plan, ref).join(' ');
    default:
      return '';
  }
}

export const chainLength = (points: readonly Point[]): number =>
  points.reduce((sum, p, i) => (i === 0 ? 0 : sum + distance(points[i - 1]!, p)), 0);

/** Where a thing is: its place, or its first corner or end; null for what has none. */
export function placeOf(plan: Plan, ref: Ref): Point | null {
  const row = plan.tables[ref.table].get(ref.id) as Readonly<Record<string, unknown>> | undefined;
  if (!row) return null;
  if (ref.table === 'openings') {
    const opening = plan.tables.openings.get(ref.id)!;
    const [x, y] = placeAlong(plan.tables.walls.get(opening.wall)!, opening.along);
    return [Math.round(x), Math.round(y)];
  }
  const many = (row.outline ?? row.points) as readonly Point[] | undefined;
  return ((row.at ?? row.origin ?? row.a ?? many?.[0]) as Point | undefined) ?? null;
}
