import { crossing, makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const rows = {
  walls: {
    W1: { level: 'L1', a: [0, 0], b: [9000, 0], rated: true },
    W2: { level: 'L1', a: [0, 0], b: [0, 9000], rated: true },
  },
};
const through = (label: string, ...walls: string[]) =>
  makeRun({ label, crossings: walls.map((wall) => crossing({ wall, firestop: true })) });

export const cases: RuleCases = {
  pass: [
    { what: 'no crossing', on: context(rows, [makeRun({ label: 'A1' })]) },
    {
      what: 'a crossing of a wall that is not rated',
      on: context(rows, [makeRun({ label: 'A1', crossings: [crossing()] })]),
    },
  ],
  fail: [
    {
      what: 'cables through two rated walls, one of them twice through the same',
      on: context(rows, [through('A10', 'W1', 'W2'), through('A2', 'W1', 'W1')]),
      says: [
        'Cables pass a fire-rated wall here: A2, A10.',
        'Cables pass a fire-rated wall here: A10.',
      ],
      at: [1000, 0],
    },
    {
      what: 'more cables than can be listed',
      on: context(
        rows,
        Array.from({ length: 10 }, (_, i) => through(`A${i + 1}`, 'W1')),
      ),
      says: ['Cables pass a fire-rated wall here: A1, A2, A3, A4, A5, A6, A7, A8 and 2 more.'],
    },
  ],
  limits: {},
};
