import { makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const built = (length: number | null, start: number | null, end: number | null) =>
  context({ jacks: { J1: { outlet: 'O1', label: 'A1', built: { length, start, end } } } }, [
    makeRun({ label: 'A1', jack: 'J1' }),
  ]);

export const cases: RuleCases = {
  pass: [
    { what: 'a length without marks', on: built(30_000, null, null) },
    { what: 'a length with one mark', on: built(30_000, 90_000, null) },
    { what: 'marks without a length', on: built(null, 90_000, 60_000) },
    { what: 'a long cable, read to one part in twenty', on: built(84_000, 0, 80_000) },
    { what: 'a short cable, read to the next mark at both ends', on: built(4000, 10_000, 15_200) },
    {
      what: 'a cable of which nothing is recorded',
      on: context({ jacks: { J1: { outlet: 'O1', label: 'A1' } } }, [
        makeRun({ label: 'A1', jack: 'J1' }),
      ]),
    },
  ],
  fail: [
    {
      what: 'a length of half as much again, counted down',
      on: built(45_720, 304_800, 274_320),
      says: ["A1 is recorded as 150' long; its marks say 100'."],
    },
    {
      what: 'a length that is shorter, counted up',
      on: built(3048, 0, 30_480),
      says: ["A1 is recorded as 10' long; its marks say 100'."],
    },
  ],
  limits: {
    'difference from the marks': {
      within: built(25_200, 0, 24_000),
      beyond: built(25_201, 0, 24_000),
    },
  },
};
