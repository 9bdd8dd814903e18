import { makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const runs = (count: number, closet = 'C1') =>
  Array.from({ length: count }, (_, i) => makeRun({ label: `A${i + 1}`, closet }));

const rows = {
  closets: {
    C1: { level: 'L1', at: [100, 200], ports: 24 },
    C2: { level: 'L1', at: [0, 0], name: '', ports: 2 },
  },
};

export const cases: RuleCases = {
  pass: [
    { what: 'a closet without cables', on: context(rows) },
    { what: 'cables in two closets', on: context(rows, [...runs(24), ...runs(2, 'C2')]) },
  ],
  fail: [
    {
      what: 'thirty cables on 24 ports',
      on: context(rows, runs(30)),
      says: ['Network closet has 24 ports for 30 cables.'],
      at: [100, 200],
    },
    {
      what: 'a closet without a name',
      on: context(rows, runs(3, 'C2')),
      says: ['Closet C2 has 2 ports for 3 cables.'],
    },
  ],
  limits: {
    'cables that come home to a closet': {
      within: context(rows, runs(24)),
      beyond: context(rows, runs(25)),
    },
  },
};
