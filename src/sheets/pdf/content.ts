import type { Point } from '../../geometry/point.ts';

/** The text of a PDF content stream: operators with their numbers, in points from the page's lower left corner. */

/** Points in a millimetre: 72 to the inch. */
export const PT = 72 / 25.4;

/** An affine map as PDF writes it: x' = a x + c y + e, y' = b x + d y + f. */
export type Matrix = readonly [number, number, number, number, number, number];

export const apply = (m: Matrix, [x, y]: Point): Point => [
  m[0] * x + m[2] * y + m[4],
  m[1] * x + m[3] * y + m[5],
];

/** First `inner`, then `outer`. */
export const compose = (outer: Matrix, inner: Matrix): Matrix => [
  outer[0] * inner[0] + outer[2] * inner[1],
  outer[1] * inner[0] + outer[3] * inner[1],
  outer[0] * inner[2] + outer[2] * inner[3],
  outer[1] * inner[2] + outer[3] * inner[3],
  outer[0] * inner[4] + outer[2] * inner[5] + outer[4],
  outer[1] * inner[4] + outer[3] * inner[5] + outer[5],
];

/** How many points one list unit is. */
export const unitOf = (m: Matrix): number => Math.hypot(m[0], m[1]);

/** A number to a thousandth of a point, as a PDF may hold it: never an exponent, never a negative zero. */
export function num(value: number): string {
  if (!Number.isFinite(value)) throw new Error(`a drawing has a coordinate ${value}`);
  const rounded = Math.round(value * 1000) / 1000;
  return rounded === 0 ? '0' : String(rounded);
}

export const pair = ([x, y]: Point): string => `${num(x)} ${num(y)}`;

/** `#rrggbb` as three shares of one. */
export const rgb = (colour: string): string =>
  [1, 3, 5].map((i) => num(Number.parseInt(colour.slice(i, i + 2), 16) / 255)).join(' ');

/** The path of a chain of points. */
export const pathOf = (points: readonly Point[], closed: boolean): string =>
  points.map((p, i) => `${pair(p)} ${i === 0 ? 'm' : 'l'}`).join(' ') + (closed ? ' h' : '');

/** Distance of the control points of a quarter circle, as a share of the radius. */
const KAPPA = 0.5522847498;

/** The path of a circle, in four curves. */
export function circleOf([x, y]: Point, r: number): string {
  const k = r * KAPPA;
  const curve = (a: Point, b: Point, c: Point): string => `${pair(a)} ${pair(b)} ${pair(c)} c`;
  return [
    `${pair([x + r, y])} m`,
    curve([x + r, y + k], [x + k, y + r], [x, y + r]),
    curve([x - k, y + r], [x - r, y + k], [x - r, y]),
    curve([x - r, y - k], [x - k, y - r], [x, y - r]),
    curve([x + k, y - r], [x + r, y - k], [x + r, y]),
    'h',
  ].join(' ');
}
