import { type Message, msg } from '../base/message.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import type { Editor, EditorPorts, EditorView } from './editor.ts';
import { createHand } from './hand.ts';
import type { SessionApi, SessionStore } from './session.ts';
import { createSight } from './sight.ts';
import { endToward } from './snap-targets.ts';
import { createStand } from './stand.ts';
import { createTypedLength } from './typed-length.ts';

/** Puts an editor together: what the tool sees, the tool in hand, what is typed, and where a typed drawing begins. */
export function createEditor(session: SessionApi, kinds: KindRegistry, ports: EditorPorts): Editor {
  let version = 0;
  let made: { version: number; view: EditorView } | null = null;
  const listeners = new Set<() => void>();
  const changed = () => {
    version += 1;
    tellDrawing();
    for (const listener of listeners) listener();
  };

  const sight = createSight(session, kinds);
  const stand = createStand(session);
  const hand = createHand(session, sight, stand, ports, changed);
  const typed = createTypedLength(session, sight, stand, hand, changed);

  /** Whether something is drawn that is no step yet; what the select tool drags follows the finger alone. */
  const isDrawing = (): boolean => {
    const { tool, state } = hand;
    return !hand.idle() && !tool.over?.(state) && tool.id !== 'select' && tool.id !== 'pan';
  };

  /** Takes back what was typed or drawn last, or all of it where the tool knows no parts. */
  const back = () => {
    if (typed.text !== '') return typed.put('');
    const before = hand.state;
    hand.send({ type: 'key', key: 'Backspace', shift: false, ctrl: false });
    if (hand.state === before) hand.send({ type: 'cancel' });
    // A finger is not where the drawing goes on, as a mouse is.
    if (hand.last?.touch) hand.letGo();
    else hand.again();
    changed();
  };
  const drawing = { back };

  const tellDrawing = () => {
    const { drawing: told, actions } = session.getState();
    if ((told !== null) !== isDrawing()) actions.set({ drawing: told ? null : drawing });
  };

  const restart = () => {
    typed.forget();
    hand.reset();
    changed();
  };

  const follow = session.subscribe((now, before) => {
    if (stand.follow(now, before)) changed();
    if (now.tool !== before.tool || now.toolOption !== before.toolOption) {
      hand.take(now.tool);
      restart();
      if (now.hover !== null) now.actions.set({ hover: null });
    } else {
      if (!hand.acting && hand.state !== hand.tool.start && interrupted(now, before)) restart();
      // What is offered follows from both.
      if (now.under !== before.under || interrupted(now, before)) changed();
    }
  });

  const makeView = (): EditorView => {
    const { tool, state, snapped } = hand;
    const begins = typed.begins() ? stand.get() : null;
    const now = sight.context();
    const hint = tool.hint(state, now);
    return {
      tool,
      overlay: tool.overlay(state, now),
      snapped,
      typed: typed.text,
      hint: hand.spoken(begins ? atTheRing(hint) : hint),
      busy: !hand.idle(),
      measuring: typed.measures(),
      anchor: tool.anchor(state),
      stand: begins,
    };
  };

  return {
    press: (raw, held = {}) => hand.step('press', raw, held),
    move: (raw, held = {}) => hand.step('move', raw, held),
    release: (raw, held = {}) => hand.step('release', raw, held),
    double: (raw) =>
      hand.send({ type: 'double', at: sight.place(hand.tool, hand.state, raw, {}).at, raw }),
    key(key, held = {}) {
      if (typed.text !== '' && key === 'Enter') {
        typed.enter();
        return true;
      }
      if (typed.text !== '' && key === 'Backspace') {
        typed.back();
        return true;
      }
      if (!held.ctrl && typed.type(key)) return true;
      const before = hand.state;
      hand.send({ type: 'key', key, shift: held.shift ?? false, ctrl: held.ctrl ?? false });
      if (hand.state !== before) hand.again();
      return hand.state !== before;
    },
    typeLength(text) {
      typed.put(text);
      typed.enter();
      typed.put('');
    },
    typedToward: (by) => typed.enter(by),
    standAt(at) {
      stand.put(at);
      changed();
    },
    cornerToward: (from, by) => endToward(sight.targets(), from, by),
    abandon() {
      hand.send({ type: 'abandon' });
      hand.letGo();
      changed();
    },
    cancel() {
      const { actions, selection } = session.getState();
      if (typed.text !== '') {
        typed.put('');
        return;
      }
      const waits = hand.idle();
      hand.send({ type: 'cancel' });
      hand.letGo();
      if (!waits) changed();
      else if (hand.tool.id !== 'select') actions.pick('select');
      else if (selection.length > 0) actions.select([]);
    },
    leave: () => hand.leave(),
    lift() {
      if (hand.idle()) hand.leave();
    },
    pointer: () => hand.last?.raw ?? null,
    hit: (raw, touch) => sight.context().hit(raw, touch),
    drawnAt: (places) => sight.drawnAt(places),
    view() {
      if (made?.version !== version) made = { version, view: makeView() };
      return made.view;
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    dispose() {
      follow();
      if (session.getState().drawing === drawing) session.getState().actions.set({ drawing: null });
    },
  };
}

const atTheRing = ({ text, params }: Message): Message =>
  msg(`${text} What you type begins at the ring.`, params);

/** Whether the plan or the level changed under a gesture, so that it cannot go on. */
const interrupted = (now: SessionStore, before: SessionStore): boolean =>
  now.history.plan !== before.history.plan || now.level !== before.level;
