import { expect, test } from 'vitest';
import { allowancesOf } from '../../../src/plan/allowances.ts';
import { planWith } from '../takeoff/make-run.ts';

const job = { outletSlack: 300, fieldLoop: 0, closetLoop: 3000, wastePercent: 10, orderStep: 1000 };

test('a jack takes its own allowance, else that of its kind, else that of the job, field by field', () => {
  const plan = planWith({
    settings: { settings: job },
    allowances: { A1: { kind: 'register', outletSlack: 500, fieldLoop: 2000 } },
    devices: { D1: { kind: 'register', at: [0, 0] }, D2: { kind: 'kiosk', at: [0, 0] } },
    outlets: { O1: { at: [0, 0] } },
    jacks: {
      J1: {
        outlet: 'O1',
        label: 'A1',
        device: 'D1',
        allowances: { fieldLoop: 0, wastePercent: 25 },
      },
      J2: { outlet: 'O1', label: 'A2', device: 'D2' },
      J3: { outlet: 'O1', label: 'A3' },
    },
  });
  const of = (id: string) => allowancesOf(plan, plan.tables.jacks.get(id)!);
  expect(of('J1')).toEqual({ ...job, outletSlack: 500, fieldLoop: 0, wastePercent: 25 });
  expect(of('J2')).toEqual(job);
  expect(of('J3')).toEqual(job);
});
