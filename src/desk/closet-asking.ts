import { createStore, type StoreApi } from 'zustand/vanilla';
import type { SessionApi } from '../board/session.ts';
import type { Plan } from '../plan/plan.ts';
import { rowsBetween } from '../plan/sent-rows.ts';
import type { Services, StudiedClosets } from './services.ts';

/** How far the question is what one more closet would do. */
export type Asked =
  | { readonly state: 'idle' | 'busy' }
  | { readonly state: 'failed'; readonly reason: string }
  | { readonly state: 'done'; readonly found: StudiedClosets };

/** The question and its answer; both are kept while other panels are looked at, and dropped with the job. */
export interface ClosetAsking extends Pick<StoreApi<Asked>, 'getState' | 'subscribe'> {
  ask(): Promise<void>;
}

/** Asks what one more closet would do. */
export function createClosetAsking(
  session: SessionApi,
  services: Pick<Services, 'studyClosets'>,
): ClosetAsking {
  const asked = createStore<Asked>()(() => ({ state: 'idle' }));
  let job = session.getState().opened;
  session.subscribe(({ opened }) => {
    if (opened === job) return;
    job = opened;
    asked.setState({ state: 'idle' }, true);
  });
  return {
    getState: asked.getState,
    subscribe: asked.subscribe,
    async ask() {
      const of = job;
      const answer = (now: Asked) => {
        if (of === job) asked.setState(now, true);
      };
      answer({ state: 'busy' });
      try {
        answer({ state: 'done', found: await services.studyClosets() });
      } catch (error) {
        answer({ state: 'failed', reason: error instanceof Error ? error.message : String(error) });
      }
    },
  };
}

/** Whether something was done to the plan since it was studied that was not taken back again. */
export const isOld = (found: StudiedClosets, now: Plan): boolean =>
  rowsBetween(found.plan, now).length > 0;
