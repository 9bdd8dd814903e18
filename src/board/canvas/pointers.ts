import type { Point } from '../../geometry/point.ts';
import type { Ref } from '../../plan/plan.ts';
import type { Editor, Held } from '../editor.ts';
import type { Keys } from '../keys.ts';
import { keepDrags } from '../own-touch.ts';
import { type SessionApi, toPlan } from '../session.ts';
import { zoomed } from '../view.ts';

/** Where a menu was asked for: px from the board's corner and on the page, the place, and what lies there. */
export interface MenuRequest {
  readonly x: number;
  readonly y: number;
  readonly clientX: number;
  readonly clientY: number;
  readonly at: Point;
  readonly refs: readonly Ref[];
}

export interface PointerParts {
  readonly editor: Editor;
  readonly keys: Keys;
  readonly session: SessionApi;
  onMenu(request: MenuRequest): void;
  /** Pointer on the board in px, or null when it has left; for the rulers. */
  onPlace(at: Point | null): void;
  /** Whether the view is being dragged, for the cursor. */
  onPan(panning: boolean): void;
  /** Where the one finger is that draws, in px; null when none does. */
  onFinger(at: Point | null): void;
}

const LONG_PRESS = 500;
/** A finger that moves less than this is still pressing, px. */
const STILL = 10;
/** Two releases within this time and place are a double click; the browser does not count fingers. */
const DOUBLE_TIME = 450;

/** A touch broader than this is a hand that rests, px; after a pen was there, it stays one for this long, ms. */
const PALM = 40;
const PEN_NEAR = 1000;

interface Finger {
  x: number;
  y: number;
}

/** Hands what pointers do on an element to the editor and the view. Returns what takes it off again. */
export function attachPointers(element: HTMLElement, parts: PointerParts): () => void {
  const { editor, keys, session } = parts;
  const fingers = new Map<number, Finger>();
  /** What the pointers are doing: drawing with the tool, dragging the view, pinching, or nothing until all are up. */
  let doing: 'none' | 'tool' | 'pan' | 'pinch' | 'spent' = 'none';
  let active = -1;
  let pressed: Finger = { x: 0, y: 0 };
  let timer: ReturnType<typeof setTimeout> | undefined;
  let lastUp = { time: 0, x: 0, y: 0 };
  let space = false;
  /** The pen on the glass, if there is one, and when it was seen last. */
  let pen = -1;
  let penSeen = Number.NEGATIVE_INFINITY;

  const place = (event: { clientX: number; clientY: number }): Finger => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  const raw = ({ x, y }: Finger): Point => toPlan(session.getState().viewport, x, y);
  const held = (event: PointerEvent): Held => ({
    shift: event.shiftKey,
    ctrl: event.ctrlKey || event.metaKey,
    touch: event.pointerType === 'touch',
  });
  const panBy = (dx: number, dy: number) => {
    const { viewport, actions } = session.getState();
    const { scale, left, top } = viewport;
    actions.set({ viewport: { ...viewport, left: left - dx / scale, top: top - dy / scale } });
  };
  const setDoing = (next: typeof doing) => {
    if ((doing === 'pan') !== (next === 'pan')) parts.onPan(next === 'pan');
    if (next !== 'tool') parts.onFinger(null);
    doing = next;
  };
  const still = () => clearTimeout(timer);

  const menuAt = (at: Finger, event: { clientX: number; clientY: number }, touch: boolean) => {
    const where = raw(at);
    parts.onMenu({
      ...at,
      clientX: event.clientX,
      clientY: event.clientY,
      at: where,
      refs: editor.hit(where, touch),
    });
  };

  /** Whether a touch is the hand that holds the pen: all of them while it writes, broad ones for a moment after. */
  const isPalm = (event: PointerEvent): boolean =>
    event.pointerType === 'touch' &&
    (pen !== -1 ||
      (event.timeStamp - penSeen < PEN_NEAR && Math.max(event.width, event.height) > PALM));

  /** A pen comes: what a hand that came before it has begun is taken back, and the hand counts no more. */
  const takePen = (event: PointerEvent) => {
    pen = event.pointerId;
    still();
    if (doing === 'tool') editor.abandon();
    fingers.clear();
    setDoing('none');
  };

  const down = (event: PointerEvent) => {
    if (event.button === 2 || isPalm(event)) return;
    if (event.pointerType === 'pen') takePen(event);
    const at = place(event);
    element.setPointerCapture(event.pointerId);
    keys.drop();
    fingers.set(event.pointerId, at);
    if (fingers.size === 2) {
      still();
      if (doing === 'tool') editor.abandon();
      setDoing('pinch');
      return;
    }
    if (fingers.size > 2 || doing === 'spent') return;
    active = event.pointerId;
    pressed = at;
    if (event.button === 1 || space) {
      event.preventDefault();
      setDoing('pan');
      return;
    }
    setDoing('tool');
    editor.press(raw(at), held(event));
    if (event.pointerType === 'mouse') return;
    if (event.pointerType === 'touch') parts.onFinger([at.x, at.y]);
    // With another tool in hand a finger that stays is one that aims, by the loupe.
    if (session.getState().tool !== 'select') return;
    const { clientX, clientY } = event;
    timer = setTimeout(() => {
      editor.abandon();
      setDoing('spent');
      menuAt(at, { clientX, clientY }, true);
    }, LONG_PRESS);
  };

  const pinch = (id: number, at: Finger) => {
    const [a, b] = [...fingers.values()] as [Finger, Finger];
    const before = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, d: Math.hypot(a.x - b.x, a.y - b.y) };
    fingers.set(id, at);
    const [c, d] = [...fingers.values()] as [Finger, Finger];
    const after = { x: (c.x + d.x) / 2, y: (c.y + d.y) / 2, d: Math.hypot(c.x - d.x, c.y - d.y) };
    panBy(after.x - before.x, after.y - before.y);
    const { viewport, actions } = session.getState();
    if (before.d > 4)
      actions.set({ viewport: zoomed(viewport, after.d / before.d, after.x, after.y) });
  };

  const move = (event: PointerEvent) => {
    if (event.pointerType === 'pen') penSeen = event.timeStamp;
    // A finger that never came down here: a palm, or one that a gesture has let go of.
    else if (event.pointerType === 'touch' && !fingers.has(event.pointerId)) return;
    const at = place(event);
    if (event.pointerType !== 'touch') parts.onPlace([at.x, at.y]);
    if (doing === 'pinch') {
      if (fingers.size === 2 && fingers.has(event.pointerId)) pinch(event.pointerId, at);
      return;
    }
    if (doing === 'spent') return;
    const before = fingers.get(event.pointerId);
    if (doing === 'pan' && before) {
      panBy(at.x - before.x, at.y - before.y);
      fingers.set(event.pointerId, at);
      return;
    }
    if (Math.hypot(at.x - pressed.x, at.y - pressed.y) > STILL) still();
    if (before) fingers.set(event.pointerId, at);
    if (doing === 'none' && event.pointerType !== 'touch') keys.drop();
    if (doing === 'none' || event.pointerId === active) editor.move(raw(at), held(event));
    if (doing === 'tool' && event.pointerType === 'touch') parts.onFinger([at.x, at.y]);
  };

  /** A pointer leaves the glass; says whether it counted. */
  const gone = (event: PointerEvent): boolean => {
    if (event.pointerId === pen) {
      pen = -1;
      penSeen = event.timeStamp;
    }
    return fingers.delete(event.pointerId);
  };

  const up = (event: PointerEvent) => {
    if (!gone(event)) return;
    still();
    const at = place(event);
    const was = doing;
    if (fingers.size === 0) setDoing('none');
    else if (was === 'pinch') setDoing('spent');
    if (was !== 'tool' || event.pointerId !== active) return;
    setDoing(fingers.size === 0 ? 'none' : 'spent');
    editor.release(raw(at), held(event));
    const soon = event.timeStamp - lastUp.time < DOUBLE_TIME;
    const near = Math.hypot(at.x - lastUp.x, at.y - lastUp.y) < STILL;
    lastUp = { time: soon && near ? 0 : event.timeStamp, x: at.x, y: at.y };
    if (soon && near) editor.double(raw(at));
    if (event.pointerType === 'touch') editor.lift();
  };

  const lost = (event: PointerEvent) => {
    if (!gone(event)) return;
    still();
    if (doing === 'tool' && event.pointerId === active) editor.abandon();
    setDoing(fingers.size === 0 ? 'none' : 'spent');
  };

  const leave = (event: PointerEvent) => {
    if (fingers.has(event.pointerId)) return;
    parts.onPlace(null);
    if (event.pointerType !== 'touch' && doing === 'none') editor.leave();
  };

  const wheel = (event: WheelEvent) => {
    event.preventDefault();
    const line = event.deltaMode === 1 ? 30 : event.deltaMode === 2 ? 300 : 1;
    const dx = event.deltaX * line;
    const dy = event.deltaY * line;
    if (!event.ctrlKey && (event.shiftKey || Math.abs(dx) > Math.abs(dy)))
      return panBy(-(dx || dy), 0);
    const { viewport, actions } = session.getState();
    const at = place(event);
    // A pinch on a trackpad comes as a wheel with Ctrl and small steps.
    const factor = Math.exp(-Math.max(-240, Math.min(240, dy)) * (event.ctrlKey ? 0.01 : 0.0017));
    actions.set({ viewport: zoomed(viewport, factor, at.x, at.y) });
    if (doing === 'tool') editor.move(raw(at), {});
  };

  const menu = (event: MouseEvent) => {
    event.preventDefault();
    // A long press has asked already.
    if (doing === 'spent') return;
    if (event instanceof PointerEvent && event.pointerType === 'touch') return;
    if (doing === 'tool') editor.abandon();
    menuAt(place(event), event, false);
  };

  /** A second finger beside the board, on a panel, takes back what the first one draws all the same. */
  const elsewhere = (event: PointerEvent) => {
    const beside = !(event.target instanceof Node && element.contains(event.target));
    if (!beside || event.pointerType !== 'touch' || doing !== 'tool') return;
    still();
    editor.abandon();
    setDoing('spent');
  };

  const spaceKey = (event: KeyboardEvent) => {
    if (event.key !== ' ') return;
    const here =
      element.contains(document.activeElement) || document.activeElement === document.body;
    if (event.type === 'keydown' && !here) return;
    if (event.type === 'keydown') event.preventDefault();
    space = event.type === 'keydown';
    element.dataset.space = String(space);
  };

  const middle = (event: MouseEvent) => {
    // The browser's own scrolling by the middle button.
    if (event.button === 1) event.preventDefault();
  };

  const giveBack = keepDrags(element);
  element.addEventListener('pointerdown', down);
  element.addEventListener('pointermove', move);
  element.addEventListener('pointerup', up);
  element.addEventListener('pointercancel', lost);
  element.addEventListener('pointerleave', leave);
  element.addEventListener('wheel', wheel, { passive: false });
  element.addEventListener('contextmenu', menu);
  element.addEventListener('mousedown', middle);
  document.addEventListener('pointerdown', elsewhere, true);
  window.addEventListener('keydown', spaceKey);
  window.addEventListener('keyup', spaceKey);
  return () => {
    still();
    giveBack();
    element.removeEventListener('pointerdown', down);
    element.removeEventListener('pointermove', move);
    element.removeEventListener('pointerup', up);
    element.removeEventListener('pointercancel', lost);
    element.removeEventListener('pointerleave', leave);
    element.removeEventListener('wheel', wheel);
    element.removeEventListener('contextmenu', menu);
    element.removeEventListener('mousedown', middle);
    document.removeEventListener('pointerdown', elsewhere, true);
    window.removeEventListener('keydown', spaceKey);
    window.removeEventListener('keyup', spaceKey);
  };
}
