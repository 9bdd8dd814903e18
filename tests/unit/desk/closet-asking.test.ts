import { expect, it } from 'vitest';
import { createSession } from '../../../src/board/session.ts';
import { createClosetAsking, isOld } from '../../../src/desk/closet-asking.ts';
import type { StudiedClosets } from '../../../src/desk/services.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { startHistory } from '../../../src/plan/history.ts';
import { emptyPlan } from '../../../src/plan/plan.ts';

const started = () => {
  const session = createSession(kinds, emptyPlan());
  const found: StudiedClosets = {
    plan: session.getState().history.plan,
    study: { places: 0, best: null, passed: null },
  };
  let answer: (found: StudiedClosets) => void = () => {};
  let refuse: (error: Error) => void = () => {};
  const asking = createClosetAsking(session, {
    studyClosets: () =>
      new Promise((resolve, reject) => {
        answer = resolve;
        refuse = reject;
      }),
  });
  return { session, found, asking, answer: () => answer(found), refuse: (e: Error) => refuse(e) };
};

it('keeps the answer to what one more closet would do, or why there is none', async () => {
  const { asking, answer, refuse, found } = started();
  expect(asking.getState()).toEqual({ state: 'idle' });
  const first = asking.ask();
  expect(asking.getState()).toEqual({ state: 'busy' });
  answer();
  await first;
  expect(asking.getState()).toEqual({ state: 'done', found });
  const again = asking.ask();
  refuse(new Error('no worker'));
  await again;
  expect(asking.getState()).toEqual({ state: 'failed', reason: 'no worker' });
});

it('drops the answer with the job, also one that is still on its way', async () => {
  const { session, asking, answer } = started();
  const first = asking.ask();
  answer();
  await first;
  session.getState().actions.open(startHistory(emptyPlan()));
  expect(asking.getState()).toEqual({ state: 'idle' });
  const late = asking.ask();
  session.getState().actions.open(startHistory(emptyPlan()));
  answer();
  await late;
  expect(asking.getState()).toEqual({ state: 'idle' });
});

it('calls an answer old once the plan is another, and not when that was taken back', () => {
  const { session, found } = started();
  const { actions } = session.getState();
  const now = () => isOld(found, session.getState().history.plan);
  expect(now()).toBe(false);
  actions.run('place-closet', { level: 'L1', at: [0, 0], height: 2100 });
  expect([...session.getState().history.plan.tables.closets.values()]).toMatchObject([
    { height: 2100, name: 'Network closet' },
  ]);
  expect(now()).toBe(true);
  actions.undo();
  expect(now()).toBe(false);
});
