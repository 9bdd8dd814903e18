import { addUnder } from '../base/group.ts';
import type { Point } from '../geometry/point.ts';

/** A box along the axes, in the unit of whoever made it. */
export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** An upright box round its middle, in the unit of its sizes. */
export const boxAround = ([x, y]: Point, width: number, height: number): Box => ({
  x0: x - width / 2,
  y0: y - height / 2,
  x1: x + width / 2,
  y1: y + height / 2,
});

/** Whether two boxes share an area; touching edges share none. */
export const overlaps = (a: Box, b: Box): boolean =>
  a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;

/** Boxes by the cells that they lie over, to find quickly what is under another. */
export interface BoxGrid {
  readonly cells: Map<number, Box[]>;
  /** What lies over more cells than it is worth entering it in: looked at each time. */
  readonly wide: Box[];
}

/** A grid in which nothing lies yet. */
export const makeGrid = (): BoxGrid => ({ cells: new Map(), wide: [] });

/** Whether nothing lies in a grid. */
export const isEmpty = ({ cells, wide }: BoxGrid): boolean => cells.size === 0 && wide.length === 0;

const CELL = 8;
/** More cells than any sheet has: a wall that is kilometres thick would else fill the memory. */
const MOST_CELLS = 20_000;

const cellKey = (cx: number, cy: number): number => cx * 65_536 + cy;

const cellOf = (v: number): number => Math.floor(v / CELL);

/** Enters a box. */
export function addTo({ cells, wide }: BoxGrid, box: Box): void {
  const [x0, y0, x1, y1] = [cellOf(box.x0), cellOf(box.y0), cellOf(box.x1), cellOf(box.y1)];
  if ((x1 - x0 + 1) * (y1 - y0 + 1) > MOST_CELLS) {
    wide.push(box);
    return;
  }
  for (let x = x0; x <= x1; x++) for (let y = y0; y <= y1; y++) addUnder(cells, cellKey(x, y), box);
}

/** Whether a box meets any of those in a grid, apart from those that overlap `own`. */
export function hits({ cells, wide }: BoxGrid, box: Box, own: Box | null = null): boolean {
  const met = (other: Box): boolean =>
    overlaps(box, other) && !(own !== null && overlaps(other, own));
  if (wide.some(met)) return true;
  const x1 = cellOf(box.x1);
  const y1 = cellOf(box.y1);
  for (let x = cellOf(box.x0); x <= x1; x++)
    for (let y = cellOf(box.y0); y <= y1; y++) if (cells.get(cellKey(x, y))?.some(met)) return true;
  return false;
}
