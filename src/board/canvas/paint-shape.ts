import type { Hatch, Style } from '../../drawing/display.ts';
import { hatchLines } from '../../drawing/hatch.ts';
import type { Point } from '../../geometry/point.ts';
import { at, type Frame, type Of, type Paint } from './paint.ts';

/** Lays the path of a chain of places. */
export function trace(
  context: CanvasRenderingContext2D,
  points: readonly Point[],
  frame: Frame,
  closed: boolean,
): void {
  context.beginPath();
  points.forEach((p, i) => {
    const [x, y] = at(frame, p);
    if (i === 0) context.moveTo(x, y);
    else context.lineTo(x, y);
  });
  if (closed) context.closePath();
}

interface Bounds {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

function boundsOf(points: readonly Point[], frame: Frame): Bounds {
  let x0 = Number.POSITIVE_INFINITY;
  let y0 = Number.POSITIVE_INFINITY;
  let x1 = Number.NEGATIVE_INFINITY;
  let y1 = Number.NEGATIVE_INFINITY;
  for (const p of points) {
    const [x, y] = at(frame, p);
    if (x < x0) x0 = x;
    if (y < y0) y0 = y;
    if (x > x1) x1 = x;
    if (y > y1) y1 = y;
  }
  return { x0, y0, x1, y1 };
}

const SLACK = 12;

const outside = (b: Bounds, { width, height }: Paint): boolean =>
  b.x1 < -SLACK || b.y1 < -SLACK || b.x0 > width + SLACK || b.y0 > height + SLACK;

/** A line or a filled outline, with its hatch. */
export function paintLine(paint: Paint, mark: Of<'line'>, frame: Frame): void {
  const bounds = boundsOf(mark.points, frame);
  if (outside(bounds, paint)) return;
  const closed = mark.closed ?? false;
  trace(paint.context, mark.points, frame, closed);
  finish(paint, mark.style, frame, bounds, () => trace(paint.context, mark.points, frame, closed));
}

/** A circle or a disc. */
export function paintCircle(paint: Paint, mark: Of<'circle'>, frame: Frame): void {
  const [x, y] = at(frame, mark.at);
  const r = mark.radius * frame.scale;
  const bounds = { x0: x - r, y0: y - r, x1: x + r, y1: y + r };
  if (outside(bounds, paint)) return;
  const path = () => {
    paint.context.beginPath();
    paint.context.arc(x, y, r, 0, 2 * Math.PI);
  };
  path();
  finish(paint, mark.style, frame, bounds, path);
}

/** Hairlines never vanish, px. */
const LEAST_LINE = 0.6;

/** The width of a line, px, from its width in paper mm. */
export const lineWidth = (width: number | undefined, paper: number): number =>
  Math.max(LEAST_LINE, (width ?? 0.25) * paper);

/** Fill, hatch and outline of the path that was traced. */
function finish(paint: Paint, style: Style, frame: Frame, bounds: Bounds, again: () => void): void {
  const { context, palette, paper } = paint;
  const before = context.globalAlpha;
  if (style.opacity !== undefined) context.globalAlpha = before * style.opacity;
  if (style.fill) {
    context.fillStyle = palette[style.fill];
    context.fill();
  }
  if (style.stroke) {
    context.strokeStyle = palette[style.stroke];
    const width = lineWidth(style.width, paper);
    if (style.hatch) {
      hatch(paint, style.hatch, Math.min(width, 0.2 * paper), frame, bounds);
      again();
    }
    context.lineWidth = width;
    context.setLineDash((style.dash ?? []).map((d) => d * paper));
    context.lineJoin = 'round';
    context.lineCap = style.dash ? 'butt' : 'round';
    context.stroke();
    if (style.dash) context.setLineDash([]);
  }
  context.globalAlpha = before;
}

/** Lines over a shape, on one grid that lies still on the paper while the view moves. */
function hatch(paint: Paint, kind: Hatch, width: number, frame: Frame, bounds: Bounds): void {
  const { context, paper } = paint;
  const [ox, oy] = [frame.x, frame.y];
  // Only what is seen is hatched; the spacing still follows from the whole shape.
  const whole = { w: (bounds.x1 - bounds.x0) / paper, h: (bounds.y1 - bounds.y0) / paper };
  const x0 = (Math.max(bounds.x0, -SLACK) - ox) / paper;
  const y0 = (Math.max(bounds.y0, -SLACK) - oy) / paper;
  const box = {
    x0,
    y0,
    x1: (Math.min(bounds.x1, paint.width + SLACK) - ox) / paper,
    y1: (Math.min(bounds.y1, paint.height + SLACK) - oy) / paper,
  };
  const narrow = Math.min(whole.w, whole.h) < 3 && Math.min(box.x1 - box.x0, box.y1 - box.y0) < 3;
  const wide = narrow
    ? box
    : { ...box, x1: Math.max(box.x1, x0 + 3), y1: Math.max(box.y1, y0 + 3) };
  context.save();
  context.clip();
  context.beginPath();
  for (const [a, b] of hatchLines(kind, wide)) {
    context.moveTo(ox + a[0] * paper, oy + a[1] * paper);
    context.lineTo(ox + b[0] * paper, oy + b[1] * paper);
  }
  context.lineWidth = kind === 'dots' ? width * 2 : Math.max(LEAST_LINE * 0.8, width);
  context.lineCap = kind === 'dots' ? 'round' : 'butt';
  context.stroke();
  context.restore();
}
