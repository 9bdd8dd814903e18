import { type Message, msg } from '../base/message.ts';
import { type SessionApi, shownPlan } from '../board/session.ts';
import type { Plan } from '../plan/plan.ts';
import type { SurveyPort } from '../ports/ports.ts';
import type { Survey } from '../results/types.ts';

export interface Surveying {
  /** The plan as it is committed with its survey, as soon as that is there. Rejects when the survey fails. */
  current(): Promise<{ readonly plan: Plan; readonly survey: Survey }>;
  stop(): void;
}

const stopped = (reason: string): Message =>
  msg(
    'The lengths and the price are no longer up to date: the survey stopped ({reason}). Undo the last step, or save the job as a file and reload the page.',
    { reason },
  );

/** Surveys whatever plan is on the screen, gestures included; a failure is said once until it is over. */
export function surveyAlong(session: SessionApi, surveys: SurveyPort): Surveying {
  const { actions } = session.getState();
  let latest: { readonly plan: Plan; readonly answer: Promise<Survey | null> } | null = null;
  let said = '';

  async function show(plan: Plan, answer: Promise<Survey | null>): Promise<void> {
    const { opened } = session.getState();
    try {
      const survey = await answer;
      // What is found out of a job that was put away says nothing of the one that took its place.
      if (!survey || session.getState().opened !== opened) return;
      said = '';
      actions.set({ survey, surveyed: plan });
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      if (reason !== said) actions.say(stopped(reason), 'warning');
      said = reason;
    }
  }

  function ask(plan: Plan): void {
    if (plan === latest?.plan) return;
    latest = { plan, answer: surveys.survey(plan) };
    void show(plan, latest.answer);
  }

  /** Resolves at the next change on the screen. */
  const change = () =>
    new Promise<void>((done) => {
      const stop = session.subscribe(() => {
        stop();
        done();
      });
    });

  ask(shownPlan(session.getState()));
  return {
    stop: session.subscribe((now) => ask(shownPlan(now))),
    async current() {
      for (;;) {
        const { plan } = session.getState().history;
        if (latest?.plan !== plan) {
          // A gesture is under way, and its plan is surveyed.
          await change();
          continue;
        }
        const survey = await latest.answer;
        if (survey && plan === session.getState().history.plan) return { plan, survey };
      }
    },
  };
}
