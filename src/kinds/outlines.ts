import type { Mark, Style } from '../drawing/display.ts';
import type { Point } from '../geometry/point.ts';

/** Outlines of the symbols, in paper mm round the origin; the kind's two letters are written into them. */
const OUTLINE: Style = { stroke: 'ink', width: 0.3, fill: 'paper' };

const shape = (points: readonly Point[]): readonly Mark[] => [
  { op: 'line', closed: true, points, style: OUTLINE },
];

/** A plain box. */
export const box = () =>
  shape([
    [-2.9, -2],
    [2.9, -2],
    [2.9, 2],
    [-2.9, 2],
  ]);

/** A long box, for what hangs flat on a wall. */
export const wide = () =>
  shape([
    [-3.6, -1.8],
    [3.6, -1.8],
    [3.6, 1.8],
    [-3.6, 1.8],
  ]);

/** A box with its upper corners cut, for what gives out paper. */
export const cut = () =>
  shape([
    [-2.9, -1],
    [-1.9, -2],
    [1.9, -2],
    [2.9, -1],
    [2.9, 2],
    [-2.9, 2],
  ]);

/** A box with blunt ends, for what guests touch or hold. */
export const round = () =>
  shape([
    [-2.1, -2],
    [2.1, -2],
    [3, -1.1],
    [3, 1.1],
    [2.1, 2],
    [-2.1, 2],
    [-3, 1.1],
    [-3, -1.1],
  ]);

/** A disc, for what sits on the ceiling. */
export const disc = (): readonly Mark[] => [
  { op: 'circle', at: [0, 0], radius: 2.7, style: OUTLINE },
];
