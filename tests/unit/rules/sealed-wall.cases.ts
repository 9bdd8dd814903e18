import { crossing, makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const rows = {
  walls: { W1: { level: 'L1', a: [0, 0], b: [9000, 0], construction: 'insulated' } },
};
const through = (work: 'seal' | 'sleeve') =>
  context(rows, [makeRun({ label: 'A1', crossings: [crossing({ work, pathway: 'P1' })] })]);

export const cases: RuleCases = {
  pass: [{ what: 'a sleeve through a framed wall', on: through('sleeve') }],
  fail: [
    {
      what: 'a conduit into a cold room',
      on: through('seal'),
      says: ['Cables pass an insulated or outside wall here: A1.'],
      at: [1000, 0],
    },
  ],
  limits: {},
};
