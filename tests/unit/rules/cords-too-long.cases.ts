import { makeRun, noWay } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const cords = (length: number) =>
  context({ outlets: { O1: { level: 'L1', at: [100, 200] } } }, [
    makeRun({ label: 'A1', outlet: 'O1', cable: 50_000, channel: 50_000 + length }),
  ]);

export const cases: RuleCases = {
  pass: [
    { what: 'a cord of 7 ft and one of 3 ft', on: cords(3048) },
    { what: 'a run without a way', on: context({}, [noWay({ label: 'A1' })]) },
  ],
  fail: [
    {
      what: 'cords of 15 m',
      on: cords(15_000),
      says: ['The cords of A1 are 49\'-3" together; the most is 32\'-10".'],
      // 102 m - 1.2 x 15 m = 84 m.
      tells: ['275\'-7" at most'],
      at: [100, 200],
    },
  ],
  limits: { 'cords together': { within: cords(10_000), beyond: cords(10_001) } },
};
