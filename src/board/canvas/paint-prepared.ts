import type { Mark, Style } from '../../drawing/display.ts';
import type { Palette } from '../../drawing/palette.ts';
import type { Point } from '../../geometry/point.ts';
import { fadedPalette } from './faded.ts';
import type { Frame, Paint } from './paint.ts';
import type { BoardTheme } from './paint-board.ts';
import { lineWidth } from './paint-shape.ts';
import { paintMarks } from './painter.ts';
import { type Item, type Prepared, REACH, type Stamp } from './prepared.ts';

/** A part of the canvas, px. */
export interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** How prepared marks are painted. */
export interface Press {
  readonly context: OffscreenCanvasRenderingContext2D;
  readonly theme: BoardTheme;
  /** Screen pixels for one paper mm, and device pixels for one of the screen. */
  readonly paper: number;
  readonly ratio: number;
  readonly stamps: Stamps;
}

/** Lines that are painted in one stroke: longer paths cost more than they save. */
const TOGETHER = 60;

/** Paints what of prepared marks lies in an area, and nothing outside of it. Rows in `hidden` are left out. */
export function paintPrepared(
  press: Press,
  prepared: Prepared,
  frame: Frame,
  area: Area,
  hidden: ReadonlySet<string>,
): void {
  const { context, paper } = press;
  const palettes = prepared.strengths.map((strength) => fadedPalette(press.theme, strength));
  const strokes = strokesOn(context, frame, paper);
  const found = within(prepared, frame, area, REACH * paper);
  press.stamps.ready(found, prepared, palettes, press);
  for (const i of found) {
    const item = prepared.items[i]!;
    if (item.row !== null && hidden.has(item.row)) continue;
    const palette = palettes[item.layer]!;
    if (item.as === 'line') {
      strokes.add(item, palette);
      continue;
    }
    strokes.end();
    if (item.as === 'box') {
      const grow = item.grow === 0 ? 0 : lineWidth(item.grow * 2, paper) / 2;
      context.fillStyle = palette[item.ink];
      context.fillRect(
        frame.x + frame.scale * item.x0 - grow,
        frame.y + frame.scale * item.y0 - grow,
        frame.scale * (item.x1 - item.x0) + 2 * grow,
        frame.scale * (item.y1 - item.y0) + 2 * grow,
      );
    } else if (item.as === 'dot') {
      // A square of the same area.
      const r = item.radius * frame.scale * 0.886;
      context.fillStyle = palette[item.ink];
      context.fillRect(
        frame.x + frame.scale * item.at[0] - r,
        frame.y + frame.scale * item.at[1] - r,
        2 * r,
        2 * r,
      );
    } else if (item.as === 'stamp') press.stamps.put(item.stamp, item.at, frame, press);
    else paintMarks(paintOf(press, palette, area), [seen(item.mark, frame, paper)], frame);
  }
  strokes.end();
}

/** Whatever may reach into an area, in drawing order. */
function within(
  { items, index, placed, wide }: Prepared,
  frame: Frame,
  { x, y, width, height }: Area,
  reach: number,
): readonly number[] {
  const to = (px: number, origin: number) => (px - origin) / frame.scale;
  const found =
    index?.search(
      to(x - reach, frame.x),
      to(y - reach, frame.y),
      to(x + width + reach, frame.x),
      to(y + height + reach, frame.y),
    ) ?? [];
  if (found.length === placed.length) return items.map((_, i) => i);
  return [...found.map((i) => placed[i]!), ...wide].sort((a, b) => a - b);
}

/** Gathers lines of one look and paints them together. */
function strokesOn(context: OffscreenCanvasRenderingContext2D, frame: Frame, paper: number) {
  let look = '';
  let colour = '';
  let style: Style | null = null;
  let count = 0;
  const end = () => {
    if (!style) return;
    context.strokeStyle = colour;
    context.lineWidth = lineWidth(style.width, paper);
    context.lineJoin = 'round';
    context.lineCap = style.dash ? 'butt' : 'round';
    if (style.dash) context.setLineDash(style.dash.map((d) => d * paper));
    context.stroke();
    if (style.dash) context.setLineDash([]);
    style = null;
  };
  const add = (item: Extract<Item, { as: 'line' }>, palette: Palette) => {
    const ink = palette[item.style.stroke!];
    if (style && (look !== item.look || colour !== ink || count >= TOGETHER)) end();
    if (!style) {
      context.beginPath();
      [look, colour, style, count] = [item.look, ink, item.style, 0];
    }
    count += item.points.length;
    item.points.forEach(([x, y], i) => {
      if (i === 0) context.moveTo(frame.x + frame.scale * x, frame.y + frame.scale * y);
      else context.lineTo(frame.x + frame.scale * x, frame.y + frame.scale * y);
    });
    if (item.closed) context.closePath();
  };
  return { add, end };
}

/** Shapes thinner than this show nothing of their hatch, px. */
const NO_HATCH = 1.5;

/** A mark without what nobody could see of it. */
function seen(mark: Mark, { scale }: Frame, paper: number): Mark {
  if (mark.op !== 'line' || !mark.style.hatch) return mark;
  const xs = mark.points.map(([x]) => x);
  const ys = mark.points.map(([, y]) => y);
  const thin = Math.min(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  if (thin * scale - lineWidth(mark.style.width, paper) > NO_HATCH) return mark;
  const { hatch: _, ...style } = mark.style;
  return { ...mark, style };
}

const paintOf = (press: Press, palette: Palette, { x, y, width, height }: Area): Paint => ({
  context: press.context as unknown as CanvasRenderingContext2D,
  palette,
  paper: press.paper,
  width: x + width,
  height: y + height,
  strength: 1,
  picture: () => {
    throw new Error('pictures are painted by the board itself');
  },
});

/** Symbols painted once for a size and a theme. */
export interface Stamps {
  ready(
    found: readonly number[],
    prepared: Prepared,
    palettes: readonly Palette[],
    press: Press,
  ): void;
  put(stamp: number, at: Point, frame: Frame, press: Press): void;
}

export function createStamps(canvas: (width: number, height: number) => OffscreenCanvas): Stamps {
  let of: readonly unknown[] = [];
  let made: { readonly picture: OffscreenCanvas; readonly half: number }[] = [];

  function paint({ marks, turn, reach }: Stamp, palette: Palette, { paper, ratio }: Press) {
    const half = Math.ceil(reach * paper * ratio) + 1;
    const picture = canvas(half * 2, half * 2);
    const context = picture.getContext('2d')!;
    context.scale(ratio, ratio);
    const side = (half * 2) / ratio;
    const mark: Mark = { op: 'symbol', at: [0, 0], turn, marks };
    const middle = { scale: 1, cos: 1, sin: 0, x: half / ratio, y: half / ratio };
    const area = { x: 0, y: 0, width: side, height: side };
    const on = { paper, ratio, context } as Press;
    paintMarks(paintOf(on, palette, area), [mark], middle);
    return { picture, half };
  }

  return {
    ready(found, prepared, palettes, press) {
      const now = [prepared, press.theme, press.paper, press.ratio];
      if (now.some((value, i) => value !== of[i])) made = [];
      of = now;
      for (const i of found) {
        const item = prepared.items[i]!;
        if (item.as === 'stamp')
          made[item.stamp] ??= paint(prepared.stamps[item.stamp]!, palettes[item.layer]!, press);
      }
    },
    put(stamp, at, frame, { context, ratio }) {
      const { picture, half } = made[stamp]!;
      // Whole device pixels keep letters sharp.
      const x = Math.round((frame.x + frame.scale * at[0]) * ratio) - half;
      const y = Math.round((frame.y + frame.scale * at[1]) * ratio) - half;
      context.drawImage(picture, x / ratio, y / ratio, (half * 2) / ratio, (half * 2) / ratio);
    },
  };
}
