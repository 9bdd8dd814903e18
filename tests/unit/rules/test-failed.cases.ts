import { makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const built = (record: object | null) =>
  context({ jacks: { J1: { outlet: 'O1', label: 'A1', built: record } } }, [
    makeRun({ label: 'A1', jack: 'J1' }),
  ]);

export const cases: RuleCases = {
  pass: [
    { what: 'a cable without a record', on: built(null) },
    { what: 'a cable that passed', on: built({ test: 'pass' }) },
    { what: 'a cable that is not tested', on: built({ length: 30_000 }) },
  ],
  fail: [
    {
      what: 'a cable that failed',
      on: built({ test: 'fail' }),
      says: ['The cable of A1 failed its test.'],
    },
    {
      what: 'a cable that failed, with a remark',
      on: built({ test: 'fail', remark: 'open pair 3, 6.' }),
      says: ['The cable of A1 failed its test: open pair 3, 6.'],
    },
  ],
  limits: {},
};
