import { type Message, msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { Draft } from '../change.ts';
import { isLocked, LOCKED } from '../locks.ts';
import type { Plan, Ref } from '../plan.ts';
import type { Command, CommandContext, Outcome } from './command.ts';
import { move } from './move.ts';
import { around, type Box, type Placed, placedOf } from './row-boxes.ts';
import { nameOf } from './step-words.ts';

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
    draft.take(outcome.changes);
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
