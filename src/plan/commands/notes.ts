import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { Draft } from '../change.ts';
import { makeRow } from '../plan.ts';
import { BEYOND, tooFar } from '../row-places.ts';
import type { Command } from './command.ts';

/** Puts words on the drawing, with a line to what they are about if asked. */
export const placeNote: Command<{ level: Id; at: Point; text: string; to?: Point }> = (
  plan,
  { level, at, text, to },
) => {
  const words = text.trim();
  if (words.length > 400) return { ok: false, why: msg('A note has at most 400 letters.') };
  if (words === '') return { ok: false, why: msg('A note needs some words.') };
  if (tooFar(at) || (to && tooFar(to))) return { ok: false, why: BEYOND };
  const draft = new Draft(plan);
  const row = draft.put(
    'notes',
    makeRow('notes', draft.fresh('notes'), { level, at, text: words, to: to ?? null }),
  );
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Place note'),
    select: [{ table: 'notes', id: row.id }],
  };
};

/** Draws a dimension line between two places. */
export const drawDimension: Command<{ level: Id; a: Point; b: Point; aside?: number }> = (
  plan,
  { level, a, b, aside },
) => {
  if (a[0] === b[0] && a[1] === b[1])
    return { ok: false, why: msg('A dimension line needs two ends at different places.') };
  if (tooFar(a) || tooFar(b)) return { ok: false, why: BEYOND };
  const draft = new Draft(plan);
  const row = draft.put(
    'dimensions',
    makeRow('dimensions', draft.fresh('dimensions'), {
      level,
      a,
      b,
      ...(aside === undefined ? {} : { aside: Math.round(aside) }),
    }),
  );
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Draw dimension line'),
    select: [{ table: 'dimensions', id: row.id }],
  };
};
