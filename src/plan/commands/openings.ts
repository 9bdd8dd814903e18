import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { Draft } from '../change.ts';
import {
  alongOf,
  fittedAlong,
  OPENING_SIZES,
  OVERLAPS,
  overlapsOpening,
  wallAt,
} from '../openings.ts';
import { followWalls } from '../outlet-place.ts';
import { makeRow, type Opening, onLevel } from '../plan.ts';
import type { Command } from './command.ts';

/** How near a wall's face an opening must be placed, mm. */
const REACH = 600;

type Size = Partial<Pick<Opening, 'width' | 'height' | 'sill'>>;

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
  const { width, height, sill } = { ...OPENING_SIZES[kind], ...size };
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
