import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import { areaAt } from '../areas.ts';
import { Draft } from '../change.ts';
import { removeRows } from '../integrity.ts';
import {
  labelParts,
  MOST_CABLES,
  makeLabel,
  nextCable,
  nextNumber,
  renumbered,
} from '../labels.ts';
import { jacksOf, makeRow } from '../plan.ts';
import type { Command } from './command.ts';
import { serveDevice } from './place.ts';

/** Gives a device a jack of its own, on an outlet placed for it; one that shared stops sharing. */
export const giveJack: Command<{ device: Id }> = (plan, { device: id }, { kinds }) => {
  const device = plan.tables.devices.get(id);
  const kind = device && kinds.get(device.kind);
  if (!device || !kind) return { ok: false, why: msg('That device is no longer there.') };
  const own = [...plan.tables.jacks.values()].find((jack) => jack.device === id);
  if (own && nextCable(plan, own.label) > MOST_CABLES)
    return { ok: false, why: msg('One device can have {most} jacks.', { most: MOST_CABLES }) };
  const draft = new Draft(plan);
  if (device.host !== null) draft.patch('devices', id, { host: null });
  serveDevice(
    draft,
    { ...kind, jacks: own ? 1 : Math.max(1, kind.jacks) },
    draft.plan.tables.devices.get(id)!,
  );
  return { ok: true, changes: draft.changes(), label: msg('Give a jack') };
};

/** Adds one more jack to an outlet: for the same device, or as a spare. */
export const addJack: Command<{ outlet: Id; spare?: boolean }> = (plan, { outlet: id, spare }) => {
  const outlet = plan.tables.outlets.get(id);
  if (!outlet) return { ok: false, why: msg('That outlet is no longer there.') };
  const draft = new Draft(plan);
  const beside = [...plan.tables.jacks.values()].filter((jack) => jack.outlet === id);
  const served = spare ? undefined : beside.find((jack) => jack.device !== null);
  const area = areaAt(plan, outlet.level, outlet.at);
  const cable = served ? nextCable(plan, served.label) : 1;
  if (cable > MOST_CABLES)
    return { ok: false, why: msg('One device can have {most} jacks.', { most: MOST_CABLES }) };
  const label = served
    ? makeLabel(labelParts(served.label).area, labelParts(served.label).number, cable)
    : makeLabel(area, nextNumber(plan, area));
  const device = served?.device ?? null;
  draft.put(
    'jacks',
    makeRow('jacks', draft.fresh('jacks'), { outlet: id, label, device, spare: device === null }),
  );
  return { ok: true, changes: draft.changes(), label: msg('Add jack {label}', { label }) };
};

/** Says that a jack without a device is meant as a spare. */
export const makeSpare: Command<{ jack: Id }> = (plan, { jack: id }) => {
  const jack = plan.tables.jacks.get(id);
  if (!jack) return { ok: false, why: msg('That jack is no longer there.') };
  const draft = new Draft(plan);
  draft.patch('jacks', id, { spare: true, device: null });
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Make {label} a spare', { label: jack.label }),
  };
};

/** Lets a device share the jack of another; its own jacks go, with the outlets that they leave empty. */
export const shareJack: Command<{ device: Id; host: Id }> = (
  plan,
  { device: id, host },
  { kinds },
) => {
  const device = plan.tables.devices.get(id);
  const other = plan.tables.devices.get(host);
  if (!device || !other) return { ok: false, why: msg('That device is no longer there.') };
  const kind = kinds.get(device.kind);
  const mayShare = kind?.sharesWith.includes(other.kind) && other.host === null && id !== host;
  if (!mayShare || jacksOf(plan, other).length === 0) {
    return { ok: false, why: msg('These two devices cannot share a jack.') };
  }
  const draft = new Draft(plan);
  const own = [...plan.tables.jacks.values()].filter((jack) => jack.device === id);
  removeRows(
    draft,
    own.map((jack) => ({ table: 'jacks' as const, id: jack.id })),
  );
  draft.patch('devices', id, { host });
  // What shared its jack goes on to the host, since a jack that is shared cannot be shared onward.
  for (const guest of plan.tables.devices.values()) {
    if (guest.host === id) draft.patch('devices', guest.id, { host });
  }
  return { ok: true, changes: draft.changes(), label: msg('Share a jack') };
};

/** Numbers all jacks anew: each area from 1, clockwise. The old labels on walls and cables no longer hold. */
export const renumber: Command<Record<string, never>> = (plan) => {
  const draft = new Draft(plan);
  for (const [id, label] of renumbered(plan)) draft.patch('jacks', id, { label });
  const changes = draft.changes();
  if (changes.length === 0) return { ok: false, why: msg('The labels already run in order.') };
  const count = changes.length;
  const built = changes.filter(({ id }) => plan.tables.jacks.get(id)?.built).length;
  return {
    ok: true,
    changes,
    label: msg('Renumber'),
    notice:
      built === 0
        ? msg('{count} labels changed.', { count })
        : msg('{count} labels changed, {built} of them on cables that are built and labelled.', {
            count,
            built,
          }),
  };
};
