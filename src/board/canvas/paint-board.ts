import { PALETTES } from '../../drawing/palette.ts';
import type { Point } from '../../geometry/point.ts';
import { job } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import type { EditorView } from '../editor.ts';
import { ring } from '../gestures/marks.ts';
import { highlightMarks, tagMarks } from '../highlight.ts';
import { ticks } from '../rulers.ts';
import { paperPixels, type Scene, type SceneLayer } from '../scene.ts';
import { type SessionStore, toBoard, type Viewport } from '../session.ts';
import type { SnapAct, Snapped } from '../snap.ts';
import { fadedPalette } from './faded.ts';
import { type Paint, planFrame } from './paint.ts';
import { RULER, type Rulers } from './paint-rulers.ts';
import { paintMarks } from './painter.ts';
import type { Plate } from './plates.ts';

export type BoardTheme = 'light' | 'dark';

/** What the two layers are painted from. */
export interface BoardPaint {
  readonly session: SessionStore;
  /** What is painted here: the whole drawing, or what its plate lacks. */
  readonly scene: Scene;
  /** Of a crowded plan, the drawing that a worker has painted, and the pictures under it. */
  readonly plate: Plate | null;
  readonly pictures: readonly SceneLayer[];
  /** Where symbols are drawn, by their row. */
  readonly places: ReadonlyMap<string, Point>;
  readonly editor: EditorView;
  readonly theme: BoardTheme;
  /** Where the pointer is, px, and where the keyboard's cursor is, mm. */
  readonly pointer: Point | null;
  readonly cursor: Point | null;
  /** Where a finger draws, px, and the canvas with the drawing, to be seen enlarged beside it. */
  readonly finger: Point | null;
  readonly below: HTMLCanvasElement | null;
  readonly picture: Paint['picture'];
  readonly rulers: Rulers;
}

function paintOn(context: CanvasRenderingContext2D, board: BoardPaint): Paint {
  const { viewport } = board.session;
  return {
    context,
    palette: PALETTES[board.theme],
    paper: paperPixels(viewport.scale),
    width: viewport.width,
    height: viewport.height,
    strength: 1,
    negative: board.theme === 'dark',
    picture: board.picture,
  };
}

/** The paper with the drawing. */
export function paintDrawing(context: CanvasRenderingContext2D, board: BoardPaint): void {
  const paint = paintOn(context, board);
  const { viewport } = board.session;
  context.fillStyle = paint.palette.paper;
  context.fillRect(0, 0, viewport.width, viewport.height);
  if (board.editor.tool.snaps(board.editor.tool.start).includes('grid')) paintGrid(paint, board);
  paintLayers(paint, board, board.pictures);
  if (board.plate) paintPlate(context, board.plate, viewport);
  else paintLayers(paint, board, board.scene.layers);
}

/** Whatever a drawing by a plate is painted from: it need not be painted again before some of it has changed. */
export const drawingOf = ({
  plate,
  pictures,
  session,
  theme,
  editor,
}: BoardPaint): readonly unknown[] | null =>
  plate && [plate, pictures, session.viewport, theme, editor.tool, job(session.history.plan).units];

function paintLayers(
  paint: Paint,
  { session, theme }: BoardPaint,
  of: readonly SceneLayer[],
): void {
  const frame = planFrame(session.viewport);
  for (const { marks, strength } of of)
    paintMarks({ ...paint, palette: fadedPalette(theme, strength), strength }, marks, frame);
}

/** A plate where it lies now: at its own zoom pixel by pixel, else larger or smaller until the next one comes. */
function paintPlate(context: CanvasRenderingContext2D, plate: Plate, viewport: Viewport): void {
  const { place, bitmap } = plate;
  const [x, y] = toBoard(viewport, [place.left, place.top]);
  const k = viewport.scale / place.scale;
  const ratio = bitmap.width / place.width;
  const whole = (v: number) => Math.round(v * ratio) / ratio;
  context.imageSmoothingEnabled = k !== 1;
  context.imageSmoothingQuality = 'low';
  if (k === 1) context.drawImage(bitmap, whole(x), whole(y), place.width, place.height);
  else context.drawImage(bitmap, x, y, place.width * k, place.height * k);
  context.imageSmoothingEnabled = true;
}

/** Faint lines at the ruler's figures while something is drawn or placed, for the eye. */
function paintGrid({ context, palette, width, height }: Paint, { session }: BoardPaint): void {
  const { viewport } = session;
  const units = job(session.history.plan).units;
  context.fillStyle = palette.faint;
  context.globalAlpha = 0.28;
  for (const { at, label } of ticks(units, viewport.scale, viewport.left, width))
    if (label !== null) context.fillRect(Math.round(at), 0, 1, height);
  for (const { at, label } of ticks(units, viewport.scale, viewport.top, height))
    if (label !== null) context.fillRect(0, Math.round(at), width, 1);
  context.globalAlpha = 1;
}

/** What lies over the drawing: what its plate lacks, selection, gesture, snaps, cursor, rulers. */
export function paintTop(context: CanvasRenderingContext2D, board: BoardPaint): void {
  const paint = paintOn(context, board);
  if (board.plate) paintLayers(paint, board, board.scene.layers);
  const frame = planFrame(board.session.viewport);
  const drawing = board.editor.busy && board.editor.tool.id !== 'select';
  paintMarks(paint, highlightMarks(board.session, board.places, drawing), frame);
  paintMarks(paint, board.editor.overlay, frame);
  if (board.editor.stand) paintMarks(paint, [ring(board.editor.stand)], frame);
  if (board.editor.snapped) paintSnap(paint, board, board.editor.snapped);
  if (board.cursor) paintCursor(paint, toBoard(board.session.viewport, board.cursor));
  if (board.editor.typed !== '') paintTyped(paint, board);
  if (board.finger && board.below && aims(board.editor))
    paintLoupe(paint, board, board.finger, board.below);
  // Over the loupe and not in it: they would cover the place that it shows.
  paintMarks(paint, tagMarks(board.session, board.places, drawing), frame);
  board.rulers.paint(paint, {
    units: job(board.session.history.plan).units,
    theme: board.theme,
    view: board.session.viewport,
    pointer: board.pointer,
  });
}

/** Whether the finger is about to put something, so that its place matters. */
const aims = ({ tool, anchor }: EditorView): boolean =>
  tool.id === 'select' || tool.id === 'pan' ? anchor !== null : true;

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

/** What lies under the finger, enlarged beside it, with a cross where it will be put. */
function paintLoupe(
  { context, palette, width }: Paint,
  { session, editor }: BoardPaint,
  finger: Point,
  below: HTMLCanvasElement,
): void {
  const [cx, cy] = loupeAt(finger, width);
  const [x, y] = editor.snapped ? toBoard(session.viewport, editor.snapped.at) : finger;
  const ratio = below.width / session.viewport.width;
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
function paintSnap(paint: Paint, board: BoardPaint, { at, acts }: Snapped): void {
  const { context, palette } = paint;
  const { viewport } = board.session;
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

/** What was typed so far, large, beside the pointer. */
function paintTyped(paint: Paint, board: BoardPaint): void {
  const { context, palette, width } = paint;
  const { viewport } = board.session;
  const at = board.editor.snapped ? toBoard(viewport, board.editor.snapped.at) : board.pointer;
  const [x, y] = at ?? [width / 2, 80];
  context.font = '700 17px "Atkinson Hyperlegible Mono", ui-monospace, monospace';
  context.textAlign = 'left';
  context.textBaseline = 'middle';
  const text = `${board.editor.typed}▏`;
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
function paintCursor({ context, palette }: Paint, [x, y]: Point): void {
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
