import { createContext, type ReactNode, useContext, useSyncExternalStore } from 'react';
import { useStore } from 'zustand';
import type { Units } from '../base/units.ts';
import type { SessionActions, SessionApi, SessionStore } from '../board/session.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { job, type Plan, type Ref } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';
import type { ClosetAsking } from './closet-asking.ts';
import { followerOf, pointedOf, resterOf } from './follow.ts';
import type { PrintChoiceApi } from './print-choice.ts';
import type { Services } from './services.ts';

/** What every part of the desk works with. */
export interface DeskParts {
  readonly session: SessionApi;
  readonly kinds: KindRegistry;
  readonly services: Services;
  readonly printChoice: PrintChoiceApi;
  readonly closetAsking: ClosetAsking;
}

const DeskContext = createContext<DeskParts | null>(null);

export function DeskProvider({ parts, children }: { parts: DeskParts; children: ReactNode }) {
  return <DeskContext value={parts}>{children}</DeskContext>;
}

export function useDesk(): DeskParts {
  const parts = useContext(DeskContext);
  if (parts === null) throw new Error('a part of the desk stands outside of it');
  return parts;
}

export const useKinds = (): KindRegistry => useDesk().kinds;

/** A piece of the session; the part is drawn anew only when that piece changes. */
export const useSession = <T,>(pick: (session: SessionStore) => T): T =>
  useStore(useDesk().session, pick);

export const useActions = (): SessionActions => useDesk().session.getState().actions;

/** The plan as it is committed: still while something is dragged. */
export const usePlan = (): Plan => useSession((s) => s.history.plan);

/** The plan as it is seen: it follows a drag, a few times a second. */
export function useShownPlan(): Plan {
  const { subscribe, get } = followerOf(useDesk().session);
  return useSyncExternalStore(subscribe, get);
}

/** The newest survey, for panels that are not about the thing in hand: it stands while something is dragged. */
export function useRestingSurvey(): Survey | null {
  const { subscribe, get } = resterOf(useDesk().session);
  return useSyncExternalStore(subscribe, get);
}

/** What the pointer rests on; what it passes over on its way draws nothing. */
export function usePointed(): Ref | null {
  const { subscribe, get } = pointedOf(useDesk().session);
  return useSyncExternalStore(subscribe, get);
}

export const useUnits = (): Units => useSession((s) => job(s.history.plan).units);
