import type { Id } from '../base/ids.ts';
import type { Point } from '../geometry/point.ts';
import { type Background, onLevel, type Plan } from './plan.ts';

/** Where the middle of a whole picture lies in the plan; not rounded. */
export function middleOf({ width, height, mmPerPixel: s, origin, turn }: Background): Point {
  const [w, h] = turn % 180 === 0 ? [width, height] : [height, width];
  return [origin[0] + (w * s) / 2, origin[1] + (h * s) / 2];
}

function tilted(at: Point, about: Point, degrees: number): Point {
  if (degrees === 0) return at;
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [dx, dy] = [at[0] - about[0], at[1] - about[1]];
  return [about[0] + dx * cos - dy * sin, about[1] + dx * sin + dy * cos];
}

/** Where a place in the plan lies in a picture, in picture pixels, whatever way the picture is turned. */
export function toPicture(picture: Background, at: Point): Point {
  const upright = tilted(at, middleOf(picture), -picture.tilt);
  const u = (upright[0] - picture.origin[0]) / picture.mmPerPixel;
  const v = (upright[1] - picture.origin[1]) / picture.mmPerPixel;
  switch (picture.turn) {
    case 90:
      return [v, picture.height - u];
    case 180:
      return [picture.width - u, picture.height - v];
    case 270:
      return [picture.width - v, u];
    default:
      return [u, v];
  }
}

/** Where a picture pixel lies in the plan; not rounded. */
export function fromPicture(picture: Background, [px, py]: Point): Point {
  const { width, height, mmPerPixel: s, origin, turn, tilt } = picture;
  const at = (u: number, v: number): Point =>
    tilted([origin[0] + u * s, origin[1] + v * s], middleOf(picture), tilt);
  if (turn === 90) return at(height - py, px);
  if (turn === 180) return at(width - px, height - py);
  if (turn === 270) return at(py, width - px);
  return at(px, py);
}

/** The part of a picture that is shown, in picture pixels. */
export const shownPart = ({ crop, width, height }: Background): NonNullable<Background['crop']> =>
  crop ?? { x0: 0, y0: 0, x1: width, y1: height };

/** The corners of what is shown of a picture, in the plan; from the picture's own upper left corner round with the clock. */
export function shownCorners(picture: Background): readonly Point[] {
  const { x0, y0, x1, y1 } = shownPart(picture);
  const corners: Point[] = [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  return corners.map((pixel) => fromPicture(picture, pixel));
}

/** Whether what is shown of a picture lies over or under a place in the plan. */
export function covers(picture: Background, at: Point): boolean {
  const [x, y] = toPicture(picture, at);
  const { x0, y0, x1, y1 } = shownPart(picture);
  return x >= x0 && x <= x1 && y >= y0 && y <= y1;
}

/** The picture moved so that one of its pixels lies at a place; its origin is rounded to whole mm. */
export function laidAt(picture: Background, pixel: Point, at: Point): Background {
  const now = fromPicture(picture, pixel);
  const [x, y] = picture.origin;
  const origin = [Math.round(x + at[0] - now[0]), Math.round(y + at[1] - now[1])] as const;
  return { ...picture, origin };
}

/** The backgrounds of a level from the lowest to the topmost. */
export const inLayers = (plan: Plan, level: Id): Background[] =>
  onLevel(plan, 'backgrounds', level).sort((a, b) => a.order - b.order);

/** Whether somebody has said how large a picture is. */
export const hasScale = ({ scale, ratio }: Background): boolean => scale !== null || ratio !== null;

/** How many times larger the building is than the picture on its paper; null where the paper's size is not known. */
export const ratioOf = ({ paper, width, mmPerPixel }: Background): number | null =>
  paper === null ? null : (mmPerPixel * width) / paper;
