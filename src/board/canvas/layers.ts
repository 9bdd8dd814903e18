import type Konva from 'konva/lib/Core';
import { type BoardPaint, drawingOf, paintDrawing, paintTop } from './paint-board.ts';
import { createRulers, type Rulers } from './paint-rulers.ts';

/** The board's two canvases: the drawing, and what lies over it. Whoever holds them says what they are painted from. */
export interface Layers {
  drawing: Konva.Layer | null;
  top: Konva.Layer | null;
  board: () => BoardPaint;
  readonly rulers: Rulers;
  /** Asks for what lies over the drawing, or for both, to be painted in the next frame. */
  touchTop(): void;
  touch(): void;
  /** As if nothing was painted yet: after a canvas was emptied, or letters and pictures came. */
  anew(): void;
  paintDrawing(context: CanvasRenderingContext2D): void;
  paintTop(context: CanvasRenderingContext2D): void;
}

export function createLayers(): Layers {
  const newRulers = () => createRulers(() => document.createElement('canvas'));
  let rulers = newRulers();
  let painted: readonly unknown[] | null = null;
  let frame = 0;

  /** A canvas that is only looked at by its library is taken for painted by the browser: it is left alone instead. */
  const stands = (): boolean => {
    const of = painted && drawingOf(layers.board());
    return of?.every((value, i) => value === painted?.[i]) === true;
  };

  const layers: Layers = {
    drawing: null,
    top: null,
    board: () => {
      throw new Error('nobody has said what the board is painted from');
    },
    get rulers() {
      return rulers;
    },
    touchTop() {
      layers.top?.batchDraw();
    },
    touch() {
      layers.top?.batchDraw();
      if (frame === 0)
        frame = requestAnimationFrame(() => {
          frame = 0;
          if (layers.drawing && !stands()) layers.drawing.draw();
        });
    },
    anew() {
      painted = null;
      rulers = newRulers();
      layers.touch();
    },
    paintDrawing(context) {
      const board = layers.board();
      painted = drawingOf(board);
      paintDrawing(context, board);
    },
    paintTop: (context) => paintTop(context, layers.board()),
  };
  return layers;
}
