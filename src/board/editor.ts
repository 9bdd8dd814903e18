import { type Message, msg } from '../base/message.ts';
import type { Mark } from '../drawing/display.ts';
import type { Point } from '../geometry/point.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import type { CommandArgs } from '../plan/commands/index.ts';
import { undoable } from '../plan/history.ts';
import { job, type Plan, type Ref, refKey } from '../plan/plan.ts';
import type { Way } from '../results/types.ts';
import type { Underlay } from '../results/underlay.ts';
import { forFinger } from './hints.ts';
import { type HitIndex, hitAt, hitBox, hitIndex } from './hit.ts';
import { type Offers, offersOn } from './offers.ts';
import type { SessionApi, SessionStore } from './session.ts';
import { gridStep, REACH, type Snapped, snap } from './snap.ts';
import { endNear, endToward, placeBy, snapTargets } from './snap-targets.ts';
import { underLines, underNear } from './snap-under.ts';
import { tools } from './tools/index.ts';
import type { PointerStep, Tool, ToolContext, ToolEffect, ToolEvent } from './tools/tool.ts';
import { beginsLength, goesOn, readTyped, whyNoLength } from './typing.ts';

/** Keys held with a step of the pointer, and whether it is a finger. */
export interface Held {
  readonly shift?: boolean;
  readonly ctrl?: boolean;
  readonly touch?: boolean;
  /** The place is meant as it is: nothing near it acts on it. */
  readonly exact?: boolean;
}

/** A known length that was drawn on a background: its two ends. */
export type LengthRequest = Extract<ToolEffect, { do: 'ask-length' }>;

/** What somebody answered: the real length, mm, and whether what is drawn goes along with the picture. */
export interface LengthAnswer {
  readonly length: number;
  readonly follow: boolean;
}

/** Four corners that were set on a photo. */
export type StraightenRequest = Extract<ToolEffect, { do: 'straighten' }>;

/** What the editor asks of whoever holds it. */
export interface EditorPorts {
  /** Whether the device is worked with fingers, as far as one knows before the first of them. */
  readonly finger?: boolean;
  /** Asks for the real length of a line; null when the user thinks better of it. */
  askLength(request: LengthRequest): Promise<LengthAnswer | null>;
  /** Makes a photo upright, and puts it in the place of the one that was there. */
  straighten(request: StraightenRequest): void;
}

/** What the board shows of the gesture that runs. */
export interface EditorView {
  readonly tool: Tool;
  readonly overlay: readonly Mark[];
  readonly snapped: Snapped | null;
  /** What was typed so far. */
  readonly typed: string;
  readonly hint: Message;
  /** Whether a gesture has begun, and whether a typed length would mean something in it. */
  readonly busy: boolean;
  readonly measuring: boolean;
  /** Where a typed length would begin. */
  readonly anchor: Point | null;
  /** Where a drawing would begin that begins with a typed length; null where the tool takes none or none was said. */
  readonly stand: Point | null;
}

/**
 * Runs the tool in hand over a session: hands it events with snapped places, and does what it asks. It knows no screen:
 * whoever sees pointers and keys calls in, and draws what `view` says.
 */
export interface Editor {
  press(raw: Point, held?: Held): void;
  move(raw: Point, held?: Held): void;
  release(raw: Point, held?: Held): void;
  double(raw: Point): void;
  /** A key while the board has the focus; true when it meant something here. */
  key(key: string, held?: Held): boolean;
  /** A whole length that was typed elsewhere, as in a field for fingers. */
  typeLength(text: string): void;
  /** What was typed, in the direction of an arrow: draws so far, or before anything is drawn moves the stand so far. */
  typedToward(by: Point): void;
  /** The next drawing that is typed begins here. */
  standAt(at: Point): void;
  /** The next corner from a place in a direction; null where there is none. */
  cornerToward(from: Point, by: Point): Point | null;
  /** A second finger or a lost pointer. */
  abandon(): void;
  /** Escape: first what is typed, then the gesture, then the tool, then the selection. */
  cancel(): void;
  /** The pointer has left the board. */
  leave(): void;
  /** A finger was lifted: what marked its place goes, unless a drawing is under way. */
  lift(): void;
  /** Where the pointer is, mm; null when it is not over the board. */
  pointer(): Point | null;
  /** What lies under a place, topmost first. */
  hit(raw: Point, touch: boolean): readonly Ref[];
  /** Tells where symbols are drawn that stand aside from their own place. */
  drawnAt(places: ReadonlyMap<string, Point>): void;
  view(): EditorView;
  subscribe(listener: () => void): () => void;
  dispose(): void;
}

export function createEditor(session: SessionApi, kinds: KindRegistry, ports: EditorPorts): Editor {
  let tool = toolOf(session.getState().tool);
  let state = tool.start;
  let typed = '';
  let snapped: Snapped | null = null;
  let last: PointerStep | null = null;
  let drawn: ReadonlyMap<string, Point> = new Map();
  let running = false;
  /** Whether whoever works here does so with a finger. */
  let finger = ports.finger ?? false;
  let version = 0;
  let made: { version: number; view: EditorView } | null = null;
  const listeners = new Set<() => void>();
  /** Where the next typed drawing begins; each step has its own, so that a step back goes back to where it began. */
  let stand: Point | null = null;
  const stands = new WeakMap<object, Point>();
  const lastStep = ({ history, opened }: SessionStore): object => undoable(history) ?? opened;

  const targets = remember((plan: Plan, level: string) => snapTargets(plan, level));
  const hits = remember(
    (plan: Plan, level: string, ways: readonly Way[]): HitIndex => hitIndex(plan, level, ways),
  );

  const offers = remember(
    (under: Underlay | null, plan: Plan, level: string): Offers => offersOn(under, plan, level),
  );
  const beneath = remember((under: Underlay | null, level: string) => underLines(under, level));

  const spoken = (message: Message): Message => (finger ? forFinger(message) : message);

  const changed = () => {
    version += 1;
    for (const listener of listeners) listener();
  };

  const context = (): ToolContext => {
    const s = session.getState();
    const plan = s.history.plan;
    const pixel = 1 / s.viewport.scale;
    // A cable is picked where the runs are what the leg is about.
    const ways = s.leg === 'runs' || s.leg === 'checks' ? (s.survey?.ways ?? NO_WAYS) : NO_WAYS;
    const index = () => hits(plan, s.level, ways);
    return {
      plan,
      kinds,
      level: s.level,
      option: s.toolOption,
      selection: s.selection,
      pixel,
      hit: (at, touch) => hitAt(index(), at, pixel, touch, drawn),
      inBox: (a, b, touching) => hitBox(index(), a, b, touching),
      offers: () => offers(s.under, plan, s.level),
    };
  };

  const place = (raw: Point, held: Held): Snapped => {
    const s = session.getState();
    const carried = tool.carried?.(state) ?? null;
    const at: Point = carried ? [raw[0] + carried.offset[0], raw[1] + carried.offset[1]] : raw;
    const asked = tool.snaps(state);
    const pixel = 1 / s.viewport.scale;
    const snaps = s.snapping && held.exact !== true ? asked : [];
    const sees = s.snapsUnder && s.shown.background && snaps.includes('under-line');
    return snap(targets(s.history.plan, s.level), at, {
      pixel,
      kinds: snaps,
      grid: gridStep(job(s.history.plan).units, pixel),
      anchor: tool.anchor(state),
      lock: held.shift === true && asked.includes('right-angle'),
      without: new Set((carried?.refs ?? []).map(refKey)),
      under: sees
        ? underNear(beneath(s.under, s.level), at, REACH * pixel, LEAST_UNDER * pixel)
        : [],
    });
  };

  const send = (event: ToolEvent): void => {
    const now = context();
    const [next, effects] = tool.next(state, event, now);
    const moved = next !== state;
    state = next;
    for (const effect of effects) perform(effect);
    if (moved || effects.length > 0) changed();
  };

  const perform = (effect: ToolEffect): void => {
    const { actions } = session.getState();
    running = true;
    try {
      switch (effect.do) {
        case 'run': {
          const { name, args } = effect.command;
          actions.run(name, args as CommandArgs<typeof name>, effect.merge);
          return;
        }
        case 'preview':
          if (effect.changes !== null || session.getState().preview !== null)
            actions.show(effect.changes);
          return;
        case 'select':
          actions.select(effect.refs);
          return;
        case 'hover':
          if (!sameRef(session.getState().hover, effect.ref)) actions.set({ hover: effect.ref });
          return;
        case 'say':
          actions.say(spoken(effect.message));
          return;
        case 'stand':
          standAt(endNear(targetsNow(), effect.at, NEAR_STAND) ?? effect.at);
          return;
        case 'pan': {
          const { viewport } = session.getState();
          const [dx, dy] = effect.by;
          actions.set({
            viewport: { ...viewport, left: viewport.left + dx, top: viewport.top + dy },
          });
          return;
        }
        case 'ask-length':
          void answer(effect);
          return;
        case 'straighten':
          ports.straighten(effect);
          return;
        case 'done':
          actions.pick('select');
          return;
      }
    } finally {
      running = false;
    }
  };

  const answer = async (request: LengthRequest): Promise<void> => {
    const answered = await ports.askLength(request);
    if (answered === null) return;
    const { for: name, background, a, b } = request;
    const { length, follow } = answered;
    const { actions } = session.getState();
    if (name === 'set-scale') actions.run(name, { background, a, b, length, follow });
    else actions.run(name, { background, a, b, length });
  };

  const step = (type: PointerStep['type'], raw: Point, held: Held): void => {
    if (finger !== (held.touch ?? false)) {
      finger = !finger;
      changed();
    }
    const before = snapped;
    snapped = place(raw, held);
    last = {
      type,
      at: snapped.at,
      raw,
      shift: held.shift ?? false,
      ctrl: held.ctrl ?? false,
      touch: held.touch ?? false,
    };
    if (snapped.acts.length > 0 || (before?.acts.length ?? 0) > 0) changed();
    send(last);
  };

  /** The gesture goes on from where the pointer is, as after a typed length. */
  const again = () => {
    if (last && state !== tool.start) step('move', last.raw, last);
  };

  const restart = () => {
    typed = '';
    snapped = null;
    state = tool.start;
    changed();
  };

  const type = (key: string): boolean => {
    if (typed === '' ? !beginsLength(key) : !goesOn(key)) return false;
    if (!measuring() && !(standing() && (typed !== '' || key !== FIT_KEY))) return false;
    typed += key;
    if (standing()) standAt(stand ?? firstStand());
    changed();
    return true;
  };

  const measuring = (): boolean => tool.lengths !== false && tool.anchor(state) !== null;

  /** Whether no gesture has begun. */
  const idle = (): boolean => state === tool.start || tool.waits?.(state) === true;

  const frameAngle = (): number => {
    const { history, level } = session.getState();
    return history.plan.tables.levels.get(level)?.frameAngle ?? 0;
  };

  /** Whether the next typed length would begin a drawing. */
  const standing = (): boolean => tool.typedFirst === true && state === tool.start;

  const targetsNow = () => {
    const { history, level } = session.getState();
    return targets(history.plan, level);
  };

  const standAt = (at: Point): void => {
    stand = at;
    stands.set(lastStep(session.getState()), at);
    changed();
  };

  /** Where nothing was drawn yet: the zero of the plan where it is seen, else the middle of the board, on the grid. */
  const firstStand = (): Point => {
    const { history, viewport } = session.getState();
    const { left, top, width, height, scale } = viewport;
    if (left < 0 && top < 0 && left + width / scale > 0 && top + height / scale > 0) return [0, 0];
    const grid = gridStep(job(history.plan).units, 1 / scale);
    const onGrid = (v: number) => Math.round(Math.round(v / grid) * grid) + 0;
    return [onGrid(left + width / 2 / scale), onGrid(top + height / 2 / scale)];
  };

  /** Begins a drawing at the stand, as a click there would. */
  const beginAtStand = (): void => {
    const at = stand ?? firstStand();
    standAt(at);
    step('press', at, { exact: true });
    step('release', at, { exact: true });
  };

  const enterTyped = (by: Point | null = null): void => {
    const { history, actions } = session.getState();
    const { units } = job(history.plan);
    const read = readTyped(typed, units);
    if (!read) {
      actions.say(whyNoLength(typed, units), 'warning');
      return;
    }
    typed = '';
    changed();
    const { angle, ...length } = read;
    if (standing()) {
      if (by && length.second === undefined && angle === undefined) {
        standAt(placeBy(targetsNow(), stand ?? firstStand(), by, length.mm));
        return;
      }
      beginAtStand();
    }
    // Typed from the building lines, counting up as seen; y runs down.
    const turned =
      angle !== undefined
        ? { angle: frameAngle() - angle }
        : by
          ? { angle: frameAngle() + (Math.atan2(by[1], by[0]) * 180) / Math.PI }
          : {};
    send({ type: 'length', ...length, ...turned });
    again();
  };

  const unsubscribe = session.subscribe((now, before) => {
    if (now.opened !== before.opened) stand = null;
    else if (now.history.plan !== before.history.plan) {
      const there = stands.get(lastStep(now)) ?? stand;
      if (there !== stand) {
        stand = there;
        changed();
      }
    }
    if (now.tool !== before.tool || now.toolOption !== before.toolOption) {
      tool = toolOf(now.tool);
      restart();
      if (now.hover !== null) now.actions.set({ hover: null });
    } else {
      if (!running && state !== tool.start && interrupted(now, before)) restart();
      // What is offered follows from both.
      if (now.under !== before.under || interrupted(now, before)) changed();
    }
  });

  const leave = (): void => {
    snapped = null;
    last = null;
    const { preview, hover, actions } = session.getState();
    if (idle()) state = tool.start;
    if (state === tool.start && preview !== null) actions.show(null);
    if (hover !== null) actions.set({ hover: null });
    changed();
  };

  return {
    press: (raw, held = {}) => step('press', raw, held),
    move: (raw, held = {}) => step('move', raw, held),
    release: (raw, held = {}) => step('release', raw, held),
    double: (raw) => send({ type: 'double', at: place(raw, {}).at, raw }),
    key(key, held = {}) {
      if (typed !== '' && key === 'Enter') {
        enterTyped();
        return true;
      }
      if (typed !== '' && key === 'Backspace') {
        typed = typed.slice(0, -1);
        changed();
        return true;
      }
      if (!held.ctrl && type(key)) return true;
      const before = state;
      send({ type: 'key', key, shift: held.shift ?? false, ctrl: held.ctrl ?? false });
      if (state !== before) again();
      return state !== before;
    },
    typeLength(text) {
      typed = text;
      enterTyped();
      typed = '';
      changed();
    },
    typedToward: (by) => enterTyped(by),
    standAt,
    cornerToward: (from, by) => endToward(targetsNow(), from, by),
    abandon() {
      send({ type: 'abandon' });
      snapped = null;
      changed();
    },
    cancel() {
      const { actions, selection } = session.getState();
      if (typed !== '') {
        typed = '';
        changed();
        return;
      }
      const waits = idle();
      send({ type: 'cancel' });
      snapped = null;
      if (!waits) changed();
      else if (tool.id !== 'select') actions.pick('select');
      else if (selection.length > 0) actions.select([]);
    },
    leave,
    lift() {
      if (idle()) leave();
    },
    pointer: () => last?.raw ?? null,
    hit: (raw, touch) => context().hit(raw, touch),
    drawnAt(places) {
      drawn = places;
    },
    view() {
      if (made?.version !== version) {
        const begins = standing() ? stand : null;
        const now = context();
        made = {
          version,
          view: {
            tool,
            overlay: tool.overlay(state, now),
            snapped,
            typed,
            hint: spoken(begins ? atTheRing(tool.hint(state, now)) : tool.hint(state, now)),
            busy: !idle(),
            measuring: measuring(),
            anchor: tool.anchor(state),
            stand: begins,
          },
        };
      }
      return made.view;
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    dispose: unsubscribe,
  };
}

/** A corner so near to where the next drawing would begin is meant, mm: a side may have been laid on a wall. */
const NEAR_STAND = 305;
/** A line of the background that is seen shorter than this is a letter or a speck, px. */
const LEAST_UNDER = 8;
/** A digit that, before anything is typed, shows all of the plan. */
const FIT_KEY = '0';

const atTheRing = ({ text, params }: Message): Message =>
  msg(`${text} What you type begins at the ring.`, params);

const NO_WAYS: readonly Way[] = [];

const toolOf = (id: string): Tool => tools.get(id) ?? tools.get('select')!;

const sameRef = (a: Ref | null, b: Ref | null): boolean =>
  a === b || (a !== null && b !== null && a.table === b.table && a.id === b.id);

/** Whether the plan or the level changed under a gesture, so that it cannot go on. */
const interrupted = (now: SessionStore, before: SessionStore): boolean =>
  now.history.plan !== before.history.plan || now.level !== before.level;

/** Keeps the last answer of a function, for the same arguments. */
function remember<A extends readonly unknown[], R>(make: (...args: A) => R): (...args: A) => R {
  let args: A | null = null;
  let result: R;
  return (...now) => {
    if (args === null || now.some((value, i) => value !== args![i])) {
      args = now;
      result = make(...now);
    }
    return result;
  };
}
