import type { Id } from '../base/ids.ts';
import { dimensionLine } from '../drawing/opening-marks.ts';
import type { Point } from '../geometry/point.ts';
import { risersOn } from '../plan/levels.ts';
import { shownCorners } from '../plan/picture-place.ts';
import { onLevel, type Plan } from '../plan/plan.ts';
import { placesOfRow } from '../plan/row-places.ts';
import { paperPixels } from './scene.ts';
import { type SessionApi, shownPlan, toBoard, toPlan, type Viewport } from './session.ts';

/** A box in the plan, mm. */
export interface Extent {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Closest and farthest zoom, screen pixels for one mm: about 2 px a mm, and a 3 km site on a screen. */
const CLOSEST = 2;
const FARTHEST = 0.0003;

const corners = function* (plan: Plan, level: Id): Iterable<Point> {
  for (const wall of onLevel(plan, 'walls', level)) yield* [wall.a, wall.b];
  for (const zone of onLevel(plan, 'zones', level)) yield* zone.outline;
  for (const keepout of onLevel(plan, 'keepouts', level)) yield* keepout.outline;
  for (const way of onLevel(plan, 'pathways', level)) yield* way.points;
  for (const table of ['closets', 'devices', 'outlets', 'powers'] as const)
    for (const row of onLevel(plan, table, level)) yield row.at;
  for (const { at } of onLevel(plan, 'notes', level)) yield at;
  for (const row of onLevel(plan, 'dimensions', level)) yield* dimensionLine(row);
  for (const riser of risersOn(plan, level)) yield riser.at;
  for (const pin of onLevel(plan, 'pins', level)) yield* pin.points;
  for (const picture of onLevel(plan, 'backgrounds', level))
    if (!picture.hidden) yield* shownCorners(picture);
};

/** The box of everything on a level; null where there is nothing. */
export function planExtent(plan: Plan, level: Id): Extent | null {
  let extent: Extent | null = null;
  for (const [x, y] of corners(plan, level))
    extent = extent
      ? {
          x0: Math.min(extent.x0, x),
          y0: Math.min(extent.y0, y),
          x1: Math.max(extent.x1, x),
          y1: Math.max(extent.y1, y),
        }
      : { x0: x, y0: y, x1: x, y1: y };
  return extent;
}

/** Room that a fitted drawing keeps from the board's edges, px: the rulers at the top and the left, and air. */
const RULERS = 20;
const AIR = 22;
/** Symbols and counts on outer walls reach over them, paper mm. */
const OVER = 12;

/** The view that shows an extent whole and in the middle; never closer than a room. */
export function fitted(view: Viewport, extent: Extent): Viewport {
  const width = Math.max(extent.x1 - extent.x0, 3000);
  const height = Math.max(extent.y1 - extent.y0, 3000);
  const within = (air: number): number =>
    clampScale(
      Math.min(
        Math.max(view.width - RULERS - 2 * air, 80) / width,
        Math.max(view.height - RULERS - 2 * air, 80) / height,
      ),
    );
  const scale = within(Math.max(AIR, OVER * paperPixels(within(AIR))));
  return {
    ...view,
    scale,
    left: (extent.x0 + extent.x1) / 2 - (view.width + RULERS) / 2 / scale,
    top: (extent.y0 + extent.y1) / 2 - (view.height + RULERS) / 2 / scale,
  };
}

/** A zoom within what the board shows. */
export const clampScale = (scale: number): number => Math.min(CLOSEST, Math.max(FARTHEST, scale));

/** The view closer or farther by a factor, with the place under (x, y) px staying there. */
export function zoomed(view: Viewport, factor: number, x: number, y: number): Viewport {
  const [px, py] = toPlan(view, x, y);
  const scale = clampScale(view.scale * factor);
  return { ...view, scale, left: px - x / scale, top: py - y / scale };
}

/** Whether an extent lies in a view, clear of its rulers. */
function within(view: Viewport, { x0, y0, x1, y1 }: Extent): boolean {
  const [left, top] = toBoard(view, [x0, y0]);
  const [right, bottom] = toBoard(view, [x1, y1]);
  return left >= RULERS && top >= RULERS && right <= view.width && bottom <= view.height;
}

/**
 * The view on a board that has become another size, as when a panel beside it opens or shuts: what was fitted is fitted
 * again, what was seen whole is seen whole; else the place at the upper left stays.
 */
export function resized(
  view: Viewport,
  size: Pick<Viewport, 'width' | 'height'>,
  extent: Extent | null,
): Viewport {
  const now = { ...view, ...size };
  if (extent === null) return now;
  const lost = within(view, extent) && !within(now, extent);
  return lost || isFitted(view, extent) ? fitted(now, extent) : now;
}

/** Whether a view is as it was fitted, to the pixel. */
function isFitted(view: Viewport, extent: Extent): boolean {
  const fit = fitted(view, extent);
  const apart = Math.max(Math.abs(fit.left - view.left), Math.abs(fit.top - view.top));
  return Math.abs(fit.scale / view.scale - 1) < 1e-6 && apart * view.scale < 0.5;
}

/** Zooms to fit the open level; an empty level shows 20 m from its origin. */
export function fitPlan(session: SessionApi): void {
  const state = session.getState();
  const extent = planExtent(shownPlan(state), state.level) ?? {
    x0: 0,
    y0: 0,
    x1: 20_000,
    y1: 13_000,
  };
  state.actions.set({ viewport: fitted(state.viewport, extent) });
}

/** Zooms to fit what is selected; answers whether there was something. */
export function fitSelection(session: SessionApi): boolean {
  const state = session.getState();
  const plan = shownPlan(state);
  const places = state.selection.flatMap((ref) => {
    const opening = ref.table === 'openings' ? plan.tables.openings.get(ref.id) : undefined;
    const jack = ref.table === 'jacks' ? plan.tables.jacks.get(ref.id) : undefined;
    if (jack) return placesOfRow(plan, { table: 'outlets', id: jack.outlet });
    return placesOfRow(plan, opening ? { table: 'walls', id: opening.wall } : ref);
  });
  if (places.length === 0) return false;
  const xs = places.map((p) => p[0]);
  const ys = places.map((p) => p[1]);
  const extent = {
    x0: Math.min(...xs),
    y0: Math.min(...ys),
    x1: Math.max(...xs),
    y1: Math.max(...ys),
  };
  state.actions.set({ viewport: fitted(state.viewport, extent) });
  return true;
}

/** Screen pixels of a paper millimetre: a screen counts 96 to the inch. */
const PAPER_PIXEL = 96 / 25.4;

/** How many times larger the building is than what is seen of it, on a screen of 96 px an inch. */
export const ratioOf = (scale: number): number => PAPER_PIXEL / scale;

/** Zooms to a scale about the middle of the board, as near as the board zooms. */
export function zoomToRatio(session: SessionApi, ratio: number): void {
  zoomBy(session, PAPER_PIXEL / ratio / session.getState().viewport.scale);
}

/** Zooms about the middle of the board. */
export function zoomBy(session: SessionApi, factor: number): void {
  const { viewport, actions } = session.getState();
  actions.set({ viewport: zoomed(viewport, factor, viewport.width / 2, viewport.height / 2) });
}

/** Brings a place into the middle of the board, at the zoom that is. */
export function centreOn(session: SessionApi, at: Point): void {
  const { viewport, actions } = session.getState();
  const { scale, width, height } = viewport;
  actions.set({
    viewport: { ...viewport, left: at[0] - width / 2 / scale, top: at[1] - height / 2 / scale },
  });
}
