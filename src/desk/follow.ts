import type { SessionApi, SessionStore } from '../board/session.ts';
import type { Plan, Ref } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';

/** Something of a session for panels, which changes less often than the session does. */
interface Follower<T> {
  get(): T;
  subscribe(changed: () => void): () => void;
}

/** How a follower watches a session; it sees nothing while nobody listens. */
interface Watch<T> {
  get(): T;
  see(now: SessionStore, before: SessionStore): void;
  /** The last listener has gone. */
  rest(): void;
}

/** Made for a session when it is first asked for, and the same for whoever asks after. */
function perSession<T>(make: (session: SessionApi, tell: () => void) => Watch<T>) {
  const followers = new WeakMap<SessionApi, Follower<T>>();
  return (session: SessionApi): Follower<T> => {
    const there = followers.get(session);
    if (there) return there;
    const made = follow(session, make);
    followers.set(session, made);
    return made;
  };
}

function follow<T>(
  session: SessionApi,
  make: (session: SessionApi, tell: () => void) => Watch<T>,
): Follower<T> {
  const listeners = new Set<() => void>();
  const watch = make(session, () => {
    for (const listener of listeners) listener();
  });
  let stop: (() => void) | null = null;
  return {
    get: watch.get,
    subscribe(changed) {
      listeners.add(changed);
      stop ??= session.subscribe(watch.see);
      return () => {
        listeners.delete(changed);
        if (listeners.size > 0) return;
        stop?.();
        stop = null;
        watch.rest();
      };
    },
  };
}

type Timer = ReturnType<typeof setTimeout> | undefined;

/**
 * While something is dragged, panels follow with each survey, which draws them anyway, and where none comes after this
 * long, ms: no move of the pointer draws them, nor do a plan and its survey one after the other.
 */
const PACE = 400;

/** The plan as it is seen, for panels: what is committed at once, a drag a few times a second. */
export const followerOf = perSession<Plan>((session, tell) => {
  let seen: { readonly preview: Plan; readonly over: Plan } | null = null;
  let timer: Timer;
  const look = () => {
    timer = undefined;
    seen = null;
    tell();
  };
  return {
    get() {
      const { preview, history } = session.getState();
      if (!preview) return history.plan;
      if (seen?.over !== history.plan) seen = { preview, over: history.plan };
      return seen.preview;
    },
    see(now, before) {
      const same = now.preview === before.preview && now.history === before.history;
      if (same && (timer === undefined || now.survey === before.survey)) return;
      if (
        !same &&
        now.preview !== null &&
        before.preview !== null &&
        now.history === before.history
      ) {
        timer ??= setTimeout(look, PACE);
        return;
      }
      clearTimeout(timer);
      look();
    },
    rest() {
      clearTimeout(timer);
      timer = undefined;
      seen = null;
    },
  };
});

/** A hand that has not moved for this long rests, ms. */
const REST = 250;

/** The survey for panels that are not about the thing in hand: while a hand drags it stands, until that rests or lets go. */
export const resterOf = perSession<Survey | null>((session, tell) => {
  let held: { readonly survey: Survey | null } | null = null;
  let timer: Timer;
  const letGo = () => {
    clearTimeout(timer);
    held = null;
  };
  const look = () => {
    letGo();
    tell();
  };
  return {
    get: () => (held ? held.survey : session.getState().survey),
    see(now, before) {
      if (now.preview !== null && now.preview !== before.preview) {
        held ??= { survey: before.survey };
        clearTimeout(timer);
        timer = setTimeout(look, REST);
      } else if (now.preview === null && held) look();
      else if (now.survey !== before.survey && !held) look();
    },
    rest: letGo,
  };
});

/** A pointer that has stayed on one thing for this long means it, ms. */
const MEANT = 120;

/** What the pointer rests on, for panels: what it merely passes over draws nothing. */
export const pointedOf = perSession<Ref | null>((_, tell) => {
  let meant: Ref | null = null;
  let timer: Timer;
  return {
    get: () => meant,
    see(now, before) {
      if (now.hover === before.hover) return;
      clearTimeout(timer);
      timer = setTimeout(() => {
        meant = now.hover;
        tell();
      }, MEANT);
    },
    rest() {
      clearTimeout(timer);
      meant = null;
    },
  };
});
