import type { Id } from '../../base/ids.ts';
import type { Point } from '../../geometry/point.ts';
import type { Draft } from '../change.ts';
import { gapsAt } from '../openings.ts';
import { nearestFace } from '../outlet-place.ts';
import { type Outlet, onLevel, type Plan, type Wall } from '../plan.ts';

/** How near an outlet that is moved by hand snaps to a wall. */
export const FACE_REACH = 400;
/** How near it must lie to hang there still, after it was moved along with others. */
export const TOUCH = 10;

/** The outlets that hang on a wall. */
export const outletsOn = (plan: Plan, wall: Id): Outlet[] =>
  [...plan.tables.outlets.values()].filter((outlet) => outlet.wall === wall);

/** Hangs an outlet on the nearest face of these walls; on none of them where none is within reach. */
export function hang(draft: Draft, outlet: Outlet, walls: readonly Wall[], reach: number): void {
  const gaps = gapsAt(draft.plan, outlet.height);
  const face = nearestFace(walls, outlet.at, reach, gaps);
  draft.patch('outlets', outlet.id, {
    at: face?.at ?? outlet.at,
    wall: face?.wall.id ?? null,
  });
}

/** Moved by hand, an outlet hangs on the wall face that it was dropped at, or keeps the place. */
export function dropOutlet(draft: Draft, id: Id, to: Point): void {
  const outlet = draft.plan.tables.outlets.get(id)!;
  const hangs = outlet.mount === 'wall' || outlet.mount === 'pole';
  const face = hangs
    ? nearestFace(
        onLevel(draft.plan, 'walls', outlet.level),
        to,
        FACE_REACH,
        gapsAt(draft.plan, outlet.height),
      )
    : null;
  draft.patch('outlets', id, {
    at: face?.at ?? to,
    wall: face?.wall.id ?? null,
    ...(face ? { mount: 'wall' as const } : {}),
    placed: 'hand',
  });
}
