import { FOOT, INCH } from '../base/units.ts';
import type { Point } from '../geometry/point.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { levelBeside } from '../plan/levels.ts';
import { isLocked } from '../plan/locks.ts';
import { DRAWN, job, onLevel, type Ref } from '../plan/plan.ts';
import { withRoomCompany } from '../plan/room-company.ts';
import { createCopies } from './copies.ts';
import type { Editor } from './editor.ts';
import { type SessionApi, shownPlan } from './session.ts';
import { gridStep } from './snap.ts';
import { tools } from './tools/index.ts';
import { turnLevel } from './turn-level.ts';
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
  let cursor: Point | null = null;
  /** Whether the cursor has moved since it last clicked, so that Enter means a click. */
  let fresh = false;
  /** Whether the cursor stands where somebody said, so that nothing near it draws it off. */
  let exact = false;
  const copies = createCopies(session, () => cursor ?? editor.pointer());
  /** Nudges in a row are one step; anything else begins a new row. */
  let row = 0;

  const state = () => session.getState();

  const nudge = (by: Point, shift: boolean): boolean => {
    const { selection, actions, history } = state();
    const metric = job(history.plan).units === 'm';
    const mm = metric ? (shift ? 100 : 10) : shift ? FOOT : INCH;
    const fixed = (ref: Ref): boolean =>
      ref.table === 'backgrounds' && history.plan.tables.backgrounds.get(ref.id)?.locked === true;
    const refs = selection.filter((ref) => !fixed(ref));
    if (refs.length === 0) return false;
    const args = {
      refs: withRoomCompany(history.plan, refs),
      by: [by[0] * mm, by[1] * mm] as Point,
    };
    return actions.run('move', args, `nudge ${row}`);
  };

  const moveCursor = (by: Point, shift: boolean): void => {
    const { viewport, history } = state();
    const pixel = 1 / viewport.scale;
    const grid = gridStep(job(history.plan).units, pixel);
    const step = grid * (shift ? 10 : Math.max(1, Math.round((8 * pixel) / grid)));
    const from: Point = cursor ?? [
      viewport.left + viewport.width / 2 / viewport.scale,
      viewport.top + viewport.height / 2 / viewport.scale,
    ];
    const snapTo = (v: number) => Math.round(v / grid) * grid;
    // A step leaves the other way as it is, so that what was typed to the inch is not moved off it.
    const stepped = (v: number, way: number) => (way === 0 && cursor ? v : snapTo(v) + way * step);
    const next: Point = [stepped(from[0], by[0]), stepped(from[1], by[1])];
    exact = false;
    goTo(next);
  };

  /** Puts the cursor somewhere, in sight, so that Enter clicks there and what is typed begins there. */
  const goTo = (next: Point): void => {
    const { viewport, actions } = state();
    cursor = next;
    fresh = true;
    if (!editor.view().busy) editor.standAt(next);
    const [w, h] = [viewport.width / viewport.scale, viewport.height / viewport.scale];
    const seen = (v: number, start: number, size: number) =>
      v < start + size * 0.08 ? v - size * 0.08 : v > start + size * 0.92 ? v - size * 0.92 : start;
    const left = seen(next[0], viewport.left, w);
    const top = seen(next[1], viewport.top, h);
    if (left !== viewport.left || top !== viewport.top)
      actions.set({ viewport: { ...viewport, left, top } });
    editor.move(next, { exact });
  };

  /** To the next corner in a direction; the key means nothing where there is none, or while something is selected. */
  const jump = (by: Point): boolean => {
    const { viewport, tool } = state();
    if (tool === 'select') return false;
    const { left, top, width, height, scale } = viewport;
    const middle: Point = [left + width / 2 / scale, top + height / 2 / scale];
    const { anchor, stand } = editor.view();
    const corner = editor.cornerToward(cursor ?? anchor ?? stand ?? middle, by);
    if (!corner) return false;
    exact = true;
    goTo(corner);
    return true;
  };

  /** After a typed length: goes on from its end, or to where the next drawing begins. */
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

  const arrow = (key: string, shift: boolean): boolean => {
    const by = ARROWS[key];
    if (!by) return false;
    const { tool, selection } = state();
    if (editor.view().typed !== '') {
      editor.typedToward(by);
      follow();
      return true;
    }
    if (tool === 'select' && selection.length > 0 && !editor.view().busy) return nudge(by, shift);
    moveCursor(by, shift);
    return true;
  };

  /** A typed length ends the piece; arrows go on from its end, and Enter alone no longer means a click. */
  const enterTyped = (): boolean => {
    const begins = !editor.view().busy;
    editor.key('Enter');
    if (cursor || begins) follow();
    return true;
  };

  const enter = (): boolean => {
    if (editor.view().typed !== '') return enterTyped();
    if (!cursor || !fresh) return editor.key('Enter');
    fresh = false;
    editor.press(cursor, { exact });
    editor.release(cursor, { exact });
    return true;
  };

  const selectAll = (): boolean => {
    const s = state();
    const refs: Ref[] = DRAWN.flatMap((table) =>
      onLevel(shownPlan(s), table, s.level).map(({ id }) => ({ table, id })),
    );
    s.actions.pick('select');
    s.actions.select(refs);
    return true;
  };

  const withCtrl = (key: string, shift: boolean, focused: boolean): boolean => {
    const { actions } = state();
    switch (key.toLowerCase()) {
      case 'z':
        if (shift) actions.redo();
        else actions.undo();
        return true;
      case 'y':
        actions.redo();
        return true;
      case 'a':
        return focused && selectAll();
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

  /** The level above or below; the key means nothing where there is none. */
  const otherLevel = (by: 1 | -1): boolean => {
    const { history, level } = state();
    const next = levelBeside(history.plan, level, by);
    if (!next) return false;
    turnLevel(session, next.id);
    return true;
  };

  /** Mirrors or locks what is selected: keys with Shift, since every letter alone picks something. */
  const withShift = (key: 'm' | 'l'): boolean => {
    const { selection: refs, actions, history } = state();
    if (refs.length === 0) return false;
    if (key === 'm') return actions.run('mirror', { refs, across: 'x' });
    return actions.run('lock', { refs, locked: !refs.every((ref) => isLocked(history.plan, ref)) });
  };

  /** Keys with Shift that mean something of their own; all others mean what they mean without it. */
  const plainOrShift = (key: string, shift: boolean): boolean => {
    if (shift && (key === 'm' || key === 'l')) return withShift(key);
    return (shift && pickByKey(`Shift+${key.toUpperCase()}`)) || plain(key);
  };

  const pickByKey = (key: string): boolean => {
    const { actions } = state();
    for (const tool of tools.values())
      if (tool.key === key) {
        actions.pick(tool.id);
        return true;
      }
    for (const kind of kinds.values())
      if (kind.key === key) {
        actions.pick('device', kind.id);
        return true;
      }
    return false;
  };

  const plain = (key: string): boolean => {
    const { actions, snapping, snapsUnder, shown } = state();
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
        return turn(-90);
      case '.':
        return turn(90);
      case 'pageup':
        return otherLevel(1);
      case 'pagedown':
        return otherLevel(-1);
      default:
        return pickByKey(key);
    }
  };

  /** Turns what is selected; the key means nothing where nothing is. */
  const turn = (by: number): boolean => {
    const { selection, actions } = state();
    if (selection.length === 0) return false;
    return actions.run('rotate', { refs: selection, by });
  };

  const remove = (): boolean => {
    const { selection, actions } = state();
    if (selection.length === 0) return false;
    return actions.run('delete', { refs: selection });
  };

  const press = ({ key, shift, ctrl }: KeyPress, focused: boolean): boolean => {
    if (ctrl && key in ARROWS) return focused && jump(ARROWS[key]!);
    if (ctrl) return withCtrl(key, shift, focused);
    if (key === 'Escape') {
      editor.cancel();
      return true;
    }
    if (focused) {
      if (arrow(key, shift)) return true;
      if (key === 'Enter') return enter();
      if (editor.key(key, { shift })) return true;
      if (key === 'Delete' || key === 'Backspace') return remove();
    }
    const told = key.length === 1 || key.startsWith('Page');
    return told && plainOrShift(key.toLowerCase(), shift);
  };

  return {
    press(key, focused) {
      if (!(key.key in ARROWS)) row += 1;
      return press(key, focused);
    },
    cursor: () => cursor,
    forget: copies.forget,
    drop() {
      cursor = null;
      fresh = false;
      row += 1;
    },
  };
}
