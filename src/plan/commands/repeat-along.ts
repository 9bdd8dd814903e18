import { msg } from '../../base/message.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import { Draft } from '../change.ts';
import type { Ref } from '../plan.ts';
import type { Command } from './command.ts';
import { duplicate } from './duplicate.ts';
import { move } from './move.ts';
import { around, placedOf } from './row-boxes.ts';
import { nameOf } from './step-words.ts';

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
  if (Math.round(to[0]) !== 0 || Math.round(to[1]) !== 0) {
    const moved = move(draft.plan, { refs, by: to }, context);
    if (!moved.ok) return moved;
    draft.take(moved.changes);
  }
  const select: Ref[] = [...refs];
  for (let i = 1; i <= count; i++) {
    const t = (i * step) / length;
    const by: Point = [(b[0] - a[0]) * t, (b[1] - a[1]) * t];
    const made = duplicate(draft.plan, { refs, by }, context);
    if (!made.ok) return made;
    draft.take(made.changes);
    select.push(...(made.select ?? []));
  }
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Repeat {what} along a line', { what: nameOf(plan, refs) }),
    select,
  };
};
