import type { SessionApi } from '../board/session.ts';
import type { Plan, Ref } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';

/** While something is dragged, panels follow no oftener than this, so that no move of the pointer draws them, ms. */
const PACE = 150;

interface Follower {
  get(): Plan;
  subscribe(changed: () => void): () => void;
}

const followers = new WeakMap<SessionApi, Follower>();

/** The plan as it is seen, for panels: what is committed at once, a drag a few times a second. */
export function followerOf(session: SessionApi): Follower {
  const there = followers.get(session);
  if (there) return there;
  const made = createFollower(session);
  followers.set(session, made);
  return made;
}

function createFollower(session: SessionApi): Follower {
  const listeners = new Set<() => void>();
  let seen: { readonly preview: Plan; readonly over: Plan } | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let stop: (() => void) | null = null;

  const tell = () => {
    for (const listener of listeners) listener();
  };
  const look = () => {
    timer = undefined;
    seen = null;
    tell();
  };
  const watch = () =>
    session.subscribe((now, before) => {
      if (now.preview === before.preview && now.history === before.history) return;
      if (now.preview !== null && before.preview !== null && now.history === before.history) {
        timer ??= setTimeout(look, PACE);
        return;
      }
      clearTimeout(timer);
      look();
    });

  return {
    get() {
      const { preview, history } = session.getState();
      if (!preview) return history.plan;
      if (seen?.over !== history.plan) seen = { preview, over: history.plan };
      return seen.preview;
    },
    subscribe(changed) {
      listeners.add(changed);
      stop ??= watch();
      return () => {
        listeners.delete(changed);
        if (listeners.size > 0) return;
        stop?.();
        stop = null;
        clearTimeout(timer);
        timer = undefined;
      };
    },
  };
}

/** A hand that has not moved for this long rests, ms. */
const REST = 250;

/** The survey for panels that are not about the thing in hand: while a hand drags it stands, until that rests or lets go. */
interface Rester {
  get(): Survey | null;
  subscribe(changed: () => void): () => void;
}

const resters = new WeakMap<SessionApi, Rester>();

export function resterOf(session: SessionApi): Rester {
  const there = resters.get(session);
  if (there) return there;
  const made = createRester(session);
  resters.set(session, made);
  return made;
}

function createRester(session: SessionApi): Rester {
  const listeners = new Set<() => void>();
  let held: { readonly survey: Survey | null } | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let stop: (() => void) | null = null;

  const rest = () => {
    clearTimeout(timer);
    held = null;
    for (const listener of listeners) listener();
  };
  const watch = () =>
    session.subscribe((now, before) => {
      if (now.preview !== null && now.preview !== before.preview) {
        held ??= { survey: before.survey };
        clearTimeout(timer);
        timer = setTimeout(rest, REST);
      } else if (now.preview === null && held) rest();
      else if (now.survey !== before.survey && !held) rest();
    });

  return {
    get: () => (held ? held.survey : session.getState().survey),
    subscribe(changed) {
      listeners.add(changed);
      stop ??= watch();
      return () => {
        listeners.delete(changed);
        if (listeners.size > 0) return;
        stop?.();
        stop = null;
        clearTimeout(timer);
        held = null;
      };
    },
  };
}

/** A pointer that has stayed on one thing for this long means it, ms. */
const MEANT = 120;

/** What the pointer rests on, for panels: what it merely passes over draws nothing. */
interface Pointed {
  get(): Ref | null;
  subscribe(changed: () => void): () => void;
}

const pointed = new WeakMap<SessionApi, Pointed>();

export function pointedOf(session: SessionApi): Pointed {
  const there = pointed.get(session);
  if (there) return there;
  const made = createPointed(session);
  pointed.set(session, made);
  return made;
}

function createPointed(session: SessionApi): Pointed {
  const listeners = new Set<() => void>();
  let meant: Ref | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let stop: (() => void) | null = null;

  const watch = () =>
    session.subscribe((now, before) => {
      if (now.hover === before.hover) return;
      clearTimeout(timer);
      timer = setTimeout(() => {
        meant = now.hover;
        for (const listener of listeners) listener();
      }, MEANT);
    });

  return {
    get: () => meant,
    subscribe(changed) {
      listeners.add(changed);
      stop ??= watch();
      return () => {
        listeners.delete(changed);
        if (listeners.size > 0) return;
        stop?.();
        stop = null;
        clearTimeout(timer);
        meant = null;
      };
    },
  };
}
