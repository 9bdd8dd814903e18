import type { Point } from '../geometry/point.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { createCopies } from './copies.ts';
import type { Editor } from './editor.ts';
import { createKeyCursor } from './key-cursor.ts';
import {
  lock,
  mirror,
  nudge,
  otherLevel,
  pickByKey,
  remove,
  rotate,
  selectAll,
} from './key-deeds.ts';
import type { SessionApi } from './session.ts';
import { fitPlan, fitSelection, zoomBy } from './view.ts';

/** A key as it comes from the keyboard. */
export interface KeyPress {
  readonly key: string;
  readonly shift: boolean;
  /** Ctrl, or the command key. */
  readonly ctrl: boolean;
}

export interface Keys {
  /** Answers whether the key meant something; `focused` is whether the board has the focus. */
  press(key: KeyPress, focused: boolean): boolean;
  /** The place that arrow keys move and Enter clicks, where they do. */
  cursor(): Point | null;
  /** A pointer has taken over. */
  drop(): void;
  /** The window was left: what was copied here may not stand before what is copied elsewhere. */
  forget(): void;
}

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** Lets the lines of the background act on a place, and lets them be. */
export const UNDER_KEY = '/';

/** Shows what a cable may do overhead, and puts it away. */
export const CEILING_KEY = ';';

/**
 * What keys do on the board. Keys that pick or undo hold while the focus is elsewhere on the desk, too; those that
 * move, place and delete only on the board itself.
 */
export function createKeys(session: SessionApi, editor: Editor, kinds: KindRegistry): Keys {
  const cursor = createKeyCursor(session, editor);
  const copies = createCopies(session, () => cursor.at() ?? editor.pointer());
  /** Nudges in a row are one step; anything else begins a new row. */
  let row = 0;

  const arrow = (by: Point, shift: boolean): boolean => {
    const { tool, selection } = session.getState();
    const { typed, busy } = editor.view();
    if (typed !== '') {
      editor.typedToward(by);
      cursor.follow();
      return true;
    }
    if (tool === 'select' && selection.length > 0 && !busy) return nudge(session, by, shift, row);
    cursor.step(by, shift);
    return true;
  };

  const withCtrl = (key: string, shift: boolean, focused: boolean): boolean => {
    const { actions } = session.getState();
    switch (key.toLowerCase()) {
      case 'z':
        if (shift) actions.redo();
        else actions.undo();
        return true;
      case 'y':
        actions.redo();
        return true;
      case 'a':
        return focused && selectAll(session);
      case 'c':
        return focused && copies.copy();
      case 'v':
        return focused && copies.paste();
      case 'd':
        return focused && copies.repeat();
      default:
        return false;
    }
  };

  /** Keys with Shift that mean something of their own; all others mean what they mean without it. */
  const plainOrShift = (key: string, shift: boolean): boolean => {
    if (shift && key === 'm') return mirror(session);
    if (shift && key === 'l') return lock(session);
    return (shift && pickByKey(session, kinds, `Shift+${key.toUpperCase()}`)) || plain(key);
  };

  const plain = (key: string): boolean => {
    const { actions, snapping, snapsUnder, shown } = session.getState();
    switch (key) {
      case CEILING_KEY:
        actions.set({ shown: { ...shown, ceiling: !shown.ceiling } });
        return true;
      case 's':
        actions.set({ snapping: !snapping });
        return true;
      case UNDER_KEY:
        actions.set({ snapsUnder: !snapsUnder });
        return true;
      case '+':
      case '=':
        zoomBy(session, 1.25);
        return true;
      case '-':
      case '_':
        zoomBy(session, 0.8);
        return true;
      case '0':
        fitPlan(session);
        return true;
      case '9':
        return fitSelection(session);
      case ',':
        return rotate(session, -90);
      case '.':
        return rotate(session, 90);
      case 'pageup':
        return otherLevel(session, 1);
      case 'pagedown':
        return otherLevel(session, -1);
      default:
        return pickByKey(session, kinds, key);
    }
  };

  const press = ({ key, shift, ctrl }: KeyPress, focused: boolean): boolean => {
    const by = ARROWS[key];
    if (ctrl && by) return focused && cursor.jump(by);
    if (ctrl) return withCtrl(key, shift, focused);
    if (key === 'Escape') {
      editor.cancel();
      return true;
    }
    if (focused) {
      if (by && arrow(by, shift)) return true;
      if (key === 'Enter') return cursor.enter();
      if (editor.key(key, { shift })) return true;
      if (key === 'Delete' || key === 'Backspace') return remove(session);
    }
    const told = key.length === 1 || key.startsWith('Page');
    return told && plainOrShift(key.toLowerCase(), shift);
  };

  return {
    press(key, focused) {
      if (!(key.key in ARROWS)) row += 1;
      return press(key, focused);
    },
    cursor: cursor.at,
    forget: copies.forget,
    drop() {
      cursor.drop();
      row += 1;
    },
  };
}
