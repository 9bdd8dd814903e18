import type { Point } from '../geometry/point.ts';
import { job } from '../plan/plan.ts';
import type { Editor } from './editor.ts';
import type { SessionApi } from './session.ts';
import { gridStep } from './snap.ts';

/** The place on the board that arrow keys move and Enter clicks. */
export interface KeyCursor {
  /** Where it is; null while no key has moved it. */
  at(): Point | null;
  /** A step by an arrow, on the grid; a large one with Shift. */
  step(by: Point, shift: boolean): void;
  /** To the next corner in a direction; answers whether there was one to go to. */
  jump(by: Point): boolean;
  /** After a typed length: goes on from its end, or to where the next drawing begins. */
  follow(): void;
  enter(): boolean;
  drop(): void;
}

/** A cursor that begins where somebody looks: in the middle of the view, or at what is drawn. */
export function createKeyCursor(session: SessionApi, editor: Editor): KeyCursor {
  let cursor: Point | null = null;
  /** Whether the cursor has moved since it last clicked, so that Enter means a click. */
  let fresh = false;
  /** Whether the cursor stands where somebody said, so that nothing near it draws it off. */
  let exact = false;

  /** Puts the cursor somewhere, in sight, so that Enter clicks there and what is typed begins there. */
  const goTo = (next: Point): void => {
    cursor = next;
    fresh = true;
    if (!editor.view().busy) editor.standAt(next);
    showPlace(session, next);
    editor.move(next, { exact });
  };

  const follow = (): void => {
    const { anchor, stand, busy, typed } = editor.view();
    // What is no length stays to be mended.
    if (typed !== '') return;
    exact = true;
    const at = anchor ?? stand ?? cursor;
    if (at) goTo(at);
    // While a chain runs Enter alone ends it.
    fresh = !busy;
  };

  /** A typed length ends the piece; arrows go on from its end, and Enter alone no longer means a click. */
  const enterTyped = (): boolean => {
    const begins = !editor.view().busy;
    editor.key('Enter');
    if (cursor || begins) follow();
    return true;
  };

  return {
    at: () => cursor,
    follow,
    step(by, shift) {
      const { viewport, history } = session.getState();
      const pixel = 1 / viewport.scale;
      const grid = gridStep(job(history.plan).units, pixel);
      const step = grid * (shift ? 10 : Math.max(1, Math.round((8 * pixel) / grid)));
      const from = cursor ?? middleOf(session);
      const snapTo = (v: number) => Math.round(v / grid) * grid;
      // A step leaves the other way as it is, so that what was typed to the inch is not moved off it.
      const stepped = (v: number, way: number) =>
        way === 0 && cursor ? v : snapTo(v) + way * step;
      exact = false;
      goTo([stepped(from[0], by[0]), stepped(from[1], by[1])]);
    },
    jump(by) {
      if (session.getState().tool === 'select') return false;
      const { anchor, stand } = editor.view();
      const corner = editor.cornerToward(cursor ?? anchor ?? stand ?? middleOf(session), by);
      if (!corner) return false;
      exact = true;
      goTo(corner);
      return true;
    },
    enter() {
      if (editor.view().typed !== '') return enterTyped();
      if (!cursor || !fresh) return editor.key('Enter');
      fresh = false;
      editor.press(cursor, { exact });
      editor.release(cursor, { exact });
      return true;
    },
    drop() {
      cursor = null;
      fresh = false;
    },
  };
}

/** The place in the middle of the view. */
function middleOf(session: SessionApi): Point {
  const { left, top, width, height, scale } = session.getState().viewport;
  return [left + width / 2 / scale, top + height / 2 / scale];
}

/** Moves the view where a place is not well within it. */
function showPlace(session: SessionApi, at: Point): void {
  const { viewport, actions } = session.getState();
  const [w, h] = [viewport.width / viewport.scale, viewport.height / viewport.scale];
  const seen = (v: number, start: number, size: number) =>
    v < start + size * 0.08 ? v - size * 0.08 : v > start + size * 0.92 ? v - size * 0.92 : start;
  const left = seen(at[0], viewport.left, w);
  const top = seen(at[1], viewport.top, h);
  if (left !== viewport.left || top !== viewport.top)
    actions.set({ viewport: { ...viewport, left, top } });
}
