import { makeRun, noWay } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const run = (cable: number, limit = 90_000, nearPercent = 90) =>
  context({ settings: { settings: { nearPercent } } }, [makeRun({ label: 'A1', cable, limit })]);

export const cases: RuleCases = {
  pass: [
    { what: 'a short run', on: run(30_000) },
    { what: 'a run that is over, of which another rule speaks', on: run(90_001) },
    {
      what: 'a run without a way, whatever the reserve',
      on: context({ settings: { settings: { nearPercent: 0 } } }, [noWay({ label: 'A1' })]),
    },
  ],
  fail: [
    {
      what: 'a run of 85 m',
      on: run(85_000),
      says: ['The cable of A1 is 278\'-10" long, only 16\'-5" below the most allowed.'],
    },
    {
      what: 'a run of exactly the limit',
      on: run(90_000),
      says: ["The cable of A1 is 295'-3\" long, only 0' below the most allowed."],
    },
    {
      what: 'a tighter reserve',
      on: run(50_000, 90_000, 50),
      says: ['The cable of A1 is 164\'-1" long, only 131\'-3" below the most allowed.'],
    },
  ],
  limits: {
    'share of the limit, found from there on': { within: run(80_999), beyond: run(81_000) },
  },
};
