import { context, type RuleCases } from './case.ts';

const rows = (...labels: string[]) =>
  context({
    outlets: Object.fromEntries(
      labels.map((_, i) => [`O${i + 1}`, { level: 'L1', at: [1000 * (i + 1), 0] }]),
    ),
    jacks: Object.fromEntries(
      labels.map((label, i) => [`J${i + 1}`, { outlet: `O${i + 1}`, label, spare: true }]),
    ),
  });

export const cases: RuleCases = {
  pass: [{ what: 'labels that differ', on: rows('A1', 'A2', 'A1-2', 'B1') }],
  fail: [
    {
      what: 'a label on two jacks and another on three',
      on: rows('A1', 'A2', 'A1', 'A2', 'A2'),
      says: ['Label A1 is on 2 jacks.', 'Label A2 is on 3 jacks.'],
      at: [1000, 0],
    },
  ],
  limits: {},
};
