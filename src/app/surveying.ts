import { type Message, msg } from '../base/message.ts';
import type { Session, SessionApi } from '../board/session.ts';
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

const elapsed = (ms: number) => new Promise<void>((over) => setTimeout(over, ms));

/** While a gesture lasts its plan is surveyed no oftener than this, ms. */
const PACE = 150;

/**
 * Surveys whatever plan is on the screen: what is committed at once, a gesture at a pace, and never before its last
 * survey was shown. A failure is said once until it is over.
 */
export function surveyAlong(session: SessionApi, surveys: SurveyPort): Surveying {
  const { actions } = session.getState();
  let latest: { readonly plan: Plan; readonly answer: Promise<Survey | null> } | null = null;
  /** What keeps the next plan of a gesture waiting. */
  let pause: Promise<unknown> | null = null;
  let said = '';
  let done = false;

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

  function ask({ preview, history }: Session): void {
    const plan = preview ?? history.plan;
    if (plan === latest?.plan || (preview && pause)) return;
    latest = { plan, answer: surveys.survey(plan) };
    const shown = show(plan, latest.answer);
    if (!preview) {
      pause = null;
      return;
    }
    const over = Promise.all([shown, elapsed(PACE)]);
    pause = over;
    void over.then(() => {
      if (pause !== over) return;
      pause = null;
      if (!done) ask(session.getState());
    });
  }

  /** Resolves at the next change on the screen. */
  const change = () =>
    new Promise<void>((changed) => {
      const stop = session.subscribe(() => {
        stop();
        changed();
      });
    });

  ask(session.getState());
  const unsubscribe = session.subscribe(ask);
  return {
    stop() {
      done = true;
      unsubscribe();
    },
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
