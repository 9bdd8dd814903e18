import type { Id } from '../../base/ids.ts';
import { type Message, msg } from '../../base/message.ts';
import { type Enclosure, enclosure, PASSAGE } from '../../geometry/enclosure.ts';
import { distance } from '../../geometry/nearest.ts';
import { openSides, type Side } from '../../geometry/open-sides.ts';
import type { Point } from '../../geometry/point.ts';
import { onLevel, type Plan } from '../plan.ts';
import type { Command } from './command.ts';
import { drawZone, sameOutline, type ZoneLook } from './draw.ts';

/**
 * Draws a room round a place, along the middle lines of the walls that close round it.
 *
 * `passages`: wider gaps count as closed as well, up to a double door. `sides`: lines that somebody drew along sides that
 * are open, where the room ends without a wall.
 */
export const fillRoom: Command<{
  level: Id;
  at: Point;
  passages?: boolean;
  sides?: readonly Side[];
  look?: ZoneLook;
}> = (plan, { level, at, passages, sides, look }, context) => {
  const found = enclosureOn(plan, level, at, sides);
  if (!found.closed && !(passages && arePassages(found.leaks)))
    return { ok: false, why: leakWords(found.leaks) };
  const { outline } = found;
  const same = onLevel(plan, 'zones', level).some((zone) => sameOutline(zone.outline, outline));
  if (same) return { ok: false, why: msg('There is a room between these walls already.') };
  return drawZone(plan, { level, outline, ...(look ? { look } : {}) }, context);
};

/** What closes round a place on a level, with the lines that somebody drew along open sides. */
export function enclosureOn(
  plan: Plan,
  level: Id,
  at: Point,
  sides: readonly Side[] = [],
): Enclosure {
  const walls = onLevel(plan, 'walls', level);
  return enclosure([...walls, ...openSides(sides, walls)], at);
}

/** Whether gaps are no wider than a double door or a passage. */
export const arePassages = (leaks: readonly Side[]): boolean =>
  leaks.length > 0 && leaks.every(([p, q]) => distance(p, q) <= PASSAGE);

function leakWords(leaks: readonly Side[]): Message {
  const [leak] = leaks;
  if (!leak)
    return msg(
      'No walls close round this place. Draw them first, or drag a line along each side that is open.',
    );
  const parts = { gap: { mm: Math.round(distance(leak[0], leak[1])) }, count: leaks.length };
  if (arePassages(leaks))
    return leaks.length === 1
      ? msg(
          'The walls round this place leave a gap of {gap}. Click again if it is a doorway, or close it with a wall.',
          parts,
        )
      : msg(
          'The walls round this place leave {count} gaps, the first of {gap}. Click again if they are doorways, or close them with walls.',
          parts,
        );
  if (leaks.length === 1)
    return msg(
      'The walls round this place leave a gap of {gap}. Close it with a wall, or drag a line across it, then click again.',
      parts,
    );
  return msg(
    'The walls round this place leave {count} gaps, the first of {gap}. Close them with walls, or drag lines across them, then click again.',
    parts,
  );
}
