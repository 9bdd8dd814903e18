import { makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

/** The path of the run, and how much of it is for the pin. */
const pinned = (path: number, more: number) =>
  context(
    {
      closets: { C1: { level: 'L1', at: [0, 0] } },
      pins: { N1: { level: 'L1', name: 'Beam', points: [[0, 0]] } },
      outlets: { O1: { level: 'L1', at: [100, 200] } },
      jacks: { J1: { outlet: 'O1', label: 'A3', pin: 'N1', spare: true } },
    },
    [
      makeRun({
        ...{ label: 'A3', jack: 'J1', outlet: 'O1', path },
        pinned: { pin: 'N1', cost: more, path: more },
      }),
    ],
  );

export const cases: RuleCases = {
  pass: [
    { what: 'a run without a pin', on: context({}, [makeRun({ label: 'A1' })]) },
    { what: 'a pin on the way that the run takes anyhow', on: pinned(20_000, 0) },
    { what: 'a pin whose way is dearer but shorter', on: pinned(20_000, -500) },
  ],
  fail: [
    {
      what: 'a pin far off the way',
      on: pinned(27_315, 7315),
      says: ["By Beam, run A3 is 24' longer than it need be."],
      tells: ['Keep the pin where the site asks for it'],
      at: [100, 200],
    },
  ],
  limits: {
    'longer than the free way': { within: pinned(22_000, 2000), beyond: pinned(22_001, 2001) },
  },
};
