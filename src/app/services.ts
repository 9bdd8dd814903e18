import type { SessionApi } from '../board/session.ts';
import type { Services } from '../desk/services.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { emptyPlan } from '../plan/plan.ts';
import type { AssetPort, SurveyPort } from '../ports/ports.ts';
import { createAttempts } from './attempts.ts';
import { handingOut } from './handing-out.ts';
import { replacePlan } from './replace.ts';
import type { Surveying } from './surveying.ts';
import { takingIn } from './taking-in.ts';

interface ServiceParts {
  readonly session: SessionApi;
  readonly kinds: KindRegistry;
  readonly assets: AssetPort;
  readonly surveys: Pick<SurveyPort, 'closets'>;
  readonly surveying: Surveying;
  /** The time now. */
  readonly now: () => Date;
}

/** What the desk asks of the app. Whatever goes wrong is said in a notice, and the open job stays as it is. */
export function createServices(given: ServiceParts): Services {
  const { session, surveys } = given;
  const parts = { ...given, attempts: createAttempts(session) };
  return {
    newJob: async () => {
      replacePlan(session, emptyPlan());
      session.getState().actions.set({ leg: 'base' });
    },
    studyClosets: async () => {
      const { plan } = session.getState().history;
      return { plan, study: await surveys.closets(plan) };
    },
    ...takingIn(parts),
    ...handingOut(parts),
  };
}
