import { makeRun, noWay } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const built = (length: number | null, cable = 30_000) =>
  context({ jacks: { J1: { outlet: 'O1', label: 'A1', built: { length } } } }, [
    makeRun({ label: 'A1', jack: 'J1', cable }),
  ]);

export const cases: RuleCases = {
  pass: [
    { what: 'a cable without a length', on: built(null) },
    { what: 'a cable that is too long at all', on: built(90_001) },
    { what: 'a short cable with more in its loops', on: built(8000, 5000) },
    {
      what: 'a typed length that its own marks gainsay',
      on: context(
        {
          jacks: {
            J1: { outlet: 'O1', label: 'A1', built: { length: 50_000, start: 0, end: 30_000 } },
          },
        },
        [makeRun({ label: 'A1', jack: 'J1', cable: 30_000 })],
      ),
    },
    {
      what: 'a cable that the plan knows no way for',
      on: context({ jacks: { J1: { outlet: 'O1', label: 'A1', built: { length: 50_000 } } } }, [
        noWay({ label: 'A1', jack: 'J1' }),
      ]),
    },
  ],
  fail: [
    {
      what: 'a cable half as long again',
      on: built(45_000),
      says: ['A1 was built 147\'-8" long; the plan says 98\'-5".'],
    },
    {
      what: 'a cable half as long',
      on: built(15_000),
      says: ['A1 was built 49\'-3" long; the plan says 98\'-5".'],
    },
  ],
  limits: {
    'difference from the plan': { within: built(36_000), beyond: built(36_001) },
  },
};
