import { makeRun, riser } from '../takeoff/make-run.ts';
import { context, type RuleCases } from './case.ts';

const rows = {
  levels: { L2: { name: 'Mezzanine', elevation: 3600 } },
  risers: {
    R1: { level: 'L1', upper: 'L2', name: 'East riser', at: [300, 400] },
    R2: { level: 'L1', upper: 'L2', at: [9000, 400] },
  },
};
const up = (label: string, id: string) =>
  makeRun({ label, segments: [riser(id, [300, 400, 2900], [300, 400, 6500])] });

export const cases: RuleCases = {
  pass: [
    { what: 'a riser without cables', on: context(rows, [makeRun({ label: 'A1' })]) },
    { what: 'a plan without risers', on: context({}, [makeRun({ label: 'A1' })]) },
  ],
  fail: [
    {
      what: 'cables through two floors openings, each once',
      on: context(rows, [up('B10', 'R1'), up('B2', 'R1'), up('B3', 'R2')]),
      says: [
        'Cables pass the floor of Mezzanine in East riser: B2, B10.',
        'Cables pass the floor of Mezzanine in Riser: B3.',
      ],
      tells: ['Where the floor is fire-rated, have trained people close the opening'],
      at: [300, 400],
    },
  ],
  limits: {},
};
