import { makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const rows = { outlets: { O1: { level: 'L1', at: [100, 200] } } };
const run = (cable: number, limit = 90_000) =>
  context(rows, [makeRun({ label: 'A1', outlet: 'O1', cable, limit })]);

export const cases: RuleCases = {
  pass: [{ what: 'a short run', on: run(30_000) }],
  fail: [
    {
      what: 'a run of 100 m',
      on: run(100_000),
      says: ['The cable of A1 is 328\'-1" long; the most is 295\'-3".'],
      at: [100, 200],
      tells: ['Move the jack or the closet'],
    },
    {
      what: 'a run whose long cords take from its cable',
      on: run(89_000, 80_000),
      says: ["The cable of A1 is 292' long; the most is 262'-6\"."],
      tells: ['Use shorter cords'],
    },
  ],
  limits: {
    cable: { within: run(90_000), beyond: run(90_001) },
    'cable with its cords': { within: run(85_000, 85_000), beyond: run(85_001, 85_000) },
  },
};
