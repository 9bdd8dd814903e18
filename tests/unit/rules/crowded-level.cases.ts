import { context, type RuleCases } from './case.ts';

export const cases: RuleCases = {
  pass: [{ what: 'a level on which every way was tried', on: context({}) }],
  fail: [
    {
      what: 'a level on which lines were left out',
      on: { ...context({}), inexact: ['L1'] },
      says: ['Ground level holds so much that not every way on it was tried.'],
      at: null,
    },
  ],
  limits: {},
};
