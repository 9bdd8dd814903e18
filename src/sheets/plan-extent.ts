import type { Id } from '../base/ids.ts';
import { dimensionLine } from '../drawing/opening-marks.ts';
import type { Point } from '../geometry/point.ts';
import { risersOn } from '../plan/levels.ts';
import { shownCorners } from '../plan/picture-place.ts';
import { onLevel, type Plan } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';

/** A part of a level, mm of the building. */
export interface Extent {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

function around(points: readonly Point[]): Extent | null {
  if (points.length === 0) return null;
  let [x0, y0] = points[0]!;
  let [x1, y1] = points[0]!;
  for (const [x, y] of points) {
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  }
  return { x0, y0, x1, y1 };
}

const area = ({ x0, y0, x1, y1 }: Extent): number => (x1 - x0) * (y1 - y0);

function drawnPoints(plan: Plan, level: Id): { rooms: Point[]; all: Point[] } {
  const rooms: Point[] = [];
  for (const wall of onLevel(plan, 'walls', level)) {
    const h = wall.thickness / 2;
    for (const [x, y] of [wall.a, wall.b]) rooms.push([x - h, y - h], [x + h, y + h]);
  }
  for (const zone of onLevel(plan, 'zones', level)) rooms.push(...zone.outline);
  const all = [...rooms];
  for (const keepout of onLevel(plan, 'keepouts', level)) all.push(...keepout.outline);
  for (const pathway of onLevel(plan, 'pathways', level)) all.push(...pathway.points);
  for (const table of ['closets', 'devices', 'outlets', 'powers'] as const)
    for (const row of onLevel(plan, table, level)) all.push(row.at);
  for (const riser of risersOn(plan, level)) all.push(riser.at);
  for (const pin of onLevel(plan, 'pins', level)) all.push(...pin.points);
  for (const { at, to } of onLevel(plan, 'notes', level)) all.push(at, ...(to ? [to] : []));
  for (const row of onLevel(plan, 'dimensions', level)) all.push(...dimensionLine(row));
  return { rooms, all };
}

/** Traced rooms that cover this share of the picture stand for it; the rest is taken to be its paper's margin. */
const TRACED = 0.25;

/**
 * What of a level must be on its sheet: all that is drawn, and the picture under it unless the rooms were traced from
 * it. Null for a level with nothing on it. Never without width or height.
 */
export function levelExtent(plan: Plan, survey: Survey, level: Id): Extent | null {
  const { rooms, all } = drawnPoints(plan, level);
  for (const way of survey.ways)
    if (way.level === level) all.push([way.from[0], way.from[1]], [way.to[0], way.to[1]]);
  const traced = around(rooms);
  for (const picture of onLevel(plan, 'backgrounds', level)) {
    if (picture.hidden) continue;
    const corners = shownCorners(picture);
    const whole = around(corners);
    if (!traced || !whole || area(traced) < TRACED * area(whole)) all.push(...corners);
  }
  const extent = around(all);
  if (!extent) return null;
  // A lone point still needs a floor to stand on.
  const grow = (from: number, to: number): [number, number] =>
    to - from >= 1000 ? [from, to] : [from - 500, to + 500];
  const [x0, x1] = grow(extent.x0, extent.x1);
  const [y0, y1] = grow(extent.y0, extent.y1);
  return { x0, y0, x1, y1 };
}
