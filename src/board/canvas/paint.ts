import type { Mark } from '../../drawing/display.ts';
import type { Palette } from '../../drawing/palette.ts';
import type { Point } from '../../geometry/point.ts';
import type { PicturePiece, PictureWant } from './pictures.ts';

/** What a painter draws on, and with what. */
export interface Paint {
  readonly context: CanvasRenderingContext2D;
  readonly palette: Palette;
  /** How strong pictures are, 0 to 1; the palette is faded already. */
  readonly strength: number;
  /** Pictures but photos are painted as negatives, light lines on dark paper, so that what is drawn over them reads as ever. */
  readonly negative?: boolean;
  /** Screen pixels for one paper mm. */
  readonly paper: number;
  /** Size of the board, px: what lies outside is not drawn. */
  readonly width: number;
  readonly height: number;
  /** What to draw of a picture; nothing while it is loading. */
  picture(want: PictureWant): readonly PicturePiece[];
}

/** From list units to the screen: turned, scaled, moved. */
export interface Frame {
  readonly scale: number;
  readonly cos: number;
  readonly sin: number;
  readonly x: number;
  readonly y: number;
}

/** A mark of one sort. */
export type Of<Op extends Mark['op']> = Extract<Mark, { op: Op }>;

/** The frame of a view of the plan: `scale` px for one mm, the place (left, top) in the corner. */
export const planFrame = (view: { scale: number; left: number; top: number }): Frame => ({
  scale: view.scale,
  cos: 1,
  sin: 0,
  x: -view.left * view.scale,
  y: -view.top * view.scale,
});

/** The frame in which list units are screen pixels. */
export const SCREEN: Frame = { scale: 1, cos: 1, sin: 0, x: 0, y: 0 };

/** A place of the list on the screen. */
export const at = (f: Frame, [x, y]: Point): Point => [
  f.x + f.scale * (x * f.cos - y * f.sin),
  f.y + f.scale * (x * f.sin + y * f.cos),
];

/** Pixels of the canvas for one of the page. */
export const deviceRatio = (context: CanvasRenderingContext2D): number => {
  const { a, b } = context.getTransform();
  return Math.hypot(a, b) || 1;
};
