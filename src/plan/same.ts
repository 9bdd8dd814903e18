import type { Id } from '../base/ids.ts';
import { doubleArea, insidePolygon } from '../geometry/polygon.ts';
import { openingsOn } from './openings.ts';
import {
  type AnyEntity,
  DRAWN,
  type Drawn,
  onLevel,
  type Plan,
  type Ref,
  type Zone,
} from './plan.ts';

type Row = AnyEntity & { readonly kind?: string };

const isDrawn = (table: Ref['table']): table is Drawn =>
  (DRAWN as readonly string[]).includes(table);

/** Everything on a level that is of the same sort as some of these: devices and openings of one kind, else the same table. */
export function alike(plan: Plan, level: Id, refs: readonly Ref[]): readonly Ref[] {
  const sort = (ref: Ref): string => {
    const row = plan.tables[ref.table].get(ref.id) as Row | undefined;
    return `${ref.table} ${row?.kind ?? ''}`;
  };
  const wanted = new Set(refs.map(sort));
  return [...new Set(refs.map(({ table }) => table))].flatMap((table) => {
    const rows =
      table === 'openings'
        ? openingsOn(plan, level).map(({ opening }) => opening)
        : isDrawn(table)
          ? onLevel(plan, table, level)
          : [];
    return rows.map(({ id }): Ref => ({ table, id })).filter((ref) => wanted.has(sort(ref)));
  });
}

const size = ({ outline }: Zone): number => Math.abs(doubleArea(outline));

/** The smallest room round a place of a level; null where there is none. */
function roomAt(plan: Plan, level: Id, [x, y]: readonly [number, number]): Zone | null {
  const round = onLevel(plan, 'zones', level).filter(({ outline }) => insidePolygon(outline, x, y));
  return round.sort((a, b) => size(a) - size(b))[0] ?? null;
}

/** The devices, outlets, closets and power outlets in the rooms in which some of these stand; of a room what is in it. */
export function inSameRoom(plan: Plan, level: Id, refs: readonly Ref[]): readonly Ref[] {
  const rooms = new Set(
    refs.flatMap((ref) => {
      if (ref.table === 'zones') return plan.tables.zones.get(ref.id) ?? [];
      const row = plan.tables[ref.table].get(ref.id) as { at?: readonly [number, number] };
      return (row?.at && roomAt(plan, level, row.at)) ?? [];
    }),
  );
  if (rooms.size === 0) return [];
  return (['closets', 'devices', 'outlets', 'powers'] as const).flatMap((table) =>
    onLevel(plan, table, level)
      .filter(({ at }) => [...rooms].some(({ outline }) => insidePolygon(outline, at[0], at[1])))
      .map(({ id }): Ref => ({ table, id })),
  );
}
