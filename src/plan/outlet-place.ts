import type { Id } from '../base/ids.ts';
import { distance, nearestOnSegment, nearestOnWall } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { ceilingAt } from './areas.ts';
import type { Draft } from './change.ts';
import type { KindFacts } from './kind-facts.ts';
import { alongOf, type Gaps, gapsAt, placeAlong } from './openings.ts';
import { type Device, type Outlet, onLevel, type Plan, type Wall } from './plan.ts';
import { wallsNear } from './walls-near.ts';

/** Where an outlet goes: everything of it but its id. */
export type OutletPlace = Pick<Outlet, 'level' | 'at' | 'mount' | 'height' | 'wall'>;

const whole = (p: Point): Point => [Math.round(p[0]), Math.round(p[1])];

const outOf = (a: number, b: number, v: number, far: number): boolean =>
  (a < v - far && b < v - far) || (a > v + far && b > v + far);

/**
 * The wall face nearest to a place, within a reach; null where there is none.
 *
 * @param gaps stretches of walls that do not count, as those that openings take
 */
export function nearestFace(
  walls: Iterable<Wall>,
  at: Point,
  reach: number,
  gaps: Gaps = NO_GAPS,
): { readonly wall: Wall; readonly at: Point } | null {
  let best: { wall: Wall; at: Point } | null = null;
  let least = reach;
  for (const wall of walls) {
    // Cheap refusals first: by the wall's box, then by its centreline, which is never farther than the face by more
    // than the wall's own half.
    const far = least + wall.thickness;
    if (outOf(wall.a[0], wall.b[0], at[0], far) || outOf(wall.a[1], wall.b[1], at[1], far))
      continue;
    const centre = nearestOnSegment(wall.a, wall.b, at);
    if (distance(at, centre) > far) continue;
    const face = faceBeside(wall, at, gaps.get(wall.id) ?? []);
    if (!face) continue;
    const d = distance(at, face);
    if (d <= least && (best === null || d < least)) {
      least = d;
      best = { wall, at: whole(face) };
    }
  }
  return best;
}

const NO_GAPS: Gaps = new Map();

/** The place on a wall's faces that is nearest to a point, outside of stretches; null where they take the whole wall. */
function faceBeside(
  wall: Wall,
  at: Point,
  taken: readonly (readonly [from: number, to: number])[],
): Point | null {
  const face = nearestOnWall(wall.a, wall.b, wall.thickness, at);
  const along = alongOf(wall, face);
  const gap = taken.find(([from, to]) => along > from && along < to);
  if (!gap) return face;
  const length = distance(wall.a, wall.b);
  const across: Point = [-(wall.b[1] - wall.a[1]) / length, (wall.b[0] - wall.a[0]) / length];
  const left = (at[0] - wall.a[0]) * across[0] + (at[1] - wall.a[1]) * across[1] < 0;
  const half = left ? -wall.thickness / 2 : wall.thickness / 2;
  // An end that the stretch reaches has no face left beside it.
  const beside = gap.filter((edge) => edge >= 0 && edge <= length);
  const places = beside.map((edge): Point => {
    const [x, y] = placeAlong(wall, edge);
    return [x + across[0] * half, y + across[1] * half];
  });
  return places.sort((p, q) => distance(at, p) - distance(at, q))[0] ?? null;
}

function hasWalls(plan: Plan, level: Id): boolean {
  for (const wall of plan.tables.walls.values()) if (wall.level === level) return true;
  return false;
}

/**
 * Where the outlet of a device goes by itself: on the ceiling for what hangs there; else on the nearest wall face
 * within reach of its cord; where walls are drawn but none is in reach, on a drop from the ceiling beside the device;
 * where none is drawn at all, at the device, on a wall that is still to be drawn.
 *
 * The cord runs straight from the outlet to the device, so a difference in height takes from its reach.
 */
export function outletPlace(
  plan: Plan,
  kind: KindFacts,
  device: Pick<Device, 'level' | 'at' | 'height' | 'cord'>,
): OutletPlace {
  const { level, at } = device;
  if (kind.mount === 'ceiling') {
    return { level, at, mount: 'ceiling', height: ceilingAt(plan, level, at).height, wall: null };
  }
  const base = { level, height: kind.outletHeight };
  if (kind.mount !== 'wall') return { ...base, at, mount: kind.mount, wall: null };
  const rise = Math.abs(kind.outletHeight - device.height);
  const reach = Math.sqrt(Math.max(0, device.cord * device.cord - rise * rise));
  const walls = wallsNear(plan, level, at, reach);
  const face = nearestFace(walls, at, reach, gapsAt(plan, kind.outletHeight));
  if (face) return { ...base, at: face.at, mount: 'wall', wall: face.wall.id };
  return { ...base, at, mount: hasWalls(plan, level) ? 'pole' : 'wall', wall: null };
}

/** Places the outlets of these devices anew, where nobody has moved them by hand. */
export function followDevices(
  draft: Draft,
  devices: Iterable<Device>,
  kinds: ReadonlyMap<string, KindFacts>,
): void {
  const outlets = new Map([...devices].map((device) => [device, new Set<string>()]));
  const ofDevice = new Map([...outlets].map(([device, ids]) => [device.id, ids]));
  for (const { device, outlet } of draft.plan.tables.jacks.values())
    if (device !== null) ofDevice.get(device)?.add(outlet);
  for (const [device, ids] of outlets) {
    const kind = kinds.get(device.kind);
    if (!kind) continue;
    for (const id of ids) {
      const outlet = draft.plan.tables.outlets.get(id);
      if (outlet?.placed === 'auto' && !outlet.locked)
        draft.patch('outlets', id, outletPlace(draft.plan, kind, device));
    }
  }
}

/** After walls came, went or moved: outlets in their reach that nobody moved by hand take the nearest wall again. */
export function followWalls(
  draft: Draft,
  walls: readonly Wall[],
  kinds: ReadonlyMap<string, KindFacts>,
): void {
  if (walls.length === 0) return;
  const first = onLevel(draft.plan, 'walls', walls[0]!.level).length <= walls.length;
  const near = [...draft.plan.tables.devices.values()].filter(
    (device) =>
      device.level === walls[0]!.level &&
      // The first walls of a level change the rule for every device: a drop takes the place of a wall to come.
      (first ||
        walls.some(
          (w) =>
            distance(device.at, nearestOnSegment(w.a, w.b, device.at)) <= device.cord + w.thickness,
        )),
  );
  followDevices(draft, near, kinds);
}
