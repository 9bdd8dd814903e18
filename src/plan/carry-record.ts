import type { Id } from '../base/ids.ts';
import { distance } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import type { Draft } from './change.ts';
import { onLevel, type Plan, type Ref } from './plan.ts';
import { placesOfRow, tooFar } from './row-places.ts';

/** What a drawing hangs together by; the closets first, since they are few and seldom moved. */
const FRAME = ['closets', 'risers', 'zones', 'walls'] as const;

/** So far a row may come out beside where the drawing was laid, mm: an outlet on the face of a wall that was drawn larger. */
const BESIDE = 300;

/**
 * Lays anew where recorded outlets hung, on each level that was laid anew as a whole, its closets too: then the drawing
 * was moved on its paper, and nothing in the building.
 */
export function carryRecord(draft: Draft, before: Plan, to: (p: Point) => Point): void {
  const recorded = [...before.tables.jacks.values()].filter(({ built }) => built?.at);
  if (recorded.length === 0) return;
  for (const level of before.tables.levels.keys()) {
    if (!isWhole(draft.plan, before, level, to)) continue;
    for (const { id, outlet, built } of recorded) {
      if (!built?.at || before.tables.outlets.get(outlet)?.level !== level) continue;
      const [x, y] = to(built.at);
      const at: Point = [Math.round(x) + 0, Math.round(y) + 0];
      // Of one that was dragged far from where it hung, that place may come to lie beyond what a plan can hold.
      draft.patch('jacks', id, { built: { ...built, at: tooFar(at) ? null : at } });
    }
  }
}

/** Whether all of a level came to where it was laid; what has neither closet nor walls is no drawing yet. */
function isWhole(after: Plan, before: Plan, level: Id, to: (p: Point) => Point): boolean {
  const came = (ref: Ref): boolean => {
    const now = placesOfRow(after, ref);
    return placesOfRow(before, ref).every((p, i) => now[i] && distance(now[i], to(p)) <= BESIDE);
  };
  const frame = FRAME.flatMap((table) =>
    onLevel(before, table, level).map(({ id }) => ({ table, id })),
  );
  return (
    frame.length > 0 &&
    frame.every(came) &&
    onLevel(before, 'outlets', level).every(({ id }) => came({ table: 'outlets', id }))
  );
}
