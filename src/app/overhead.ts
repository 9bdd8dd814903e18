import { msg } from '../base/message.ts';
import { type SessionApi, type SessionStore, shownPlan } from '../board/session.ts';
import type { Plan } from '../plan/plan.ts';
import type { SurveyPort } from '../ports/ports.ts';

/** Tables that the ceiling plane follows from. */
const PARTS = ['levels', 'zones', 'walls', 'keepouts', 'pathways', 'settings'] as const;

const same = (a: Plan, b: Plan): boolean =>
  PARTS.every((table) => a.tables[table] === b.tables[table]);

/**
 * Finds out what a cable may do overhead while somebody looks at it, for whatever plan is on the screen, gestures
 * included. A failure is said once, and the view is put away.
 *
 * @returns a function that stops it
 */
export function overheadAlong(session: SessionApi, port: Pick<SurveyPort, 'ceilings'>): () => void {
  const { actions } = session.getState();
  let asked: Plan | null = null;

  async function ask(plan: Plan): Promise<void> {
    asked = plan;
    const { opened } = session.getState();
    try {
      const planes = await port.ceilings(plan);
      if (planes && session.getState().opened === opened) actions.set({ planes });
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      asked = null;
      actions.set({ shown: { ...session.getState().shown, ceiling: false } });
      actions.say(
        msg('The ceiling plane cannot be shown: the survey stopped ({reason}).', { reason }),
        'warning',
      );
    }
  }

  function look(now: SessionStore): void {
    if (!now.shown.ceiling) return;
    const plan = shownPlan(now);
    if (!asked || !same(plan, asked)) void ask(plan);
  }

  look(session.getState());
  return session.subscribe(look);
}
