import type { Message } from '../base/message.ts';
import type { Point } from '../geometry/point.ts';
import type { CommandArgs } from '../plan/commands/index.ts';
import type { Ref } from '../plan/plan.ts';
import type { EditorPorts, Held, LengthRequest } from './editor.ts';
import { forFinger } from './hints.ts';
import type { SessionApi } from './session.ts';
import type { Sight } from './sight.ts';
import type { Snapped } from './snap.ts';
import { endNear } from './snap-targets.ts';
import type { Stand } from './stand.ts';
import { tools } from './tools/index.ts';
import type { PointerStep, Tool, ToolEffect, ToolEvent } from './tools/tool.ts';

/** The tool in hand and how far its gesture has come. */
export interface Hand {
  readonly tool: Tool;
  readonly state: unknown;
  /** What acted on the last place of the pointer. */
  readonly snapped: Snapped | null;
  readonly last: PointerStep | null;
  /** Whether the session changes because the tool asked for it. */
  readonly acting: boolean;
  step(type: PointerStep['type'], raw: Point, held: Held): void;
  send(event: ToolEvent): void;
  /** The gesture goes on from where the pointer is, as after a typed length. */
  again(): void;
  /** Whether no gesture has begun. */
  idle(): boolean;
  /** Takes a tool by its id, at its start. */
  take(id: string): void;
  /** Back to the start of the tool. */
  reset(): void;
  /** No place acts on the pointer any more. */
  letGo(): void;
  leave(): void;
  /** A message in words for whoever works here, with a pointer or a finger. */
  spoken(message: Message): Message;
}

/** A corner so near to where the next drawing would begin is meant, mm: a side may have been laid on a wall. */
const NEAR_STAND = 305;

const toolOf = (id: string): Tool => tools.get(id) ?? tools.get('select')!;

const sameRef = (a: Ref | null, b: Ref | null): boolean =>
  a === b || (a !== null && b !== null && a.table === b.table && a.id === b.id);

export function createHand(
  session: SessionApi,
  sight: Sight,
  stand: Stand,
  ports: EditorPorts,
  changed: () => void,
): Hand {
  let tool = toolOf(session.getState().tool);
  let state = tool.start;
  let snapped: Snapped | null = null;
  let last: PointerStep | null = null;
  let acting = false;
  /** Whether whoever works here does so with a finger. */
  let finger = ports.finger ?? false;

  const spoken = (message: Message): Message => (finger ? forFinger(message) : message);

  const answer = async (request: LengthRequest): Promise<void> => {
    const answered = await ports.askLength(request);
    if (answered === null) return;
    const { for: name, background, a, b } = request;
    const { length, follow } = answered;
    const { actions } = session.getState();
    if (name === 'set-scale') actions.run(name, { background, a, b, length, follow });
    else actions.run(name, { background, a, b, length });
  };

  const perform = (effect: ToolEffect): void => {
    const { actions, preview, hover, viewport } = session.getState();
    switch (effect.do) {
      case 'run': {
        const { name, args } = effect.command;
        actions.run(name, args as CommandArgs<typeof name>, effect.merge);
        return;
      }
      case 'preview':
        if (effect.changes !== null || preview !== null) actions.show(effect.changes);
        return;
      case 'select':
        actions.select(effect.refs);
        return;
      case 'hover':
        if (!sameRef(hover, effect.ref)) actions.set({ hover: effect.ref });
        return;
      case 'say':
        actions.say(spoken(effect.message));
        return;
      case 'stand':
        stand.put(endNear(sight.targets(), effect.at, NEAR_STAND) ?? effect.at);
        return;
      case 'pan': {
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
  };

  const send = (event: ToolEvent): void => {
    const [next, effects] = tool.next(state, event, sight.context());
    const moved = next !== state;
    state = next;
    for (const effect of effects) {
      acting = true;
      try {
        perform(effect);
      } finally {
        acting = false;
      }
    }
    if (moved || effects.length > 0) changed();
  };

  const step = (type: PointerStep['type'], raw: Point, held: Held): void => {
    const { shift = false, ctrl = false, touch = false } = held;
    if (finger !== touch) {
      finger = touch;
      changed();
    }
    const before = snapped;
    snapped = sight.place(tool, state, raw, held);
    last = { type, at: snapped.at, raw, shift, ctrl, touch };
    if (snapped.acts.length > 0 || (before?.acts.length ?? 0) > 0) changed();
    send(last);
    // A gesture that ended no longer holds its place: the tool as it is now says what acts there.
    if (type !== 'release' || !snapped?.acts.length) return;
    snapped = sight.place(tool, state, raw, held);
    changed();
  };

  const idle = (): boolean => state === tool.start || tool.waits?.(state) === true;

  return {
    get tool() {
      return tool;
    },
    get state() {
      return state;
    },
    get snapped() {
      return snapped;
    },
    get last() {
      return last;
    },
    get acting() {
      return acting;
    },
    step,
    send,
    again() {
      if (last && state !== tool.start) step('move', last.raw, last);
    },
    idle,
    take(id) {
      tool = toolOf(id);
    },
    reset() {
      snapped = null;
      state = tool.start;
    },
    letGo() {
      snapped = null;
    },
    leave() {
      snapped = null;
      last = null;
      const { preview, hover, actions } = session.getState();
      if (idle()) state = tool.start;
      if (state === tool.start && preview !== null) actions.show(null);
      if (hover !== null) actions.set({ hover: null });
      changed();
    },
    spoken,
  };
}
