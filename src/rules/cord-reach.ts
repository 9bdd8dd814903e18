import { msg } from '../base/message.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { deviceName } from '../plan/names.ts';
import { type Device, entity, jacksOf, type Plan } from '../plan/plan.ts';
import type { Remark, Rule } from './rule.ts';
import { CABLING } from './sources.ts';
import { spotOf } from './spots.ts';

/** Cords that the trade keeps, mm (3, 5, 7, 10 and 15 ft); none above 5 m, the planning value for a device cord. */
const STOCK = [914, 1524, 2134, 3048, 4572];

/** The straight way from a device's port to a jack that serves it is longer than its cord. */
export const cordReach: Rule = {
  id: 'cord-reach',
  title: msg('A cord does not reach from the jack to its device'),
  severity: 'error',
  source: { document: CABLING, clause: 'work area cords, planned at 5 m' },
  limits: [
    {
      name: 'straight way from port to jack, in three dimensions',
      value: 'the cord of the device, 7 ft (2134 mm) when it is placed',
      clause: 'the cord itself; common practice, no source',
    },
  ],
  check: ({ plan, kinds }) =>
    [...plan.tables.devices.values()].flatMap((device) => remarks(plan, kinds, device)),
};

interface Link {
  readonly label: string;
  readonly jack: string;
  readonly distance: number;
}

function remarks(plan: Plan, kinds: KindRegistry, device: Device): Remark[] {
  const far = links(plan, device).filter((link) => link.distance > device.cord);
  if (far.length === 0) return [];
  const worst = far.reduce((a, b) => (b.distance > a.distance ? b : a));
  return [remark(plan, kinds, device, worst)];
}

/** A device's own jacks with the way to each; one that shares may be plugged in at its host or at the jack itself. */
function links(plan: Plan, device: Device): Link[] {
  const host = device.host === null ? undefined : plan.tables.devices.get(device.host);
  return jacksOf(plan, device).flatMap((jack) => {
    const outlet = entity(plan, 'outlets', jack.outlet);
    if (!outlet) return [];
    const ways = [apart(plan, device, outlet), host ? apart(plan, device, host) : Infinity];
    return [{ label: jack.label, jack: jack.id, distance: Math.min(...ways) }];
  });
}

type Standing = Pick<Device, 'level' | 'at' | 'height'>;

function apart(plan: Plan, a: Standing, b: Standing): number {
  const z = (s: Standing) => (plan.tables.levels.get(s.level)?.elevation ?? 0) + s.height;
  return Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1], z(a) - z(b));
}

function remark(plan: Plan, kinds: KindRegistry, device: Device, link: Link): Remark {
  const cord = STOCK.find((length) => length >= link.distance);
  return {
    subjects: [
      { table: 'devices', id: device.id },
      { table: 'jacks', id: link.jack },
    ],
    at: spotOf(plan, 'devices', device.id),
    message: msg('Jack {label} is {distance} from {device}; the cord is {cord}.', {
      label: link.label,
      distance: { mm: link.distance },
      device: deviceName(plan, kinds, device),
      cord: { mm: device.cord },
    }),
    remedy: cord
      ? msg('Move the jack nearer, or use a longer cord.')
      : msg('Move the jack nearer: no cord in stock is that long.'),
    fix: cord
      ? {
          command: 'edit',
          args: { table: 'devices', id: device.id, fields: { cord } },
          label: msg('Use a cord of {cord}', { cord: { mm: cord } }),
        }
      : null,
  };
}
