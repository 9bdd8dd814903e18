import type { Id } from '../base/ids.ts';
import { distance } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { doubleArea } from '../geometry/polygon.ts';
import { carryRecord } from './carry-record.ts';
import type { Draft } from './change.ts';
import { fittedAlong, openingsOn } from './openings.ts';
import { nearestFace } from './outlet-place.ts';
import { DRAWN, type Drawn, onLevel, type Plan } from './plan.ts';
import { laidAnew, tooFar } from './row-places.ts';

/** Whether anything is drawn on a level over its backgrounds. */
export const isDrawnOn = (plan: Plan, level: Id): boolean =>
  DRAWN.some((table) => onLevel(plan, table, level).length > 0);

/** How near its wall an outlet is looked for after the drawing grew, as a share of how far it may have been carried off. */
const SLACK = 1.5;

/**
 * Draws everything on a level larger or smaller about a place, as if it had been traced at another scale. Breadths and
 * heights stay: walls keep their thickness and openings their width, and outlets hang on their faces again. False, and
 * the draft is not to be used, where it would reach farther than a plan can, where a wall or a room would shrink to
 * nothing, or where an opening would no longer fit in its wall.
 */
export function scaleDrawn(draft: Draft, level: Id, about: Point, factor: number): boolean {
  const { plan } = draft;
  const to = ([x, y]: Point): Point => [
    about[0] + (x - about[0]) * factor,
    about[1] + (y - about[1]) * factor,
  ];
  const puts: (() => void)[] = [];
  for (const table of DRAWN) {
    for (const row of onLevel(plan, table, level)) {
      const places = laidAnew(row, table, to);
      if (!fits(table, places)) return false;
      puts.push(() => draft.patch(table, row.id, places as never));
    }
  }
  for (const put of puts) put();
  for (const { opening, wall } of openingsOn(plan, level)) {
    const after = draft.plan.tables.walls.get(wall.id)!;
    const share = distance(after.a, after.b) / distance(wall.a, wall.b);
    const along = fittedAlong(after, opening.along * share, opening.width);
    if (along === null) return false;
    draft.patch('openings', opening.id, { along });
  }
  for (const outlet of onLevel(draft.plan, 'outlets', level)) {
    const wall = outlet.wall === null ? undefined : draft.plan.tables.walls.get(outlet.wall);
    if (!wall) continue;
    const reach = SLACK * wall.thickness * Math.max(1, factor) + 10;
    const face = nearestFace([wall], outlet.at, reach);
    if (face) draft.patch('outlets', outlet.id, { at: face.at });
  }
  carryRecord(draft, plan, to);
  return true;
}

const isPoint = (value: Point | readonly Point[]): value is Point => typeof value[0] === 'number';

function fits(table: Drawn, places: Readonly<Record<string, Point | readonly Point[]>>): boolean {
  const all = Object.values(places).flatMap((value) => (isPoint(value) ? [value] : [...value]));
  if (all.some(tooFar)) return false;
  const [first] = all;
  if ((table === 'zones' || table === 'keepouts') && doubleArea(all) === 0) return false;
  const oneSpot = all.every((p) => p[0] === first![0] && p[1] === first![1]);
  return !oneSpot || all.length === 1 || table === 'pins' || table === 'notes';
}
