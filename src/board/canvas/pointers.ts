import type { Point } from '../../geometry/point.ts';
import type { Ref } from '../../plan/plan.ts';
import type { Editor, Held } from '../editor.ts';
import type { Keys } from '../keys.ts';
import { keepDrags } from '../own-touch.ts';
import { type SessionApi, toPlan } from '../session.ts';
import { panBy, pinchBy, type Spot, wheelAt } from './move-view.ts';
import { createPenWatch } from './pen-watch.ts';
import { watchSpace } from './space-key.ts';

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

/** Hands what pointers do on an element to the editor and the view. Returns what takes it off again. */
export function attachPointers(element: HTMLElement, parts: PointerParts): () => void {
  const { editor, keys, session } = parts;
  const fingers = new Map<number, Spot>();
  /** What the pointers are doing: drawing with the tool, dragging the view, pinching, or nothing until all are up. */
  let doing: 'none' | 'tool' | 'pan' | 'pinch' | 'spent' = 'none';
  let active = -1;
  let pressed: Spot = { x: 0, y: 0 };
  let timer: ReturnType<typeof setTimeout> | undefined;
  let lastUp = { time: 0, x: 0, y: 0 };
  const pens = createPenWatch();
  const listening = new AbortController();
  const { signal } = listening;
  const isSpaceDown = watchSpace(element, signal);

  const place = (event: { clientX: number; clientY: number }): Spot => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  const raw = ({ x, y }: Spot): Point => toPlan(session.getState().viewport, x, y);
  const held = (event: PointerEvent): Held => ({
    shift: event.shiftKey,
    ctrl: event.ctrlKey || event.metaKey,
    touch: event.pointerType === 'touch',
  });
  const setDoing = (next: typeof doing) => {
    if ((doing === 'pan') !== (next === 'pan')) parts.onPan(next === 'pan');
    if (next !== 'tool') parts.onFinger(null);
    doing = next;
  };
  const still = () => clearTimeout(timer);

  const menuAt = (at: Spot, event: { clientX: number; clientY: number }, touch: boolean) => {
    const where = raw(at);
    parts.onMenu({
      ...at,
      clientX: event.clientX,
      clientY: event.clientY,
      at: where,
      refs: editor.hit(where, touch),
    });
  };

  /** A pen comes: what a hand that came before it has begun is taken back, and the hand counts no more. */
  const takePen = (event: PointerEvent) => {
    pens.came(event);
    still();
    if (doing === 'tool') editor.abandon();
    fingers.clear();
    setDoing('none');
  };

  const down = (event: PointerEvent) => {
    if (event.button === 2 || pens.isPalm(event)) return;
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
    if (event.button === 1 || isSpaceDown()) {
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

  /** The two fingers of a pinch. */
  const both = () => [...fingers.values()] as [Spot, Spot];

  const pinch = (id: number, at: Spot) => {
    const before = both();
    fingers.set(id, at);
    pinchBy(session, before, both());
  };

  const move = (event: PointerEvent) => {
    if (event.pointerType === 'pen') pens.moved(event);
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
      panBy(session, at.x - before.x, at.y - before.y);
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
    pens.left(event);
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
    const at = place(event);
    wheelAt(session, event, at);
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

  const middle = (event: MouseEvent) => {
    // The browser's own scrolling by the middle button.
    if (event.button === 1) event.preventDefault();
  };

  const giveBack = keepDrags(element);
  element.addEventListener('pointerdown', down, { signal });
  element.addEventListener('pointermove', move, { signal });
  element.addEventListener('pointerup', up, { signal });
  element.addEventListener('pointercancel', lost, { signal });
  element.addEventListener('pointerleave', leave, { signal });
  element.addEventListener('wheel', wheel, { signal, passive: false });
  element.addEventListener('contextmenu', menu, { signal });
  element.addEventListener('mousedown', middle, { signal });
  document.addEventListener('pointerdown', elsewhere, { signal, capture: true });
  return () => {
    still();
    giveBack();
    listening.abort();
  };
}
