import { makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const order = (length: number) =>
  context(
    {
      settings: { settings: { boxLength: 152_400 } },
      outlets: { O1: { level: 'L1', at: [100, 200] } },
    },
    [makeRun({ label: 'A1', outlet: 'O1', order: length })],
  );

export const cases: RuleCases = {
  pass: [{ what: 'a run of half a box', on: order(76_200) }],
  fail: [
    {
      what: 'a run of two boxes',
      on: order(304_800),
      says: ["The cable of A1 takes 1000' in one piece; a box holds 500'."],
      at: [100, 200],
    },
  ],
  limits: { 'length to order for one run': { within: order(152_400), beyond: order(152_401) } },
};
