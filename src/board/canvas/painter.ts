import {
  type Hatch,
  type Ink,
  type Mark,
  type Part,
  type Style,
  WHOLE,
} from '../../drawing/display.ts';
import { hatchLines } from '../../drawing/hatch.ts';
import { CAP_HEIGHT } from '../../drawing/measure.ts';
import type { Palette } from '../../drawing/palette.ts';
import type { Point } from '../../geometry/point.ts';
import type { PicturePiece, PictureWant } from './pictures.ts';

/** What a painter draws on, and with what. */
export interface Paint {
  readonly context: CanvasRenderingContext2D;
  readonly palette: Palette;
  /** How strong pictures are, 0 to 1; the palette is faded already. */
  readonly strength: number;
  /** Pictures are painted as negatives, light lines on dark paper, so that what is drawn over them reads as ever. */
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

type Of<Op extends Mark['op']> = Extract<Mark, { op: Op }>;

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

const at = (f: Frame, [x, y]: Point): Point => [
  f.x + f.scale * (x * f.cos - y * f.sin),
  f.y + f.scale * (x * f.sin + y * f.cos),
];

/** Draws a display list. */
export function paintMarks(paint: Paint, marks: readonly Mark[], frame: Frame): void {
  for (const mark of marks) {
    switch (mark.op) {
      case 'line':
        paintLine(paint, mark, frame);
        break;
      case 'circle':
        paintCircle(paint, mark, frame);
        break;
      case 'text':
        paintText(paint, mark, frame);
        break;
      case 'symbol':
        paintSymbol(paint, mark, frame);
        break;
      case 'group':
        paintGroup(paint, mark, frame);
        break;
      case 'picture':
        paintPicture(paint, mark, frame);
        break;
    }
  }
}

/** Symbols reach at most this far from their place, paper mm. */
const SYMBOL_REACH = 40;

function paintSymbol(paint: Paint, mark: Of<'symbol'>, frame: Frame): void {
  const [x, y] = at(frame, mark.at);
  const reach = SYMBOL_REACH * paint.paper;
  if (x < -reach || y < -reach || x > paint.width + reach || y > paint.height + reach) return;
  const angle = ((mark.turn ?? 0) * Math.PI) / 180;
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  paintMarks(paint, mark.marks, { scale: paint.paper, cos, sin, x, y });
}

function paintGroup(paint: Paint, mark: Of<'group'>, frame: Frame): void {
  const [x, y] = at(frame, mark.at);
  const inner: Frame = { ...frame, scale: frame.scale * mark.scale, x, y };
  const { context } = paint;
  context.save();
  if (mark.clip) {
    trace(context, mark.clip, inner, true);
    context.clip();
  }
  paintMarks(paint, mark.marks, inner);
  context.restore();
}

function trace(
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

function paintLine(paint: Paint, mark: Of<'line'>, frame: Frame): void {
  const bounds = boundsOf(mark.points, frame);
  if (outside(bounds, paint)) return;
  const closed = mark.closed ?? false;
  trace(paint.context, mark.points, frame, closed);
  finish(paint, mark.style, frame, bounds, () => trace(paint.context, mark.points, frame, closed));
}

function paintCircle(paint: Paint, mark: Of<'circle'>, frame: Frame): void {
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

const FACES = {
  sans: '"Atkinson Hyperlegible Next", system-ui, sans-serif',
  mono: '"Atkinson Hyperlegible Mono", ui-monospace, monospace',
} as const;

/** Type smaller than this cannot be read and only makes the drawing grey, px. */
const LEAST_TYPE = 4;

function paintText(paint: Paint, mark: Of<'text'>, frame: Frame): void {
  const { context, palette, paper } = paint;
  const size = mark.size * paper;
  if (size < LEAST_TYPE || mark.text === '') return;
  const [x, y] = at(frame, mark.at);
  if (x < -600 || y < -200 || x > paint.width + 600 || y > paint.height + 200) return;
  const turn = ((mark.turn ?? 0) * Math.PI) / 180 + Math.atan2(frame.sin, frame.cos);
  context.font = `${mark.bold ? 700 : 400} ${size}px ${FACES[mark.face ?? 'sans']}`;
  context.fontKerning = 'none';
  context.textAlign = mark.align === 'centre' ? 'center' : (mark.align ?? 'left');
  context.textBaseline = 'alphabetic';
  const drop = mark.vertical === 'middle' ? (CAP_HEIGHT / 2) * size : 0;
  if (turn !== 0) {
    context.save();
    context.translate(x, y);
    context.rotate(turn);
    write(paint, mark.text, 0, drop, mark.ink, mark.halo);
    context.restore();
  } else write(paint, mark.text, x, y + drop, mark.ink, mark.halo);

  function write(to: Paint, text: string, tx: number, ty: number, ink: Ink, halo?: Ink): void {
    if (halo) {
      to.context.strokeStyle = palette[halo];
      to.context.lineWidth = 0.7 * paper;
      to.context.lineJoin = 'round';
      to.context.strokeText(text, tx, ty);
    }
    to.context.fillStyle = palette[ink];
    to.context.fillText(text, tx, ty);
  }
}

/** A picture with its seen upper left corner at its place, tilted about its middle; while it is loading, its border. */
function paintPicture(paint: Paint, mark: Of<'picture'>, frame: Frame): void {
  const { context, palette } = paint;
  const across = mark.turn === 90 || mark.turn === 270;
  const [x, y] = at(frame, mark.at);
  const w = mark.width * frame.scale;
  const h = mark.height * frame.scale;
  const [seenW, seenH] = across ? [h, w] : [w, h];
  const middle: Point = [x + seenW / 2, y + seenH / 2];
  const angle = ((mark.turn + (mark.tilt ?? 0)) * Math.PI) / 180;
  const shown = mark.part ?? WHOLE;
  const seen = seenPart(paint, middle, angle, w, h, shown);
  if (!seen) return;
  const ratio = deviceRatio(context);
  const pieces = paint.picture({
    key: mark.asset,
    place: mark.at.join(),
    seen,
    width: w * ratio,
    height: h * ratio,
  });
  const [cos, sin] = [Math.abs(Math.cos(angle)), Math.abs(Math.sin(angle))];
  const around = [w * cos + h * sin, w * sin + h * cos] as const;
  if (paint.negative && pieces.length > 0) invert(paint, middle, around);
  context.save();
  context.translate(...middle);
  context.rotate(angle);
  const box = (of: Part) =>
    [(of.x0 - 0.5) * w, (of.y0 - 0.5) * h, (of.x1 - of.x0) * w, (of.y1 - of.y0) * h] as const;
  if (pieces.length === 0) {
    context.strokeStyle = palette.faint;
    context.lineWidth = 1;
    context.strokeRect(...box(shown));
  }
  context.globalAlpha *= mark.opacity * paint.strength;
  context.imageSmoothingQuality = 'high';
  // Only what is seen of the shown part: a finer piece takes the place of what lies under it.
  for (const [i, { image, part }] of pieces.entries()) {
    const over = pieces[i + 1]?.part;
    for (const rest of over ? without(overlap(part, shown), over) : [overlap(part, shown)]) {
      const own = overlap(rest, part);
      if (own.x1 <= own.x0 || own.y1 <= own.y0) continue;
      const sx = image.width / (part.x1 - part.x0);
      const sy = image.height / (part.y1 - part.y0);
      context.drawImage(
        image,
        (own.x0 - part.x0) * sx,
        (own.y0 - part.y0) * sy,
        (own.x1 - own.x0) * sx,
        (own.y1 - own.y0) * sy,
        ...box(own),
      );
    }
  }
  context.restore();
  if (paint.negative && pieces.length > 0) invert(paint, middle, around);
}

/**
 * Turns all that is painted in a box into its negative. Done before a picture and again after it, it leaves the paper
 * as it was and the picture as its negative, as strong as it was painted. The box ends on whole pixels of the canvas,
 * since a pixel that is covered in part would not come back.
 */
function invert({ context, width, height }: Paint, [x, y]: Point, [w, h]: Point): void {
  const ratio = deviceRatio(context);
  const x0 = Math.max(0, Math.floor((x - w / 2) * ratio)) / ratio;
  const y0 = Math.max(0, Math.floor((y - h / 2) * ratio)) / ratio;
  const x1 = Math.min(Math.ceil(width * ratio), Math.ceil((x + w / 2) * ratio)) / ratio;
  const y1 = Math.min(Math.ceil(height * ratio), Math.ceil((y + h / 2) * ratio)) / ratio;
  if (x1 <= x0 || y1 <= y0) return;
  context.save();
  context.globalCompositeOperation = 'difference';
  context.globalAlpha = 1;
  context.fillStyle = '#ffffff';
  context.fillRect(x0, y0, x1 - x0, y1 - y0);
  context.restore();
}

/** Pixels of the canvas for one of the page. */
export const deviceRatio = (context: CanvasRenderingContext2D): number => {
  const { a, b } = context.getTransform();
  return Math.hypot(a, b) || 1;
};

const overlap = (a: Part, b: Part): Part => ({
  x0: Math.max(a.x0, b.x0),
  y0: Math.max(a.y0, b.y0),
  x1: Math.min(a.x1, b.x1),
  y1: Math.min(a.y1, b.y1),
});

/** What is left of a part without another: up to four parts, above, left, right and below. */
function without(part: Part, hole: Part): Part[] {
  const cut = overlap(part, hole);
  if (cut.x1 <= cut.x0 || cut.y1 <= cut.y0) return [part];
  return [
    { ...part, y1: cut.y0 },
    { x0: part.x0, y0: cut.y0, x1: cut.x0, y1: cut.y1 },
    { x0: cut.x1, y0: cut.y0, x1: part.x1, y1: cut.y1 },
    { ...part, y0: cut.y1 },
  ];
}

/** What of the shown part of a picture lies on the board, in shares of the picture; null where nothing does. */
function seenPart(
  { width, height }: Paint,
  [mx, my]: Point,
  angle: number,
  w: number,
  h: number,
  shown: Part,
): Part | null {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const us: number[] = [];
  const vs: number[] = [];
  for (const [x, y] of [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ] as const) {
    us.push(((x - mx) * cos + (y - my) * sin) / w + 0.5);
    vs.push((-(x - mx) * sin + (y - my) * cos) / h + 0.5);
  }
  const part = overlap(shown, {
    x0: Math.min(...us),
    y0: Math.min(...vs),
    x1: Math.max(...us),
    y1: Math.max(...vs),
  });
  return part.x0 < part.x1 && part.y0 < part.y1 ? part : null;
}
