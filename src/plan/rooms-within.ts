import { doubleArea, insidePolygon, middleOf } from '../geometry/polygon.ts';
import type { Draft } from './change.ts';
import { onLevel, type Zone } from './plan.ts';

/**
 * Lets the rooms that lie within a new one come after it. The last of the rooms over a place holds there, and a hall that
 * is drawn round rooms is not meant to take their ceilings and letters.
 */
export function keepWithin(draft: Draft, round: Zone): void {
  const size = Math.abs(doubleArea(round.outline));
  const within = onLevel(draft.plan, 'zones', round.level).filter(
    ({ id, outline }) =>
      id !== round.id &&
      Math.abs(doubleArea(outline)) < size &&
      // Of one in a niche all corners may lie on the outline.
      [...outline, middleOf(outline)].every(([x, y]) => insidePolygon(round.outline, x, y)),
  );
  for (const room of within) {
    draft.remove({ table: 'zones', id: room.id });
    draft.put('zones', { ...room, id: draft.fresh('zones') });
  }
}
