import type { Point } from '../../geometry/point.ts';
import { t } from '../../text/index.ts';
import { toBoard, type Viewport } from '../session.ts';
import type { SnapAct, Snapped } from '../snap.ts';
import type { Paint } from './paint.ts';
import { RULER } from './paint-rulers.ts';

/** The loupe: its radius, how far it stands off the finger, px, and how much it enlarges. */
const LOUPE = 56;
const LOUPE_OFF = 104;
const LOUPE_ZOOM = 2;

/** Where the loupe stands: over the finger, or beside it at the top of the board. */
function loupeAt([x, y]: Point, width: number): Point {
  const least = RULER + LOUPE + 6;
  const over = y - LOUPE_OFF;
  if (over >= least) return [Math.max(least, Math.min(x, width - LOUPE - 6)), over];
  return [x > width / 2 ? x - LOUPE_OFF : x + LOUPE_OFF, Math.max(least, y)];
}

/** What lies round a place, enlarged beside the finger, with a cross where it will be put. */
export function paintLoupe(
  { context, palette, width }: Paint,
  finger: Point,
  [x, y]: Point,
  below: HTMLCanvasElement,
): void {
  const [cx, cy] = loupeAt(finger, width);
  const ratio = below.width / width;
  const part = LOUPE / LOUPE_ZOOM;
  context.save();
  context.beginPath();
  context.arc(cx, cy, LOUPE, 0, 2 * Math.PI);
  context.fillStyle = palette.paper;
  context.fill();
  context.clip();
  for (const canvas of [below, context.canvas])
    context.drawImage(
      canvas,
      (x - part) * ratio,
      (y - part) * ratio,
      2 * part * ratio,
      2 * part * ratio,
      cx - LOUPE,
      cy - LOUPE,
      2 * LOUPE,
      2 * LOUPE,
    );
  context.restore();
  context.strokeStyle = palette.pick;
  context.lineWidth = 2;
  context.beginPath();
  context.arc(cx, cy, LOUPE, 0, 2 * Math.PI);
  for (const [dx, dy] of [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const) {
    context.moveTo(cx + 5 * dx, cy + 5 * dy);
    context.lineTo(cx + 16 * dx, cy + 16 * dy);
  }
  context.stroke();
}

/** Guide lines from what acted, a glyph at the place, and the words for it. */
export function paintSnap(paint: Paint, viewport: Viewport, { at, acts }: Snapped): void {
  const { context, palette } = paint;
  const strong = acts.flatMap(({ kind, from }) => (kind === 'grid' ? [] : [{ kind, from }]));
  const [x, y] = toBoard(viewport, at);
  if (strong.length === 0) {
    if (acts.length > 0) glyph(context, palette.pick, x, y, 'grid');
    return;
  }
  context.strokeStyle = palette.pick;
  context.lineWidth = 1;
  context.setLineDash([4, 4]);
  for (const { from } of strong) {
    if (!from) continue;
    const [fx, fy] = toBoard(viewport, from);
    if (Math.hypot(fx - x, fy - y) < 3) continue;
    context.beginPath();
    context.moveTo(fx, fy);
    context.lineTo(x, y);
    context.stroke();
  }
  context.setLineDash([]);
  const main = strong[0]!;
  const [gx, gy] = main.kind === 'aligned' && main.from ? toBoard(viewport, main.from) : [x, y];
  glyph(context, palette.pick, gx, gy, main.kind);
  const words = [...new Set(strong.map(({ kind }) => t(`snap.${kind}`)))].join(', ');
  label(paint, words, x + 12, y + 18);
}

/** A small shape for each way of snapping, so that it can be told without its word. */
function glyph(
  context: CanvasRenderingContext2D,
  colour: string,
  x: number,
  y: number,
  kind: SnapAct['kind'],
): void {
  context.strokeStyle = colour;
  context.lineWidth = 1.5;
  context.beginPath();
  if (kind === 'end' || kind === 'place' || kind === 'under-end')
    context.rect(x - 5, y - 5, 10, 10);
  else if (kind === 'middle') {
    context.moveTo(x, y - 6);
    context.lineTo(x + 6, y + 4.5);
    context.lineTo(x - 6, y + 4.5);
    context.closePath();
  } else if (kind === 'grid') {
    context.moveTo(x - 4, y);
    context.lineTo(x + 4, y);
    context.moveTo(x, y - 4);
    context.lineTo(x, y + 4);
  } else if (kind === 'right-angle') {
    context.moveTo(x - 6, y - 6);
    context.lineTo(x - 6, y + 5);
    context.lineTo(x + 5, y + 5);
  } else {
    context.moveTo(x - 5, y - 5);
    context.lineTo(x + 5, y + 5);
    context.moveTo(x + 5, y - 5);
    context.lineTo(x - 5, y + 5);
  }
  context.stroke();
}

/** Small words on a slip of paper. */
function label(
  { context, palette, width, height }: Paint,
  text: string,
  x: number,
  y: number,
): void {
  if (text === '') return;
  context.font = '600 12px "Atkinson Hyperlegible Next", system-ui, sans-serif';
  context.textAlign = 'left';
  context.textBaseline = 'middle';
  const w = context.measureText(text).width + 10;
  const left = Math.max(RULER, Math.min(x, width - w - 4));
  const middle = Math.max(RULER + 10, Math.min(y, height - 12));
  context.fillStyle = palette.paper;
  context.strokeStyle = palette.pick;
  context.lineWidth = 1;
  context.beginPath();
  context.roundRect(left, middle - 9, w, 18, 3);
  context.fill();
  context.stroke();
  context.fillStyle = palette.pick;
  context.fillText(text, left + 5, middle + 1);
}

/** What was typed so far, large, beside a place. */
export function paintTyped(
  { context, palette, width }: Paint,
  typed: string,
  at: Point | null,
): void {
  const [x, y] = at ?? [width / 2, 80];
  context.font = '700 17px "Atkinson Hyperlegible Mono", ui-monospace, monospace';
  context.textAlign = 'left';
  context.textBaseline = 'middle';
  const text = `${typed}▏`;
  const w = context.measureText(text).width + 16;
  const left = Math.max(RULER, Math.min(x + 14, width - w - 4));
  context.fillStyle = palette.pick;
  context.beginPath();
  context.roundRect(left, y - 42, w, 28, 4);
  context.fill();
  context.fillStyle = palette.paper;
  context.fillText(text, left + 8, y - 27);
}

/** The keyboard's cross hair. */
export function paintCursor({ context, palette }: Paint, [x, y]: Point): void {
  context.strokeStyle = palette.pick;
  context.lineWidth = 1.5;
  context.beginPath();
  context.moveTo(x - 14, y);
  context.lineTo(x - 4, y);
  context.moveTo(x + 4, y);
  context.lineTo(x + 14, y);
  context.moveTo(x, y - 14);
  context.lineTo(x, y - 4);
  context.moveTo(x, y + 4);
  context.lineTo(x, y + 14);
  context.stroke();
}
