import { makeRun } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const ports = (first: number | null, second: number | null, closet: string | null = 'C1') =>
  context(
    {
      closets: {
        C1: { level: 'L1', name: 'Office', at: [0, 0] },
        C2: { level: 'L1', name: 'Bar', at: [0, 0] },
      },
      jacks: {
        J1: { outlet: 'O1', label: 'A1', built: { port: first } },
        J2: { outlet: 'O1', label: 'A2', built: { port: second } },
      },
    },
    [
      makeRun({ label: 'A1', jack: 'J1', closet: 'C1' }),
      makeRun({ label: 'A2', jack: 'J2', closet }),
    ],
  );

export const cases: RuleCases = {
  pass: [
    { what: 'cables without recorded ports', on: ports(null, null) },
    { what: 'cables on ports of their own', on: ports(1, 2) },
    { what: 'the same port of two closets', on: ports(1, 1, 'C2') },
    { what: 'a cable without a closet', on: ports(1, 1, null) },
  ],
  fail: [
    {
      what: 'two cables on one port',
      on: ports(7, 7),
      says: ['A1 and A2 are recorded on port 7 of Office.'],
    },
  ],
  limits: {},
};
