import { msg } from '../base/message.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { deviceName } from '../plan/names.ts';
import { type Device, jacksOf, type Plan } from '../plan/plan.ts';
import type { Rule } from './rule.ts';
import { CABLING } from './sources.ts';
import { spotOf } from './spots.ts';

/** A device that needs a cable has no jack. One that shares another's is left to the other. */
export const deviceWithoutJack: Rule = {
  id: 'device-without-jack',
  title: msg('A device has no jack'),
  severity: 'error',
  source: { document: CABLING, clause: 'star from one room, each outlet by its own cable' },
  limits: [],
  check: ({ plan, kinds }) =>
    [...plan.tables.devices.values()]
      .filter((device) => lacksJack(plan, kinds, device))
      .map((device) => ({
        subjects: [{ table: 'devices', id: device.id }],
        at: spotOf(plan, 'devices', device.id),
        message: msg('{device} has no jack.', { device: deviceName(plan, kinds, device) }),
        remedy: msg('Give it a jack, or let it share the jack of a device beside it.'),
        fix: { command: 'give-jack', args: { device: device.id }, label: msg('Give it a jack') },
      })),
};

function lacksJack(plan: Plan, kinds: KindRegistry, device: Device): boolean {
  const needs = (d: Device | undefined) => d !== undefined && (kinds.get(d.kind)?.jacks ?? 0) > 0;
  if (!needs(device) || jacksOf(plan, device).length > 0) return false;
  const host = device.host === null ? undefined : plan.tables.devices.get(device.host);
  return !needs(host);
}
