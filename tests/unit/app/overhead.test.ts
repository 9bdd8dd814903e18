import { expect, test } from 'vitest';
import { overheadAlong } from '../../../src/app/overhead.ts';
import { createSession } from '../../../src/board/session.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import { ceilingPlanes } from '../../../src/survey/survey.ts';

function bench(fails = false) {
  const asked: Plan[] = [];
  const session = createSession(kinds, emptyPlan());
  const stop = overheadAlong(session, {
    ceilings: async (plan) => {
      asked.push(plan);
      if (fails) throw new Error('out of memory');
      return ceilingPlanes(plan);
    },
  });
  const { actions } = session.getState();
  const look = (ceiling: boolean) =>
    actions.set({ shown: { ...session.getState().shown, ceiling } });
  const wall = () =>
    actions.run('draw-walls', {
      level: 'L1',
      points: [
        [0, 0],
        [4000, 0],
      ],
    });
  return { asked, session, actions, look, wall, stop };
}

const settled = () => new Promise((done) => setTimeout(done));

test('what lies overhead is asked only while somebody looks, and again only when it can be another', async () => {
  const { asked, session, actions, look, wall, stop } = bench();
  wall();
  expect(asked).toHaveLength(0);
  look(true);
  await settled();
  expect(session.getState().planes?.[0]?.walls).toHaveLength(1);
  actions.run('place-closet', { level: 'L1', at: [1000, 1000] });
  expect(asked).toHaveLength(1);
  actions.run('delete', { refs: [{ table: 'walls', id: 'W1' }] });
  await settled();
  expect(asked).toHaveLength(2);
  expect(session.getState().planes?.[0]?.walls).toHaveLength(0);
  look(false);
  wall();
  stop();
  look(true);
  expect(asked).toHaveLength(2);
});

test('a failure puts the view away and says why', async () => {
  const { session, look } = bench(true);
  look(true);
  await settled();
  const { shown, notices } = session.getState();
  expect(shown.ceiling).toBe(false);
  expect(notices.at(-1)?.message.params).toEqual({ reason: 'out of memory' });
});
