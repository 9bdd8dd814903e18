import { msg } from '../base/message.ts';
import { FAR } from '../base/units.ts';
import type { Point } from '../geometry/point.ts';
import type { AnyEntity, Plan, Ref } from './plan.ts';
import type { TableName } from './schema.ts';

/** The fields that hold places, by table. */
const PLACES: Partial<Record<TableName, readonly string[]>> = {
  backgrounds: ['origin'],
  zones: ['outline'],
  walls: ['a', 'b'],
  keepouts: ['outline'],
  pathways: ['points'],
  risers: ['at'],
  pins: ['points'],
  closets: ['at'],
  devices: ['at'],
  outlets: ['at'],
  powers: ['at'],
  notes: ['at', 'to'],
  dimensions: ['a', 'b'],
};

/** Whether rows of a table have places of their own: an opening lies where its wall does. */
export const hasPlaces = (table: TableName): boolean => table in PLACES;

/** The fields of a row that hold places, each place laid anew; in whole mm. */
export function laidAnew(
  row: AnyEntity,
  table: TableName,
  to: (p: Point) => Point,
): Record<string, Point | readonly Point[]> {
  const values = row as unknown as Record<string, unknown>;
  const lay = (p: Point): Point => {
    const [x, y] = to(p);
    return [Math.round(x) + 0, Math.round(y) + 0];
  };
  const fields = PLACES[table] ?? [];
  return Object.fromEntries(
    fields.flatMap((field) => {
      const value = values[field] as Point | readonly Point[] | null;
      if (value === null) return [];
      const laid =
        typeof value[0] === 'number' ? lay(value as Point) : (value as readonly Point[]).map(lay);
      return [[field, laid]];
    }),
  );
}

/** The fields of a row that hold places, shifted. */
export const shiftRow = (row: AnyEntity, table: TableName, by: Point) =>
  laidAnew(row, table, ([x, y]) => [x + by[0], y + by[1]]);

/** The same for a row of a plan by its name; none where it is not there. */
export function withPlaces(plan: Plan, { table, id }: Ref, to: (p: Point) => Point) {
  const row = plan.tables[table].get(id) as AnyEntity | undefined;
  return row ? laidAnew(row, table, to) : {};
}

/** All places of a row; none for what has no place of its own, as an opening in its wall. */
export const placesOfRow = (plan: Plan, ref: Ref): readonly Point[] =>
  Object.values(withPlaces(plan, ref, (p) => p)).flatMap((value) =>
    typeof value[0] === 'number' ? [value as Point] : (value as readonly Point[]),
  );

/** Why something cannot be where it is asked for. */
export const BEYOND = msg('That is farther than a plan can reach.');

/** Whether a place, or one of several, lies beyond what a plan can hold. */
export const tooFar = (place: Point | readonly Point[]): boolean =>
  place.flat().some((n) => !(Math.abs(n) <= FAR));
