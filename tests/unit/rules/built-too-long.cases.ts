import { makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const built = (record: object, limit = 90_000) =>
  context(
    {
      outlets: { O1: { level: 'L1', at: [100, 200] } },
      jacks: { J1: { outlet: 'O1', label: 'A1', built: record } },
    },
    [makeRun({ label: 'A1', jack: 'J1', outlet: 'O1', limit })],
  );

export const cases: RuleCases = {
  pass: [
    { what: 'a cable of which one mark is known', on: built({ start: 0, end: null }) },
    {
      what: 'a length that goes before its marks',
      on: built({ start: 0, end: 95_000, length: 80_000 }),
    },
  ],
  fail: [
    {
      what: 'a cable of 100 m by its marks, counted down',
      on: built({ start: 120_000, end: 20_000 }),
      says: ['A1 was built 328\'-1" long; the most is 295\'-3".'],
      at: [100, 200],
    },
    {
      what: 'a cable whose long cords take from it',
      on: built({ length: 85_000 }, 80_000),
      says: ['A1 was built 278\'-10" long; the most is 262\'-6".'],
    },
  ],
  limits: {
    'cable as built': { within: built({ length: 90_000 }), beyond: built({ length: 90_001 }) },
  },
};
