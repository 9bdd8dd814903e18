import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { Draft } from '../change.ts';
import { followWalls } from '../outlet-place.ts';
import { makeRow, type Wall } from '../plan.ts';
import type { Command } from './command.ts';

type Measured = { readonly a: Point; readonly b: Point; readonly thickness: number };

/** Draws walls that lie apart from one another, each as thick as it was measured. */
export const takeWalls: Command<{
  level: Id;
  walls: readonly Measured[];
  look?: Partial<Pick<Wall, 'construction' | 'top' | 'rated' | 'exterior'>>;
}> = (plan, { level, walls, look }, { kinds }) => {
  const real = walls.filter(({ a, b }) => a[0] !== b[0] || a[1] !== b[1]);
  if (real.length === 0)
    return { ok: false, why: msg('A wall needs two ends at different places.') };
  const draft = new Draft(plan);
  const added = real.map(({ a, b, thickness }) =>
    draft.put('walls', makeRow('walls', draft.fresh('walls'), { ...look, level, a, b, thickness })),
  );
  followWalls(draft, added, kinds);
  return {
    ok: true,
    changes: draft.changes(),
    label:
      added.length === 1
        ? msg('Take over 1 wall')
        : msg('Take over {count} walls', { count: added.length }),
    select: added.map(({ id }) => ({ table: 'walls', id })),
  };
};
