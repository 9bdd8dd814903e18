import type { Point } from '../geometry/point.ts';
import type { Hatch } from './display.ts';

/**
 * The lines of a hatch over a box, in paper mm; the caller clips them to the shape. They lie on one grid for the
 * whole paper, so that neighbouring shapes run into one another. Narrow shapes (walls) get closer lines.
 *
 * @returns pairs of ends; a dot is a line without length, for a pen with a round end
 */
export function hatchLines(
  hatch: Hatch,
  box: { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number },
): (readonly [Point, Point])[] {
  const narrow = Math.min(box.x1 - box.x0, box.y1 - box.y0);
  const step = Math.min(2.4, Math.max(0.9, narrow * 0.9));
  if (hatch === 'dots') return dots(box, step);
  const rising = slanted(box, step * Math.SQRT2);
  if (hatch === 'diagonal') return rising;
  // The other way: mirror the box, hatch it, and mirror the lines back.
  const flipped = slanted({ x0: -box.x1, y0: box.y0, x1: -box.x0, y1: box.y1 }, step * Math.SQRT2);
  const back = flipped.map(([a, b]): readonly [Point, Point] => [
    [-a[0], a[1]],
    [-b[0], b[1]],
  ]);
  return [...rising, ...back];
}

type Bounds = Parameters<typeof hatchLines>[1];

/** Lines at 45 degrees, x + y a multiple of `step`, cut at the box. */
function slanted(box: Bounds, step: number): (readonly [Point, Point])[] {
  const lines: (readonly [Point, Point])[] = [];
  const last = box.x1 + box.y1;
  for (let sum = Math.ceil((box.x0 + box.y0) / step) * step; sum <= last; sum += step) {
    const x0 = Math.max(box.x0, sum - box.y1);
    const x1 = Math.min(box.x1, sum - box.y0);
    lines.push([
      [x0, sum - x0],
      [x1, sum - x1],
    ]);
  }
  return lines;
}

function dots(box: Bounds, step: number): (readonly [Point, Point])[] {
  const points: (readonly [Point, Point])[] = [];
  for (let y = Math.ceil(box.y0 / step) * step; y <= box.y1; y += step)
    for (let x = Math.ceil(box.x0 / step) * step; x <= box.x1; x += step)
      points.push([
        [x, y],
        [x, y],
      ]);
  return points;
}
