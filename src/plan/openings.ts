import type { Id } from '../base/ids.ts';
import { msg } from '../base/message.ts';
import { distance, nearestOnSegment } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import type { Opening, Plan, Wall } from './plan.ts';

/** Half a box, and the trim and the studs beside an opening: no outlet is placed nearer (common practice, no source). */
const BESIDE = 100;

type Size = Pick<Opening, 'width' | 'height' | 'sill'>;

/**
 * What each kind is by itself: a door leaf of 3 ft × 7 ft, a window of 4 ft × 4 ft on a sill at 3 ft, an opening of
 * 4 ft × 7 ft (common practice, no source).
 */
export const OPENING_SIZES: Readonly<Record<Opening['kind'], Size>> = {
  door: { width: 914, height: 2134, sill: 0 },
  window: { width: 1219, height: 1219, sill: 914 },
  opening: { width: 1219, height: 2134, sill: 0 },
};

/** The place on a wall's centreline at a distance from its end `a`; not rounded. */
export function placeAlong(wall: Pick<Wall, 'a' | 'b'>, along: number): Point {
  const length = distance(wall.a, wall.b);
  const t = length === 0 ? 0 : along / length;
  return [wall.a[0] + (wall.b[0] - wall.a[0]) * t, wall.a[1] + (wall.b[1] - wall.a[1]) * t];
}

/** How far along a wall from its end `a` a place lies, measured square to the wall; may lie beyond both ends. */
export function alongOf(wall: Pick<Wall, 'a' | 'b'>, at: Point): number {
  const length = distance(wall.a, wall.b);
  if (length === 0) return 0;
  const [dx, dy] = [wall.b[0] - wall.a[0], wall.b[1] - wall.a[1]];
  return ((at[0] - wall.a[0]) * dx + (at[1] - wall.a[1]) * dy) / length;
}

/** Whether an opening lies within the ends of its wall, to the millimetre. */
export function fitsIn(
  wall: Pick<Wall, 'a' | 'b'>,
  { along, width }: Pick<Opening, 'along' | 'width'>,
): boolean {
  return along - width / 2 >= -1 && along + width / 2 <= distance(wall.a, wall.b) + 1;
}

/** The nearest place along a wall at which an opening of a width fits, whole mm; null where the wall is too short. */
export function fittedAlong(
  wall: Pick<Wall, 'a' | 'b'>,
  along: number,
  width: number,
): number | null {
  const length = distance(wall.a, wall.b);
  if (width > length + 1) return null;
  return Math.round(Math.max(width / 2, Math.min(length - width / 2, along)));
}

/** The openings in a wall, in the order of their ids. */
export const openingsIn = (plan: Plan, wall: Id): Opening[] =>
  [...plan.tables.openings.values()].filter((opening) => opening.wall === wall);

/** The openings on a level, each with its wall. */
export function openingsOn(
  plan: Plan,
  level: Id,
): { readonly opening: Opening; readonly wall: Wall }[] {
  return [...plan.tables.openings.values()].flatMap((opening) => {
    const wall = plan.tables.walls.get(opening.wall);
    return wall?.level === level ? [{ opening, wall }] : [];
  });
}

/** Stretches of walls, from the wall's end `a`, that no outlet at a height may be placed on: by the wall. */
export type Gaps = ReadonlyMap<Id, readonly (readonly [from: number, to: number])[]>;

/** The stretches that openings take from walls at a height above the floor; below a window's sill the wall is free. */
export function gapsAt(plan: Plan, height: number): Gaps {
  const gaps = new Map<Id, (readonly [number, number])[]>();
  for (const { wall, along, width, sill, height: tall } of plan.tables.openings.values()) {
    if (height < sill - BESIDE || height > sill + tall + BESIDE) continue;
    const list = gaps.get(wall) ?? [];
    list.push([along - width / 2 - BESIDE, along + width / 2 + BESIDE]);
    gaps.set(wall, list);
  }
  for (const [wall, list] of gaps) gaps.set(wall, merged(list));
  return gaps;
}

/** Stretches in order, those that touch made one. */
function merged(list: readonly (readonly [number, number])[]): (readonly [number, number])[] {
  const result: [number, number][] = [];
  for (const [from, to] of [...list].sort((a, b) => a[0] - b[0])) {
    const last = result.at(-1);
    if (last && from <= last[1]) last[1] = Math.max(last[1], to);
    else result.push([from, to]);
  }
  return result;
}

/**
 * Where something that stood along a wall stands when the wall has changed: at the same distance from the end that
 * stayed; where neither did, at the same distance where the wall kept its length, else in proportion.
 */
export function alongAfter(
  before: Pick<Wall, 'a' | 'b'>,
  after: Pick<Wall, 'a' | 'b'>,
  along: number,
): number {
  const same = (p: Point, q: Point) => p[0] === q[0] && p[1] === q[1];
  const was = distance(before.a, before.b);
  const is = distance(after.a, after.b);
  if (same(before.a, after.a) || Math.abs(was - is) < 1) return along;
  if (same(before.b, after.b)) return along + is - was;
  return was === 0 ? 0 : (along * is) / was;
}

/** Whether an opening overlaps another one in its wall. */
export function overlapsOpening(plan: Plan, opening: Omit<Opening, 'id'> & { id?: Id }): boolean {
  return openingsIn(plan, opening.wall).some(
    (other) =>
      other.id !== opening.id &&
      Math.abs(other.along - opening.along) < (other.width + opening.width) / 2,
  );
}

/** Why an opening cannot be where another one is. */
export const OVERLAPS = msg('There is an opening in the wall at that place already.');

/** The wall whose middle line is nearest to a place, within a reach beyond its faces; null where there is none. */
export function wallAt(walls: Iterable<Wall>, at: Point, reach: number): Wall | null {
  let best: Wall | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const wall of walls) {
    const d = distance(at, nearestOnSegment(wall.a, wall.b, at));
    if (d > reach + wall.thickness / 2 || d >= least) continue;
    least = d;
    best = wall;
  }
  return best;
}
