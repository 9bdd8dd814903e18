import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { Draft } from '../change.ts';
import { alongOf, fittedAlong, OVERLAPS, overlapsOpening, wallAt } from '../openings.ts';
import { followWalls } from '../outlet-place.ts';
import { makeRow, type Opening, onLevel } from '../plan.ts';
import type { Command } from './command.ts';

/** How near a wall's face an opening must be placed, mm. */
const REACH = 600;

type Size = Partial<Pick<Opening, 'width' | 'height' | 'sill'>>;

/**
 * What each kind is by itself: a door leaf of 3 ft × 7 ft, a window of 4 ft × 4 ft on a sill at 3 ft, an opening of
 * 4 ft × 7 ft (common practice, no source).
 */
const SIZES: Readonly<Record<Opening['kind'], Required<Size>>> = {
  door: { width: 914, height: 2134, sill: 0 },
  window: { width: 1219, height: 1219, sill: 914 },
  opening: { width: 1219, height: 2134, sill: 0 },
};

const LABELS = {
  door: msg('Place door'),
  window: msg('Place window'),
  opening: msg('Place opening'),
} as const;

/** Places a door, a window or an opening in the nearest wall; a door opens to the side from which it was placed. */
export const placeOpening: Command<{ level: Id; kind: Opening['kind']; at: Point } & Size> = (
  plan,
  { level, kind, at, ...size },
  { kinds },
) => {
  const wall = wallAt(onLevel(plan, 'walls', level), at, REACH);
  if (!wall) return { ok: false, why: msg('An opening stands in a wall. Place it on one.') };
  const { width, height, sill } = { ...SIZES[kind], ...size };
  const along = fittedAlong(wall, alongOf(wall, at), width);
  if (along === null) return { ok: false, why: msg('That wall is too short for it.') };
  const left =
    (wall.b[0] - wall.a[0]) * (at[1] - wall.a[1]) - (wall.b[1] - wall.a[1]) * (at[0] - wall.a[0]) <
    0;
  const draft = new Draft(plan);
  const row = makeRow('openings', draft.fresh('openings'), {
    wall: wall.id,
    kind,
    along,
    width,
    height,
    sill,
    side: left ? 'left' : 'right',
  });
  if (overlapsOpening(plan, row)) return { ok: false, why: OVERLAPS };
  draft.put('openings', row);
  // Outlets that nobody moved by hand make room for it.
  followWalls(draft, [wall], kinds);
  return {
    ok: true,
    changes: draft.changes(),
    label: LABELS[kind],
    select: [{ table: 'openings', id: row.id }],
  };
};
