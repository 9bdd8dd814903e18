import { context, type RuleCases } from './case.ts';

const jacks = {
  outlets: { O1: { level: 'L1', at: [0, 0] } },
  jacks: { J1: { outlet: 'O1', label: 'A1' }, J2: { outlet: 'O1', label: 'A2' } },
};

export const cases: RuleCases = {
  pass: [
    { what: 'an empty plan', on: context({}) },
    {
      what: 'jacks with a closet',
      on: context({ ...jacks, closets: { C1: { level: 'L1', at: [0, 0] } } }),
    },
  ],
  fail: [
    {
      what: 'jacks without a closet',
      on: context(jacks),
      says: ['There is no network closet yet. Jacks that wait for one: 2.'],
      at: null,
    },
  ],
  limits: {},
};
