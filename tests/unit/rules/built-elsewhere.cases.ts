import { makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const moved = (by: number, record: object | null = { length: 30_000, at: [0, 0] }) =>
  context(
    {
      outlets: { O1: { level: 'L1', at: [by, 0] } },
      jacks: { J1: { outlet: 'O1', label: 'A1', spare: true, built: record } },
    },
    [makeRun({ label: 'A1', jack: 'J1', outlet: 'O1' })],
  );

export const cases: RuleCases = {
  pass: [
    { what: 'an outlet without a record', on: moved(5000, null) },
    { what: 'an outlet where it was', on: moved(0) },
  ],
  fail: [
    {
      what: 'an outlet that was moved by 2 m',
      on: moved(2000),
      says: ['A1 was moved 6\'-7" after it was recorded as built.'],
      at: [2000, 0],
    },
  ],
  limits: {
    'move since the record': { within: moved(300), beyond: moved(301) },
  },
};
