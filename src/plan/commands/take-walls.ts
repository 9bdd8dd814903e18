import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { Draft } from '../change.ts';
import { fitsIn, OPENING_SIZES } from '../openings.ts';
import { followWalls } from '../outlet-place.ts';
import { makeRow, onLevel, type Wall } from '../plan.ts';
import type { Command } from './command.ts';

interface Measured {
  readonly a: Point;
  readonly b: Point;
  readonly thickness: number;
  /** Windows, by how far the middle of each lies from the end `a`. */
  readonly windows?: readonly { readonly along: number; readonly width: number }[];
}

/**
 * Draws walls that lie apart from one another, each as thick and each window as wide as it was measured. A plan does not
 * say how high a window stands: it is as high as one that is placed by hand.
 */
export const takeWalls: Command<{
  level: Id;
  walls: readonly Measured[];
  look?: Partial<Pick<Wall, 'construction' | 'top' | 'rated' | 'exterior'>>;
}> = (plan, { level, walls, look }, { kinds }) => {
  const real = walls.filter(({ a, b }) => a[0] !== b[0] || a[1] !== b[1]);
  if (real.length === 0)
    return { ok: false, why: msg('A wall needs two ends at different places.') };
  const draft = new Draft(plan);
  const added = real.map(({ a, b, thickness, windows }) => {
    const row = makeRow('walls', draft.fresh('walls'), { ...look, level, a, b, thickness });
    for (const window of windows ?? []) {
      if (!fitsIn(row, window)) continue;
      const size = { ...OPENING_SIZES.window, ...window };
      const opening = { wall: row.id, kind: 'window', ...size } as const;
      draft.put('openings', makeRow('openings', draft.fresh('openings'), opening));
    }
    return draft.put('walls', row);
  });
  followWalls(draft, added, kinds);
  return {
    ok: true,
    changes: draft.changes(),
    label:
      added.length === 1
        ? msg('Take over 1 wall')
        : msg('Take over {count} walls', { count: added.length }),
    select: added.map(({ id }) => ({ table: 'walls', id })),
    // A level without rooms wants them next; one wall at a time is no moment to say so.
    ...(added.length > 1 && onLevel(plan, 'zones', level).length === 0
      ? {
          notice: msg(
            '{count} walls stand now. Next, take Room between walls and click inside each room.',
            { count: added.length },
          ),
        }
      : {}),
  };
};
