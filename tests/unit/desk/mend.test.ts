import { expect, it } from 'vitest';
import type { SessionApi } from '../../../src/board/session.ts';
import { alikeCount, mendAlike } from '../../../src/desk/mend.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { createSurveyor } from '../../../src/survey/survey.ts';
import { smallSite } from './site.ts';

/** A session over two stations and a third beside the second, and a way to survey its plan as it is now. */
function bench() {
  const third = { level: 'L1', kind: 'order-station', at: [6900, 400] as const };
  const session = smallSite().run('place-device', third).session();
  const surveyor = createSurveyor(kinds);
  const survey = () => {
    const { actions, history } = session.getState();
    actions.set({ survey: surveyor(history.plan), surveyed: history.plan });
  };
  survey();
  return { session, survey };
}

const powerless = (session: SessionApi) =>
  session.getState().survey!.findings.filter((f) => f.rule === 'power-reach');
const powers = (session: SessionApi) => session.getState().history.plan.tables.powers.size;

it('mends all findings that are alike as one step, and leaves out what another has mended', () => {
  const { session, survey } = bench();
  expect(powerless(session)).toHaveLength(3);
  const [first] = powerless(session);
  expect(alikeCount(session.getState().survey!.findings, first!)).toBe(3);
  mendAlike(session, first!);
  expect(powers(session)).toBe(1);
  for (let i = 0; i < 5; i++) survey();
  expect(powerless(session)).toEqual([]);
  // The third station has power from the outlet of the second.
  expect(powers(session)).toBe(2);
  expect(session.getState().history.cursor).toBe(1);
  session.getState().actions.undo();
  expect(powers(session)).toBe(0);
});

it('waits for the survey of what it has done, and ends when something else is done', () => {
  const { session, survey } = bench();
  mendAlike(session, powerless(session)[0]!);
  session.getState().actions.select([]);
  expect(powers(session)).toBe(1);
  session.getState().actions.undo();
  for (let i = 0; i < 3; i++) survey();
  expect(powers(session)).toBe(0);
});

it('mends along with a survey that comes at once', () => {
  const { session, survey } = bench();
  session.subscribe((now) => {
    if (now.surveyed !== now.history.plan) survey();
  });
  mendAlike(session, powerless(session)[0]!);
  expect(powerless(session)).toEqual([]);
  expect(powers(session)).toBe(2);
});
