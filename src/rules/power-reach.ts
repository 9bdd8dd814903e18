import { msg } from '../base/message.ts';
import { distance } from '../geometry/nearest.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { deviceName } from '../plan/names.ts';
import { type Device, onLevel, type Plan, settings } from '../plan/plan.ts';
import type { Remark, Rule } from './rule.ts';
import { UNIVERSITY_GUIDE } from './sources.ts';
import { spotOf } from './spots.ts';

/** A device that plugs into the wall has no power outlet near it; measured on the plan, heights left aside. */
export const powerReach: Rule = {
  id: 'power-reach',
  title: msg('A device has no power outlet near it'),
  severity: 'warning',
  source: { document: UNIVERSITY_GUIDE, clause: 'power at each telecommunications outlet' },
  limits: [
    {
      name: 'distance on the plan to the nearest power outlet',
      value: { setting: 'powerReach' },
      clause: 'wanted within 0.9 m (3 ft), alert beyond 1.8 m (6 ft)',
    },
  ],
  check: ({ plan, kinds }) =>
    [...plan.tables.devices.values()]
      .filter((device) => kinds.get(device.kind)?.power === 'receptacle')
      .flatMap((device) => remark(plan, kinds, device)),
};

function remark(plan: Plan, kinds: KindRegistry, device: Device): Remark[] {
  const reach = settings(plan).powerReach;
  const powers = onLevel(plan, 'powers', device.level);
  if (powers.some((power) => distance(power.at, device.at) <= reach)) return [];
  return [
    {
      subjects: [{ table: 'devices', id: device.id }],
      at: spotOf(plan, 'devices', device.id),
      message: msg('{device} has no power outlet within {reach}.', {
        device: deviceName(plan, kinds, device),
        reach: { mm: reach },
      }),
      remedy: msg(
        'Mark the power outlet that is there, or ask a licensed electrician to put one beside it.',
      ),
      fix: {
        command: 'place-power',
        args: { level: device.level, at: device.at },
        label: msg('Mark a power outlet here'),
      },
    },
  ];
}
