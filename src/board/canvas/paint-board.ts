import { PALETTES } from '../../drawing/palette.ts';
import type { Point } from '../../geometry/point.ts';
import { job } from '../../plan/plan.ts';
import type { EditorView } from '../editor.ts';
import { ring } from '../gestures/marks.ts';
import { highlightMarks, tagMarks } from '../highlight.ts';
import { ticks } from '../rulers.ts';
import { paperPixels, type Scene, type SceneLayer } from '../scene.ts';
import { type SessionStore, toBoard, type Viewport } from '../session.ts';
import { fadedPalette } from './faded.ts';
import { type Paint, planFrame } from './paint.ts';
import { paintCursor, paintLoupe, paintSnap, paintTyped } from './paint-hand.ts';
import type { Rulers } from './paint-rulers.ts';
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
  const { viewport } = board.session;
  const { snapped, typed } = board.editor;
  const snappedAt = snapped && toBoard(viewport, snapped.at);
  if (snapped) paintSnap(paint, viewport, snapped);
  if (board.cursor) paintCursor(paint, toBoard(viewport, board.cursor));
  if (typed !== '') paintTyped(paint, typed, snappedAt ?? board.pointer);
  if (board.finger && board.below && aims(board.editor))
    paintLoupe(paint, board.finger, snappedAt ?? board.finger, board.below);
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
