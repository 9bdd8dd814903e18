import { type Message, msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { carryRecord } from '../carry-record.ts';
import { Draft } from '../change.ts';
import { collapsed } from '../joints.ts';
import { isLocked, LOCKED } from '../locks.ts';
import { followDevices, followWalls } from '../outlet-place.ts';
import { type Device, type Plan, type Ref, refKey, type Wall } from '../plan.ts';
import { BEYOND, tooFar, withPlaces } from '../row-places.ts';
import type { Command, CommandContext, Outcome } from './command.ts';
import { around, placedOf } from './row-boxes.ts';
import { nameOf } from './step-words.ts';

/** An angle in degrees, from 0 to below 360. */
const wrapped = (turn: number): number => ((turn % 360) + 360) % 360;

/** Turns devices about themselves by an angle in degrees clockwise. */
export const turn: Command<{ refs: readonly Ref[]; by: number }> = (plan, { refs, by }) => {
  const draft = new Draft(plan);
  for (const { table, id } of refs) {
    if (table !== 'devices') continue;
    const device = plan.tables.devices.get(id);
    if (!device) continue;
    draft.patch('devices', id, { turn: wrapped(device.turn + by) });
  }
  if (draft.changes().length === 0) return { ok: false, why: msg('Only devices can be turned.') };
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Turn {what}', { what: nameOf(plan, refs) }),
  };
};

type Turning = (p: Point) => Point;

/** Lays the places of rows anew about a middle, with what hangs on them; devices turn as `turnOf` says. */
function reshape(
  plan: Plan,
  refs: readonly Ref[],
  { kinds }: CommandContext,
  at: (middle: Point) => Turning,
  turnOf: (device: Device) => number,
  label: Message,
): Outcome {
  const loose = refs.filter((ref) => !isLocked(plan, ref));
  if (refs.length > 0 && loose.length === 0) return { ok: false, why: LOCKED };
  const movable = loose.filter(({ table }) => table !== 'backgrounds' && table !== 'levels');
  const placed = placedOf(plan, movable);
  if (placed.length === 0) return { ok: false, why: msg('There is nothing here to turn.') };
  const box = around(placed);
  const turn = at([(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2]);
  const draft = new Draft(plan);
  const keys = new Set(placed.map(({ ref }) => refKey(ref)));
  const walls: Wall[] = [];
  const devices: Device[] = [];
  for (const { ref } of placed) {
    const fields = withPlaces(plan, ref, turn);
    if (Object.values(fields).some(tooFar)) return { ok: false, why: BEYOND };
    draft.patch(ref.table, ref.id, fields as never);
    if (ref.table === 'walls') walls.push(plan.tables.walls.get(ref.id)!);
    if (ref.table !== 'devices') continue;
    draft.patch('devices', ref.id, { turn: turnOf(plan.tables.devices.get(ref.id)!) });
    devices.push(draft.plan.tables.devices.get(ref.id)!);
  }
  for (const outlet of plan.tables.outlets.values())
    if (
      outlet.wall !== null &&
      keys.has(`walls/${outlet.wall}`) &&
      !keys.has(`outlets/${outlet.id}`)
    )
      draft.patch('outlets', outlet.id, { at: wholePoint(turn(outlet.at)) });
  const fault = collapsed(draft.plan, draft);
  if (fault) return { ok: false, why: fault };
  followDevices(draft, devices, kinds);
  followWalls(draft, [...walls, ...walls.map(({ id }) => draft.plan.tables.walls.get(id)!)], kinds);
  carryRecord(draft, plan, turn);
  return { ok: true, changes: draft.changes(), label };
}

const wholePoint = (p: Point): Point => [Math.round(p[0]) + 0, Math.round(p[1]) + 0];

/** Turns things together about the middle of the box round them, by degrees clockwise; one device about itself. */
export const rotate: Command<{ refs: readonly Ref[]; by: number }> = (
  plan,
  { refs, by },
  context,
) => {
  if (!Number.isFinite(by) || by % 360 === 0)
    return { ok: false, why: msg('Type an angle in degrees, such as 90 or -45.') };
  const angle = (by * Math.PI) / 180;
  const quarter = by % 90 === 0;
  const [c, s] = [Math.cos(angle), Math.sin(angle)].map((n) => (quarter ? Math.round(n) : n)) as [
    number,
    number,
  ];
  const turning =
    ([mx, my]: Point): Turning =>
    ([x, y]) => [mx + (x - mx) * c - (y - my) * s, my + (x - mx) * s + (y - my) * c];
  const what = nameOf(plan, refs);
  return reshape(
    plan,
    refs,
    context,
    turning,
    (d) => wrapped(d.turn + by),
    msg('Turn {what}', { what }),
  );
};

/** Mirrors things together: left to right about a line that runs down, or top to bottom about one that runs across. */
export const mirror: Command<{ refs: readonly Ref[]; across: 'x' | 'y' }> = (
  plan,
  { refs, across },
  context,
) => {
  const turning =
    ([mx, my]: Point): Turning =>
    ([x, y]) =>
      across === 'x' ? [2 * mx - x, y] : [x, 2 * my - y];
  const turn = (device: Device) => wrapped(across === 'x' ? -device.turn : 180 - device.turn);
  const outcome = reshape(
    plan,
    refs,
    context,
    turning,
    turn,
    msg('Mirror {what}', { what: nameOf(plan, refs) }),
  );
  if (!outcome.ok) return outcome;
  // The doors of a mirrored wall open to its other side.
  const draft = new Draft(plan);
  draft.take(outcome.changes);
  const walls = new Set(refs.filter(({ table }) => table === 'walls').map(({ id }) => id));
  for (const opening of plan.tables.openings.values())
    if (walls.has(opening.wall) && !isLocked(plan, { table: 'walls', id: opening.wall }))
      draft.patch('openings', opening.id, { side: opening.side === 'left' ? 'right' : 'left' });
  return { ...outcome, changes: draft.changes() };
};
