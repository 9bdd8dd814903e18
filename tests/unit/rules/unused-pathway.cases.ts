import type { Run } from '../../../src/results/types.ts';
import { makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const points = [
  [100, 200],
  [9000, 200],
];

const on = (pathway: object, run: Partial<Run> | null) =>
  context(
    { pathways: { P1: { level: 'L1', kind: 'conduit', points, ...pathway } } },
    run ? [makeRun({ label: 'A1', ...run })] : [],
  );

export const cases: RuleCases = {
  pass: [
    { what: 'one that a cable goes by', on: on({}, { pathways: ['P1'] }) },
    { what: 'one that is there already', on: on({ existing: true }, {}) },
    { what: 'one drawn before there is a cable', on: on({}, null) },
    { what: 'one while no cable has a way', on: on({}, { status: 'unroutable' }) },
  ],
  fail: [
    {
      what: 'one that the only cable passes by',
      on: on({}, {}),
      says: ['No cable goes by conduit P1, and yet it is in the price.'],
      at: [100, 200],
    },
    {
      what: 'a tray with a name',
      on: on({ kind: 'tray', name: 'Main tray' }, { pathways: ['P2'] }),
      says: ['No cable goes by Main tray, and yet it is in the price.'],
    },
  ],
  limits: {},
};
