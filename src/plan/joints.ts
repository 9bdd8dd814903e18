import type { Id } from '../base/ids.ts';
import { type Message, msg } from '../base/message.ts';
import { distance } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { doubleArea } from '../geometry/polygon.ts';
import type { Draft } from './change.ts';
import { alongAfter, alongOf, fittedAlong, openingsIn, placeAlong } from './openings.ts';
import { type Dimension, onLevel, type Plan, type Wall, type Zone } from './plan.ts';

type Line = Pick<Wall, 'a' | 'b'>;

/** A wall as it was and as it is to be. */
interface Moved {
  readonly before: Wall;
  readonly after: Wall;
}

/** How far outside of a wall's faces an end still counts as joined to it, mm: drawn places are whole. */
const SLACK = 2;

const keyOf = (p: Point): string => `${p[0]},${p[1]}`;
const same = (p: Point, q: Point): boolean => p[0] === q[0] && p[1] === q[1];
const whole = (p: Point): Point => [Math.round(p[0]) + 0, Math.round(p[1]) + 0];

/** How far beside the line through a and b a place lies, with sign. */
function besideOf({ a, b }: Line, p: Point): number {
  const length = distance(a, b);
  if (length === 0) return 0;
  return ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / length;
}

/** Whether a place lies in the body of a wall, its ends with half the thickness included. */
function joinedTo(wall: Wall, p: Point): boolean {
  const reach = wall.thickness / 2 + SLACK;
  if (Math.abs(besideOf(wall, p)) > reach) return false;
  const along = alongOf(wall, p);
  return along >= -reach && along <= distance(wall.a, wall.b) + reach;
}

/** An endless line by a place on it and a direction. */
interface Endless {
  readonly at: Point;
  readonly to: Point;
}

/** Where two endless lines cross; null where they are all but parallel. */
function crossing(p: Endless, q: Endless): Point | null {
  const det = p.to[0] * q.to[1] - p.to[1] * q.to[0];
  if (Math.abs(det) < 0.02 * Math.hypot(...p.to) * Math.hypot(...q.to)) return null;
  const t = ((q.at[0] - p.at[0]) * q.to[1] - (q.at[1] - p.at[1]) * q.to[0]) / det;
  return [p.at[0] + p.to[0] * t, p.at[1] + p.to[1] * t];
}

/** The line on which a place that lay in a moved wall lies now: as far beside the wall's middle as before. */
function lineIn({ before, after }: Moved, p: Point): Endless {
  const beside = besideOf(before, p);
  const to: Point = [after.b[0] - after.a[0], after.b[1] - after.a[1]];
  const length = Math.hypot(...to) || 1;
  return {
    at: [after.a[0] - (to[1] / length) * beside, after.a[1] + (to[0] / length) * beside],
    to,
  };
}

/**
 * Where a place that is joined to moved walls goes: where their lines cross; in one wall alone where its own direction
 * meets it; else to the same distance along the wall.
 */
function follow(moved: readonly Moved[], p: Point, own: readonly Point[]): Point {
  const lines = moved.map((wall) => lineIn(wall, p));
  const first = lines[0]!;
  for (const other of lines.slice(1)) {
    const at = crossing(first, other);
    if (at) return at;
  }
  for (const to of own) {
    const at = crossing(first, { at: p, to });
    if (at) return at;
  }
  const { before, after } = moved[0]!;
  const on = placeAlong(after, alongAfter(before, after, alongOf(before, p)));
  const beside = besideOf(before, p);
  const length = distance(after.a, after.b) || 1;
  return [
    on[0] - ((after.b[1] - after.a[1]) / length) * beside,
    on[1] + ((after.b[0] - after.a[0]) / length) * beside,
  ];
}

/** What has moved so far: walls, and places that were shared. */
interface Carrying {
  readonly walls: Map<Id, Moved>;
  readonly places: Map<string, Point>;
}

/** Where a place goes, by the places that moved and the walls that it is joined to; itself where it stays. */
function placeAfter(
  { places }: Carrying,
  walls: Iterable<Moved>,
  p: Point,
  own: readonly Point[],
): Point {
  const known = places.get(keyOf(p));
  if (known) return known;
  const joined = [...walls].filter(({ before }) => joinedTo(before, p));
  if (joined.length === 0) return p;
  const to = whole(follow(joined, p, own));
  // A join at a sharp angle could run off to nowhere.
  const far = Math.max(...joined.map(({ before, after }) => farthest(before, after)));
  return distance(p, to) <= 4 * far + SLACK ? to : p;
}

const farthest = (before: Line, after: Line): number =>
  Math.max(distance(before.a, after.a), distance(before.b, after.b));

const direction = (from: Point, to: Point): Point => [to[0] - from[0], to[1] - from[1]];

/**
 * After some walls were moved or reshaped in a draft: the walls that are joined to them at a corner or against their
 * faces stay joined, rooms keep their corners on them, and what stands in or hangs on a wall goes along. Locked walls
 * and rooms stay as they are.
 *
 * @param before the walls as they were, by id; the draft holds them as they are to be
 * @param still walls that are moved otherwise and are not to be touched
 * @returns every wall that changed, as it was
 */
export function carryJoints(
  draft: Draft,
  before: ReadonlyMap<Id, Wall>,
  level: Id,
  places: ReadonlyMap<string, Point> = new Map(),
): readonly Wall[] {
  const carrying: Carrying = { walls: new Map(), places: new Map(places) };
  for (const [id, was] of before) noteMoved(carrying, was, draft.plan.tables.walls.get(id)!);
  let fresh: Moved[] = [...carrying.walls.values()];
  while (fresh.length > 0) {
    const next: Moved[] = [];
    for (const wall of onLevel(draft.plan, 'walls', level)) {
      if (carrying.walls.has(wall.id) || wall.locked) continue;
      const after = wallAfter(carrying, fresh, wall);
      if (after === wall) continue;
      draft.put('walls', after);
      next.push({ before: wall, after });
    }
    for (const { before: was, after } of next) noteMoved(carrying, was, after);
    fresh = next;
  }
  const walls = [...carrying.walls.values()];
  for (const zone of onLevel(draft.plan, 'zones', level)) carryZone(draft, carrying, walls, zone);
  for (const row of onLevel(draft.plan, 'dimensions', level)) carryDimension(draft, carrying, row);
  for (const moved of walls) carryMounted(draft, moved);
  return walls.map(({ before: was }) => was);
}

function noteMoved({ walls, places }: Carrying, before: Wall, after: Wall): void {
  walls.set(before.id, { before, after });
  if (!same(before.a, after.a)) places.set(keyOf(before.a), after.a);
  if (!same(before.b, after.b)) places.set(keyOf(before.b), after.b);
}

function wallAfter(carrying: Carrying, fresh: readonly Moved[], wall: Wall): Wall {
  const own = [direction(wall.a, wall.b)];
  const a = placeAfter(carrying, fresh, wall.a, own);
  const b = placeAfter(carrying, fresh, wall.b, own);
  return same(a, wall.a) && same(b, wall.b) ? wall : { ...wall, a, b };
}

function carryZone(draft: Draft, carrying: Carrying, walls: readonly Moved[], zone: Zone): void {
  if (zone.locked) return;
  const { outline } = zone;
  const after = outline.map((p, i) => {
    const last = outline[(i + outline.length - 1) % outline.length]!;
    const next = outline[(i + 1) % outline.length]!;
    return placeAfter(carrying, walls, p, [direction(last, p), direction(p, next)]);
  });
  if (after.some((p, i) => !same(p, outline[i]!)))
    draft.patch('zones', zone.id, { outline: after });
}

function carryDimension(draft: Draft, { places }: Carrying, row: Dimension): void {
  const a = places.get(keyOf(row.a)) ?? row.a;
  const b = places.get(keyOf(row.b)) ?? row.b;
  if (!row.locked && !same(a, b) && (a !== row.a || b !== row.b))
    draft.patch('dimensions', row.id, { a, b });
}

/** Openings and outlets of a wall go where the wall goes. */
export function carryMounted(draft: Draft, { before, after }: Moved): void {
  for (const { id, along: was, width } of openingsIn(draft.plan, before.id)) {
    const along = fittedAlong(after, alongAfter(before, after, was), width);
    if (along !== null && along !== was) draft.patch('openings', id, { along });
  }
  for (const outlet of draft.plan.tables.outlets.values()) {
    if (outlet.wall !== before.id) continue;
    const length = distance(after.a, after.b) || 1;
    const along = alongAfter(before, after, alongOf(before, outlet.at));
    const on = placeAlong(after, Math.max(0, Math.min(length, along)));
    const beside = besideOf(before, outlet.at);
    const at = whole([
      on[0] - ((after.b[1] - after.a[1]) / length) * beside,
      on[1] + ((after.b[0] - after.a[0]) / length) * beside,
    ]);
    if (!same(at, outlet.at)) draft.patch('outlets', outlet.id, { at });
  }
}

/** Why the walls and rooms of a draft cannot be as they are: something has no length or no area, or a door no room. */
export function collapsed(plan: Plan, draft: Draft): Message | null {
  for (const { table, after } of draft.changes()) {
    if (after === null) continue;
    if (table === 'walls') {
      const wall = after as Wall;
      if (same(wall.a, wall.b)) return msg('A wall needs two ends at different places.');
      const tight = openingsIn(plan, wall.id).some(
        ({ along, width }) => fittedAlong(wall, along, width) === null,
      );
      if (tight)
        return msg('An opening in a wall would not fit any more. Move or narrow it first.');
    }
    if ((table === 'zones' || table === 'keepouts') && doubleArea((after as Zone).outline) === 0)
      return msg('Its corners may not lie in one line.');
  }
  return null;
}
