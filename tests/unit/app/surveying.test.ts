import { describe, expect, test, vi } from 'vitest';
import { surveyAlong } from '../../../src/app/surveying.ts';
import { createSession } from '../../../src/board/session.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { startHistory } from '../../../src/plan/history.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import type { SurveyPort } from '../../../src/ports/ports.ts';
import type { Survey } from '../../../src/results/types.ts';
import { createSurveyor } from '../../../src/survey/survey.ts';

const survey = createSurveyor(kinds);
const noStudy = (): Promise<never> => Promise.reject(new Error('not asked for here'));

function bench(port: SurveyPort) {
  const session = createSession(kinds, emptyPlan());
  const along = surveyAlong(session, port);
  const place = (x: number) =>
    session.getState().actions.run('place-closet', { level: 'L1', at: [x, 0] });
  return { session, along, place };
}

describe('surveying along', () => {
  test('asks once for each plan that is shown, gestures included', async () => {
    const asked: Plan[] = [];
    const port = {
      survey: async (plan: Plan) => {
        asked.push(plan);
        return survey(plan);
      },
      closets: noStudy,
      ceilings: noStudy,
    };
    const { session, place } = bench(port);
    place(1000);
    const { plan } = session.getState().history;
    session.getState().actions.show([]);
    session.getState().actions.say({ text: 'Nothing new', params: {} });
    const closet = plan.tables.closets.get('C1')!;
    session
      .getState()
      .actions.show([
        { table: 'closets', id: 'C1', before: closet, after: { ...closet, at: [2000, 0] } },
      ]);
    expect(asked.map((p) => p.tables.closets.get('C1')?.at[0])).toEqual([undefined, 1000, 2000]);
  });

  test('asks for no further plan of a gesture before the last was shown, and for the committed one at once', async () => {
    vi.useFakeTimers();
    try {
      const asked: { plan: Plan; answer: (of: Survey) => void }[] = [];
      const { session, place } = bench({
        survey: (plan) => new Promise((answer) => asked.push({ plan, answer })),
        closets: noStudy,
        ceilings: noStudy,
      });
      place(1000);
      const before = session.getState().history.plan.tables.closets.get('C1')!;
      const drag = (x: number) =>
        session
          .getState()
          .actions.show([
            { table: 'closets', id: 'C1', before, after: { ...before, at: [x, 0] as const } },
          ]);
      const places = () => asked.map(({ plan }) => plan.tables.closets.get('C1')?.at[0]);
      drag(2000);
      drag(3000);
      await vi.advanceTimersByTimeAsync(1000);
      drag(4000);
      expect(places()).toEqual([undefined, 1000, 2000]);
      asked[2]!.answer(survey(asked[2]!.plan));
      await vi.advanceTimersByTimeAsync(1000);
      expect(places()).toEqual([undefined, 1000, 2000, 4000]);
      drag(5000);
      session.getState().actions.show(null);
      expect(places().at(-1)).toBe(1000);
    } finally {
      vi.useRealTimers();
    }
  });

  test('gives the survey of the plan as it is committed, though others were asked for before', async () => {
    const { session, along, place } = bench({
      survey: async (plan) => survey(plan),
      closets: noStudy,
      ceilings: noStudy,
    });
    place(1000);
    const current = along.current();
    place(5000);
    const { plan } = session.getState().history;
    expect(await current).toEqual({ plan, survey: survey(plan) });
  });

  test('shows nothing of a job that was put away before its survey came', async () => {
    const answers: ((of: Survey | null) => void)[] = [];
    const { session, place } = bench({
      survey: () => new Promise((done) => answers.push(done)),
      closets: noStudy,
      ceilings: noStudy,
    });
    place(1000);
    const old = session.getState().history.plan;
    session.getState().actions.open(startHistory(emptyPlan()));
    answers[1]!(survey(old));
    await Promise.resolve();
    expect(session.getState().survey).toBeNull();
    const { plan } = session.getState().history;
    answers[2]!(survey(plan));
    await Promise.resolve();
    expect(session.getState().surveyed).toBe(plan);
  });

  test('says once that the survey stopped, and again only after it has worked in between', async () => {
    let broken = true;
    const port: SurveyPort = {
      survey: async (plan) => (broken ? Promise.reject(new Error('no way')) : survey(plan)),
      closets: noStudy,
      ceilings: noStudy,
    };
    const { session, along, place } = bench(port);
    // What is said again takes the place of what was said, with a number of its own.
    const said = () => session.getState().notices.map((n) => [n.id, n.message.params.reason]);
    place(1000);
    await expect(along.current()).rejects.toThrow('no way');
    place(2000);
    await expect(along.current()).rejects.toThrow('no way');
    expect(said()).toEqual([[1, 'no way']]);
    broken = false;
    place(3000);
    await along.current();
    broken = true;
    place(4000);
    await expect(along.current()).rejects.toThrow('no way');
    expect(said()).toEqual([[2, 'no way']]);
  });
});
