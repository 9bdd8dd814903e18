import type { Id } from '../../base/ids.ts';
import { type Message, msg } from '../../base/message.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import { Draft } from '../change.ts';
import { collapsed } from '../joints.ts';
import { isLockable, isLocked, LOCKED } from '../locks.ts';
import { followDevices, followWalls } from '../outlet-place.ts';
import { type Device, jacksOf, type Plan, type Ref, refKey, type Wall } from '../plan.ts';
import { move, nameOf, placesOfRow, tooFar, withPlaces } from './change.ts';
import type { Command, CommandContext, Outcome } from './command.ts';
import { duplicate } from './duplicate.ts';
import { serveDevice } from './place.ts';

interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

interface Placed {
  readonly ref: Ref;
  readonly box: Box;
}

/** The box round the places of a row; null for what has none of its own, as an opening. */
function boxOf(plan: Plan, ref: Ref): Box | null {
  const places = placesOfRow(plan, ref);
  if (places.length === 0) return null;
  const xs = places.map((p) => p[0]);
  const ys = places.map((p) => p[1]);
  return { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
}

const placedOf = (plan: Plan, refs: readonly Ref[]): Placed[] =>
  refs.flatMap((ref) => {
    const box = boxOf(plan, ref);
    return box ? [{ ref, box }] : [];
  });

const around = (placed: readonly Placed[]): Box => ({
  x0: Math.min(...placed.map(({ box }) => box.x0)),
  y0: Math.min(...placed.map(({ box }) => box.y0)),
  x1: Math.max(...placed.map(({ box }) => box.x1)),
  y1: Math.max(...placed.map(({ box }) => box.y1)),
});

/** Moves each by its own way, one after the other, as one step. */
function moveEach(
  plan: Plan,
  shifts: readonly (readonly [Ref, Point])[],
  context: CommandContext,
  label: Message,
  nothing: Message,
): Outcome {
  const loose = shifts.filter(([ref]) => !isLocked(plan, ref));
  if (shifts.length > 0 && loose.length === 0) return { ok: false, why: LOCKED };
  const draft = new Draft(plan);
  for (const [ref, by] of loose) {
    if (Math.round(by[0]) === 0 && Math.round(by[1]) === 0) continue;
    const outcome = move(draft.plan, { refs: [ref], by }, context);
    if (!outcome.ok) return outcome;
    for (const { table, id, after } of outcome.changes)
      if (after) draft.put(table, after as never);
      else draft.remove({ table, id });
  }
  const changes = draft.changes();
  if (changes.length === 0) return { ok: false, why: nothing };
  return { ok: true, changes, label };
}

/** The side or middle at which things are brought in line. */
export type Edge = 'left' | 'right' | 'top' | 'bottom' | 'across' | 'down';

const SHIFTS: Readonly<Record<Edge, (all: Box, own: Box) => Point>> = {
  left: (all, own) => [all.x0 - own.x0, 0],
  right: (all, own) => [all.x1 - own.x1, 0],
  top: (all, own) => [0, all.y0 - own.y0],
  bottom: (all, own) => [0, all.y1 - own.y1],
  // Their middles on one line that runs across, and on one that runs down.
  across: (all, own) => [0, (all.y0 + all.y1 - own.y0 - own.y1) / 2],
  down: (all, own) => [(all.x0 + all.x1 - own.x0 - own.x1) / 2, 0],
};

/** Brings things in line, at a side or the middle of the box round them all. */
export const align: Command<{ refs: readonly Ref[]; edge: Edge }> = (
  plan,
  { refs, edge },
  context,
) => {
  const placed = placedOf(plan, refs);
  if (placed.length < 2) return { ok: false, why: msg('Select two things or more to align them.') };
  const all = around(placed);
  const shifts = placed.map(({ ref, box }) => [ref, SHIFTS[edge](all, box)] as const);
  return moveEach(
    plan,
    shifts,
    context,
    msg('Align {what}', { what: nameOf(plan, refs) }),
    msg('They are in line already.'),
  );
};

/** Spreads things so that their middles are as far from one another, the outermost staying where they are. */
export const distribute: Command<{ refs: readonly Ref[]; along: 'x' | 'y' }> = (
  plan,
  { refs, along },
  context,
) => {
  const middle = ({ box }: Placed): number =>
    along === 'x' ? (box.x0 + box.x1) / 2 : (box.y0 + box.y1) / 2;
  const placed = placedOf(plan, refs).sort((a, b) => middle(a) - middle(b));
  if (placed.length < 3)
    return { ok: false, why: msg('Select three things or more to spread them.') };
  const first = middle(placed[0]!);
  const step = (middle(placed.at(-1)!) - first) / (placed.length - 1);
  const shifts = placed.map((one, i): readonly [Ref, Point] => {
    const by = first + step * i - middle(one);
    return [one.ref, along === 'x' ? [by, 0] : [0, by]];
  });
  return moveEach(
    plan,
    shifts,
    context,
    msg('Spread {what}', { what: nameOf(plan, refs) }),
    msg('They are spread evenly already.'),
  );
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
    if (Object.values(fields).some(tooFar))
      return { ok: false, why: msg('That is farther than a plan can reach.') };
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

const wrapped = (turn: number): number => ((turn % 360) + 360) % 360;

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
  for (const { table, id, after } of outcome.changes)
    if (after) draft.put(table, after as never);
    else draft.remove({ table, id });
  const walls = new Set(refs.filter(({ table }) => table === 'walls').map(({ id }) => id));
  for (const opening of plan.tables.openings.values())
    if (walls.has(opening.wall) && !isLocked(plan, { table: 'walls', id: opening.wall }))
      draft.patch('openings', opening.id, { side: opening.side === 'left' ? 'right' : 'left' });
  return { ...outcome, changes: draft.changes() };
};

/** Keeps things from being moved or deleted by mistake, or lets them go again. */
export const lock: Command<{ refs: readonly Ref[]; locked: boolean }> = (
  plan,
  { refs, locked },
) => {
  const draft = new Draft(plan);
  for (const { table, id } of refs)
    if (isLockable(table) && plan.tables[table].has(id)) draft.patch(table, id, { locked });
  if (draft.changes().length === 0)
    return {
      ok: false,
      why: locked ? msg('There is nothing here to lock.') : msg('There is nothing here to unlock.'),
    };
  const what = nameOf(plan, refs);
  return {
    ok: true,
    changes: draft.changes(),
    label: locked ? msg('Lock {what}', { what }) : msg('Unlock {what}', { what }),
  };
};

/** Copies in a row are many at the most. */
const MOST = 200;

/**
 * One of these every so far along a line: from the first end, where the thing itself goes, on to the other.
 *
 * @param step how far apart, mm
 */
export const repeatAlong: Command<{ refs: readonly Ref[]; a: Point; b: Point; step: number }> = (
  plan,
  { refs, a, b, step },
  context,
) => {
  const length = distance(a, b);
  if (!(step >= 1))
    return { ok: false, why: msg("Type how far apart they are, such as 4' or 1.2 m.") };
  const count = Math.floor(length / step + 1e-6);
  if (count < 1)
    return { ok: false, why: msg('The line is shorter than one step. Draw it longer.') };
  if (count > MOST)
    return {
      ok: false,
      why: msg('Between 1 and {most} copies can be made at once.', { most: MOST }),
    };
  const placed = placedOf(plan, refs);
  if (placed.length === 0) return { ok: false, why: msg('There is nothing here to copy.') };
  const box = around(placed);
  const to: Point = [a[0] - (box.x0 + box.x1) / 2, a[1] - (box.y0 + box.y1) / 2];
  const draft = new Draft(plan);
  const take = (outcome: Outcome): Outcome => {
    if (outcome.ok)
      for (const { table, after } of outcome.changes) if (after) draft.put(table, after as never);
    return outcome;
  };
  if (Math.round(to[0]) !== 0 || Math.round(to[1]) !== 0) {
    const moved = take(move(draft.plan, { refs, by: to }, context));
    if (!moved.ok) return moved;
  }
  const select: Ref[] = [...refs];
  for (let i = 1; i <= count; i++) {
    const t = (i * step) / length;
    const by: Point = [(b[0] - a[0]) * t, (b[1] - a[1]) * t];
    const made = take(duplicate(draft.plan, { refs, by }, context));
    if (!made.ok) return made;
    select.push(...(made.select ?? []));
  }
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Repeat {what} along a line', { what: nameOf(plan, refs) }),
    select,
  };
};

/** Makes devices another kind; their places and the labels of their jacks stay, and jacks come and go as it needs. */
export const replaceKind: Command<{ refs: readonly Ref[]; kind: Id }> = (
  plan,
  { refs, kind: id },
  { kinds },
) => {
  const kind = kinds.get(id);
  if (!kind) return { ok: false, why: msg('There is no device kind "{kind}".', { kind: id }) };
  const draft = new Draft(plan);
  const changed: Device[] = [];
  for (const ref of refs) {
    const device = ref.table === 'devices' ? plan.tables.devices.get(ref.id) : undefined;
    if (!device || device.kind === id) continue;
    const host = device.host === null ? undefined : plan.tables.devices.get(device.host);
    const shares = host !== undefined && kind.sharesWith.includes(host.kind);
    draft.patch('devices', device.id, {
      kind: id,
      height: kind.height,
      cord: kind.cord,
      host: shares ? device.host : null,
    });
    changed.push(draft.plan.tables.devices.get(device.id)!);
  }
  if (changed.length === 0)
    return { ok: false, why: msg('Select devices of another kind to replace them.') };
  for (const device of changed)
    if (device.host === null && jacksOf(draft.plan, device).length === 0)
      serveDevice(draft, kind, device);
  followDevices(draft, changed, kinds);
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Replace {what} by {kind}', {
      what: nameOf(plan, refs),
      kind: kind.label.text.toLowerCase(),
    }),
  };
};
