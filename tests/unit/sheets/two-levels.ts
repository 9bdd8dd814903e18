import type { Point } from '../../../src/geometry/point.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import { step } from '../plan/steps.ts';

const box = (x: number, y: number, width: number, height: number): Point[] => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];

/**
 * An invented cafe with a mezzanine: closet, order stations and a riser below, desks and an access point above. The
 * first desk is pinned.
 */
export function twoLevels(): Plan {
  let plan = emptyPlan();
  const then = (name: Parameters<typeof step>[1], args: object): void => {
    plan = step(plan, name, args as never);
  };
  then('add-level', { from: 'L1', side: 'above', name: 'Mezzanine', elevation: 3962 });
  for (const [level, name, area] of [
    ['L1', 'Dining', 'A'],
    ['L2', 'Office', 'M'],
  ] as const)
    then('draw-zone', {
      level,
      outline: box(0, 0, 12_000, 8000),
      look: { name, area, ceiling: { kind: 'tile', height: 2743 } },
    });
  then('place-closet', { level: 'L1', at: [11_000, 7000] });
  then('place-riser', { level: 'L1', at: [9000, 4000], size: '2 in.' });
  for (const x of [2000, 5000])
    then('place-device', { level: 'L1', kind: 'order-station', at: [x, 1000] });
  for (const x of [2000, 4500, 7000])
    then('place-device', { level: 'L2', kind: 'office-place', at: [x, 1000] });
  then('place-device', { level: 'L2', kind: 'access-point', at: [5000, 6000] });
  then('pin-runs', { level: 'L2', points: [[8000, 7000]], jacks: ['J3'] });
  return plan;
}
