import { msg } from '../base/message.ts';
import { deviceName } from '../plan/names.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';
import { spotOf } from './spots.ts';

/** An outlet that belongs on a wall was put on a pole or on casework, since no drawn wall is in reach. */
export const noWallInReach: Rule = {
  id: 'no-wall-in-reach',
  title: msg('An outlet is on no wall because none is in reach'),
  severity: 'note',
  source: COMMON_PRACTICE,
  limits: [],
  check: ({ plan, kinds }) =>
    [...plan.tables.jacks.values()].flatMap((jack) => {
      const outlet = plan.tables.outlets.get(jack.outlet);
      const device = jack.device === null ? undefined : plan.tables.devices.get(jack.device);
      const offWall = outlet?.placed === 'auto' && ['pole', 'casework'].includes(outlet.mount);
      if (!device || !offWall || kinds.get(device.kind)?.mount !== 'wall') return [];
      return [
        {
          subjects: [
            { table: 'outlets', id: outlet.id },
            { table: 'devices', id: device.id },
          ],
          at: spotOf(plan, 'outlets', outlet.id),
          message: msg(
            outlet.mount === 'pole'
              ? 'No wall is within reach of {device}, so jack {label} sits on a pole.'
              : 'No wall is within reach of {device}, so jack {label} sits on casework.',
            { device: deviceName(plan, kinds, device), label: jack.label },
          ),
          remedy: msg(
            'Draw the wall that it stands at, move it nearer to one, or keep it as it is.',
          ),
          fix: null,
        },
      ];
    }),
};
