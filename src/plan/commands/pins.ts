import type { Id } from '../../base/ids.ts';
import { type Message, msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { Draft } from '../change.ts';
import { removeRows } from '../integrity.ts';
import { freePinName } from '../names.ts';
import { makeRow, type Plan } from '../plan.ts';
import { BEYOND, tooFar } from '../row-places.ts';
import type { Command, Outcome } from './command.ts';

/** Lets jacks pass a pin, or none; pins that they were the last to pass go. */
function passes(draft: Draft, jacks: readonly Id[], pin: Id | null): void {
  const left = new Set<Id>();
  for (const id of jacks) {
    const before = draft.plan.tables.jacks.get(id)!.pin;
    if (before === pin) continue;
    if (before !== null) left.add(before);
    draft.patch('jacks', id, { pin });
  }
  const named = new Set([...draft.plan.tables.jacks.values()].map((jack) => jack.pin));
  const unused = [...left].filter((id) => !named.has(id));
  removeRows(
    draft,
    unused.map((id) => ({ table: 'pins' as const, id })),
  );
}

const there = (plan: Plan, jacks: readonly Id[]): Id[] =>
  [...new Set(jacks)].filter((id) => plan.tables.jacks.has(id));

const NO_RUNS = msg(
  'Select the runs first: click a cable, a jack or a device, or take a group from the Runs shelf.',
);

/** What a step about some runs is called. */
const about = (plan: Plan, jacks: readonly Id[], one: string, many: string): Message =>
  jacks.length === 1
    ? msg(one, { label: plan.tables.jacks.get(jacks[0]!)!.label })
    : msg(many, { count: jacks.length });

/** Sets a pin, one place or several in order from the jack to the closet, and makes the runs of some jacks pass it. */
export const pinRuns: Command<{ level: Id; points: readonly Point[]; jacks: readonly Id[] }> = (
  plan,
  { level, points, jacks },
) => {
  const which = there(plan, jacks);
  if (which.length === 0) return { ok: false, why: NO_RUNS };
  if (points.length === 0 || points.length > 50)
    return { ok: false, why: msg('A pin has between 1 and 50 places.') };
  if (tooFar(points)) return { ok: false, why: BEYOND };
  const draft = new Draft(plan);
  const name = freePinName(plan.tables.pins.values());
  const pin = draft.put(
    'pins',
    makeRow('pins', draft.fresh('pins'), { level, name, points: [...points] }),
  );
  passes(draft, which, pin.id);
  return {
    ok: true,
    changes: draft.changes(),
    label: about(plan, which, 'Pin run {label}', 'Pin {count} runs'),
    select: [{ table: 'pins', id: pin.id }],
  };
};

/** Makes the runs of more jacks pass a pin that is there. */
export const joinPin: Command<{ pin: Id; jacks: readonly Id[] }> = (plan, { pin, jacks }) => {
  if (!plan.tables.pins.has(pin)) return { ok: false, why: msg('That pin is no longer there.') };
  const which = there(plan, jacks).filter((id) => plan.tables.jacks.get(id)!.pin !== pin);
  if (which.length === 0) return { ok: false, why: msg('They already pass this pin.') };
  const draft = new Draft(plan);
  passes(draft, which, pin);
  return done(draft, about(plan, which, 'Pin run {label}', 'Pin {count} runs'));
};

/** Leaves the way of jacks free again. A pin that its last jack lets go is removed with it. */
export const leaveFree: Command<{ jacks: readonly Id[] }> = (plan, { jacks }) => {
  const which = there(plan, jacks).filter((id) => plan.tables.jacks.get(id)!.pin !== null);
  if (which.length === 0) return { ok: false, why: msg('Their way is free already.') };
  const draft = new Draft(plan);
  passes(draft, which, null);
  return done(
    draft,
    about(plan, which, 'Leave the way of {label} free', 'Leave {count} ways free'),
  );
};

const done = (draft: Draft, label: Message): Outcome => ({
  ok: true,
  changes: draft.changes(),
  label,
});
