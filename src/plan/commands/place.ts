import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import { areaAt } from '../areas.ts';
import { Draft } from '../change.ts';
import type { KindFacts } from '../kind-facts.ts';
import { labelParts, makeLabel, nextCable, nextNumber } from '../labels.ts';
import { nearestFace, outletPlace } from '../outlet-place.ts';
import { type Device, jacksOf, makeRow, onLevel, type Plan } from '../plan.ts';
import { BEYOND, tooFar } from '../row-places.ts';
import type { Command } from './command.ts';

/** How near a device must be placed to another to share its jack by itself. */
const SHARE_REACH = 900;
/** How near a spare jack snaps to a wall. */
const SPARE_REACH = 1200;

/** The nearest device with a jack of its own that this kind may share with, within reach. */
function hostFor(plan: Plan, kind: KindFacts, level: Id, at: Point): Device | null {
  let best: Device | null = null;
  let least = SHARE_REACH;
  for (const other of onLevel(plan, 'devices', level)) {
    if (other.host !== null || !kind.sharesWith.includes(other.kind)) continue;
    if (jacksOf(plan, other).length === 0) continue;
    const d = distance(other.at, at);
    if (d <= least) {
      least = d;
      best = other;
    }
  }
  return best;
}

/** Puts an outlet with as many jacks as its kind asks for in a device's service; jacks that it has keep their number. */
export function serveDevice(draft: Draft, kind: KindFacts, device: Device): void {
  if (kind.jacks === 0) return;
  const outlet = makeRow('outlets', draft.fresh('outlets'), outletPlace(draft.plan, kind, device));
  draft.put('outlets', outlet);
  const own = jacksOf(draft.plan, device)[0];
  const area = own ? labelParts(own.label).area : areaAt(draft.plan, device.level, device.at);
  const number = own ? labelParts(own.label).number : nextNumber(draft.plan, area);
  const first = own ? nextCable(draft.plan, own.label) : 1;
  for (let cable = first; cable < first + kind.jacks; cable++) {
    const label = makeLabel(area, number, cable);
    draft.put(
      'jacks',
      makeRow('jacks', draft.fresh('jacks'), { outlet: outlet.id, label, device: device.id }),
    );
  }
}

/**
 * Places a device with its outlet and jack. A kind that may share takes the jack of a device close by, unless it is
 * asked to stand alone.
 */
export const placeDevice: Command<{ level: Id; kind: string; at: Point; alone?: boolean }> = (
  plan,
  { level, kind: kindId, at, alone },
  { kinds },
) => {
  const kind = kinds.get(kindId);
  if (!kind) return { ok: false, why: msg('There is no device kind "{kind}".', { kind: kindId }) };
  if (tooFar(at)) return { ok: false, why: BEYOND };
  const draft = new Draft(plan);
  const host = alone ? null : hostFor(plan, kind, level, at);
  const height =
    kind.mount === 'ceiling'
      ? outletPlace(plan, kind, { level, at, height: kind.height, cord: kind.cord }).height
      : kind.height;
  const device = makeRow('devices', draft.fresh('devices'), {
    level,
    kind: kindId,
    at,
    height,
    cord: kind.cord,
    host: host?.id ?? null,
  });
  draft.put('devices', device);
  if (!host) serveDevice(draft, kind, device);
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Place {kind}', { kind: kind.label.text.toLowerCase() }),
    select: [{ table: 'devices', id: device.id }],
  };
};

/** Places a spare jack: on the nearest wall face, or where it is asked for when no wall is near. */
export const placeSpare: Command<{ level: Id; at: Point }> = (plan, { level, at }) => {
  if (tooFar(at)) return { ok: false, why: BEYOND };
  const draft = new Draft(plan);
  const face = nearestFace(onLevel(plan, 'walls', level), at, SPARE_REACH);
  const outlet = makeRow('outlets', draft.fresh('outlets'), {
    level,
    at: face?.at ?? at,
    wall: face?.wall.id ?? null,
    placed: 'hand',
  });
  draft.put('outlets', outlet);
  const area = areaAt(plan, level, at);
  const label = makeLabel(area, nextNumber(plan, area));
  const jack = makeRow('jacks', draft.fresh('jacks'), { outlet: outlet.id, label, spare: true });
  draft.put('jacks', jack);
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Place spare jack'),
    select: [{ table: 'outlets', id: outlet.id }],
  };
};

/** A name for the next closet that no other has, so that ports on the printed lists tell the closets apart. */
function closetName(plan: Plan): string | undefined {
  const taken = new Set([...plan.tables.closets.values()].map((closet) => closet.name));
  if (taken.size === 0) return undefined;
  let number = taken.size + 1;
  while (taken.has(`Network closet ${number}`)) number += 1;
  return `Network closet ${number}`;
}

/** Places a network closet; a further one gets a number in its name. */
export const placeCloset: Command<{ level: Id; at: Point; height?: number }> = (
  plan,
  { level, at, height },
) => {
  if (tooFar(at)) return { ok: false, why: BEYOND };
  const draft = new Draft(plan);
  const name = closetName(plan);
  const fields = {
    level,
    at,
    ...(name === undefined ? {} : { name }),
    ...(height === undefined ? {} : { height }),
  };
  const closet = draft.put('closets', makeRow('closets', draft.fresh('closets'), fields));
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Place network closet'),
    select: [{ table: 'closets', id: closet.id }],
  };
};

/** Places a power outlet that is there or that the electrician is asked for. */
export const placePower: Command<{ level: Id; at: Point; height?: number }> = (
  plan,
  { level, at, height },
) => {
  if (tooFar(at)) return { ok: false, why: BEYOND };
  const draft = new Draft(plan);
  const face = nearestFace(onLevel(plan, 'walls', level), at, SPARE_REACH);
  const power = makeRow('powers', draft.fresh('powers'), {
    level,
    at: face?.at ?? at,
    ...(height === undefined ? {} : { height }),
  });
  draft.put('powers', power);
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Place power outlet'),
    select: [{ table: 'powers', id: power.id }],
  };
};
