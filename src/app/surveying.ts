import { msg } from '../base/message.ts';
import { type SessionApi, shownPlan } from '../board/session.ts';
import type { Plan } from '../plan/plan.ts';
import type { SurveyPort } from '../ports/ports.ts';

/** Surveys whatever plan is on the screen, gestures included; a failure is said once until it is over. */
export function surveyAlong(session: SessionApi, surveys: SurveyPort): () => void {
  const { actions } = session.getState();
  let asked: Plan | null = null;
  let said = '';
  async function ask(plan: Plan): Promise<void> {
    if (plan === asked) return;
    asked = plan;
    try {
      const survey = await surveys.survey(plan);
      if (!survey) return;
      said = '';
      actions.set({ survey, surveyed: plan });
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      if (reason === said) return;
      said = reason;
      actions.say(
        msg(
          'The lengths and the price are no longer up to date: the survey stopped ({reason}). Undo the last step, or save the job as a file and reload the page.',
          { reason },
        ),
        'warning',
      );
    }
  }
  void ask(shownPlan(session.getState()));
  return session.subscribe((now) => void ask(shownPlan(now)));
}
