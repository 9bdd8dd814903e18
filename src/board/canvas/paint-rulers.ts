import type { Units } from '../../base/units.ts';
import type { Point } from '../../geometry/point.ts';
import { division, ticks } from '../rulers.ts';
import type { Viewport } from '../session.ts';
import { deviceRatio, type Paint, SCREEN } from './paint.ts';
import type { BoardTheme } from './paint-board.ts';
import { paintMarks } from './painter.ts';

/** Breadth of the rulers along the top and the left, px. */
export const RULER = 20;
/** Their inner edge is drawn on the line between them and the board. */
const EDGE = 2;

/** What the rulers show. */
export interface Ruled {
  readonly units: Units;
  readonly theme: BoardTheme;
  readonly view: Viewport;
  /** Where the pointer is, px. */
  readonly pointer: Point | null;
}

export interface Rulers {
  paint(paint: Paint, ruled: Ruled): void;
}

/**
 * Rulers along the top and the left edge, with the pointer's place on both. Their figures are painted once for a view:
 * what lies over the drawing is painted anew with every move of the pointer.
 *
 * @param canvas makes a canvas that is on no page
 */
export function createRulers(canvas: () => HTMLCanvasElement): Rulers {
  let of: readonly unknown[] = [];
  let strips: readonly HTMLCanvasElement[] = [];

  /** While the view zooms, figures are painted in every frame: on the same canvas, as long as that has its size. */
  function strip(paint: Paint, ruled: Ruled, ratio: number, upright: boolean) {
    const broad = RULER + EDGE;
    const [width, height] = upright ? [broad, paint.height] : [paint.width, broad];
    const [across, down] = [Math.ceil(width * ratio), Math.ceil(height * ratio)];
    const there = strips[upright ? 0 : 1];
    const same = there?.width === across && there.height === down;
    const picture = same ? there : canvas();
    if (!same) {
      picture.width = across;
      picture.height = down;
    }
    const context = picture.getContext('2d')!;
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    context.clearRect(0, 0, width, height);
    paintEdge({ ...paint, context }, ruled, upright);
    return picture;
  }

  return {
    paint(paint, ruled) {
      const { units, theme, view, pointer } = ruled;
      const ratio = deviceRatio(paint.context);
      const now = [units, theme, view, ratio];
      if (now.some((value, i) => value !== of[i]))
        strips = [true, false].map((upright) => strip(paint, ruled, ratio, upright));
      of = now;
      for (const picture of strips)
        paint.context.drawImage(picture, 0, 0, picture.width / ratio, picture.height / ratio);
      if (pointer) paintPointer(paint, pointer);
    },
  };
}

/** One of the rulers, with its inner edge and the corner, where the units stand. */
function paintEdge(paint: Paint, { units, view }: Ruled, upright: boolean): void {
  const { context, palette, width, height } = paint;
  context.fillStyle = palette.desk;
  context.fillRect(0, 0, upright ? RULER : width, upright ? height : RULER);
  paintMarks(
    paint,
    [
      {
        op: 'line',
        points: [
          [RULER, height],
          [RULER, RULER],
          [width, RULER],
        ],
        style: { stroke: 'faint', width: 0.2 },
      },
    ],
    SCREEN,
  );
  context.fillStyle = palette.soft;
  context.strokeStyle = palette.soft;
  context.lineWidth = 1;
  context.font = '10px "Atkinson Hyperlegible Mono", ui-monospace, monospace';
  if (upright) edge(context, units, view.scale, view.top, height, true);
  else edge(context, units, view.scale, view.left, width, false);
  context.fillStyle = palette.desk;
  context.fillRect(0, 0, RULER, RULER);
  context.fillStyle = palette.soft;
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  context.fillText(units, RULER / 2, RULER / 2 + 0.5);
}

function paintPointer({ context, palette }: Paint, [x, y]: Point): void {
  context.fillStyle = palette.pick;
  if (x > RULER) context.fillRect(Math.round(x), 0, 1, RULER);
  if (y > RULER) context.fillRect(0, Math.round(y), RULER, 1);
}

function edge(
  context: CanvasRenderingContext2D,
  units: Units,
  scale: number,
  start: number,
  length: number,
  upright: boolean,
): void {
  const { major, minor } = division(units, scale);
  const half = Math.round(major / minor) % 2 === 0;
  context.save();
  if (upright) {
    // The left ruler is the top one turned by a quarter.
    context.translate(0, 0);
    context.transform(0, 1, 1, 0, 0, 0);
  }
  context.beginPath();
  ticks(units, scale, start, length).forEach(({ at, label: words }) => {
    if (at < RULER) return;
    const x = Math.round(at) + 0.5;
    const tall = words !== null ? 9 : half && isHalf(at / scale + start, major) ? 6 : 4;
    context.moveTo(x, RULER);
    context.lineTo(x, RULER - tall);
  });
  context.stroke();
  context.restore();
  context.textBaseline = 'alphabetic';
  for (const { at, label: words } of ticks(units, scale, start, length)) {
    if (words === null || at < RULER + 4) continue;
    if (!upright) {
      context.textAlign = 'left';
      context.fillText(words, Math.round(at) + 3, RULER - 9);
      continue;
    }
    context.save();
    context.translate(RULER - 9, Math.round(at) - 3);
    context.rotate(-Math.PI / 2);
    context.textAlign = 'left';
    context.fillText(words, 0, 0);
    context.restore();
  }
}

const isHalf = (mm: number, major: number): boolean =>
  Math.abs(((mm / major) % 1) - 0.5) < 0.01 || Math.abs(((mm / major) % 1) + 0.5) < 0.01;
