import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { Draft } from '../change.ts';
import { levelBeside } from '../levels.ts';
import { freeName } from '../names.ts';
import { type Level, makeRow } from '../plan.ts';
import { BEYOND, tooFar } from '../row-places.ts';
import type { Command } from './command.ts';

/** Which of two levels lies below the other, first; those at one height in the order of their ids. */
export const lowerFirst = (a: Level, b: Level): readonly [Level, Level] =>
  a.elevation < b.elevation || (a.elevation === b.elevation && a.id.length <= b.id.length)
    ? [a, b]
    : [b, a];

/**
 * Places a riser between a level and another: unless said otherwise the one above it, or below it where none is above.
 * It is kept from the lower to the upper, whichever of them it was placed on.
 */
export const placeRiser: Command<{
  level: Id;
  to?: Id;
  at: Point;
  name?: string;
  size?: string;
}> = (plan, { level, to, at, name, size }) => {
  const here = plan.tables.levels.get(level);
  if (!here) return { ok: false, why: msg('That level is no longer there.') };
  const there =
    to === undefined
      ? (levelBeside(plan, level, 1) ?? levelBeside(plan, level, -1))
      : plan.tables.levels.get(to);
  if (!there)
    return { ok: false, why: msg('A riser joins two levels. Add a level on the Rooms leg first.') };
  if (there.id === here.id)
    return { ok: false, why: msg('A riser joins two levels. Choose another level for its end.') };
  if (tooFar(at)) return { ok: false, why: BEYOND };
  const [lower, upper] = lowerFirst(here, there);
  const draft = new Draft(plan);
  const riser = draft.put(
    'risers',
    makeRow('risers', draft.fresh('risers'), {
      level: lower.id,
      upper: upper.id,
      name: name ?? freeName(plan.tables.risers.values(), 'Riser'),
      at,
      ...(size === undefined ? {} : { size }),
    }),
  );
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Place riser'),
    select: [{ table: 'risers', id: riser.id }],
  };
};
