import type { Id } from '../../base/ids.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import { bareParts, inBody, inLine, SLIVER } from '../bare-parts.ts';
import type { Draft } from '../change.ts';
import { alongOf, fitsIn, openingsIn, overlapsOpening, placeAlong } from '../openings.ts';
import { type Opening, onLevel, type Wall, type Zone } from '../plan.ts';
import { hang, outletsOn } from './hang.ts';

/**
 * The walls between moved rooms and the rest. A wall that comes to stand in the body of another of its make becomes one
 * with it; and a room that was closed by walls stays closed: a side that leaves a wall that stays, because it is another
 * room's too, gets a wall of its own like it.
 *
 * @param rooms the rooms as they were
 * @param moved the walls that went along, as they were
 */
export function partWalls(
  draft: Draft,
  rooms: readonly Zone[],
  by: Point,
  moved: ReadonlyMap<Id, Wall>,
): void {
  for (const level of new Set(rooms.map((room) => room.level))) {
    const staying = onLevel(draft.plan, 'walls', level).filter(({ id }) => !moved.has(id));
    const gone = [...moved.values()].filter((wall) => wall.level === level);
    for (const { id } of gone) becomeOne(draft, draft.plan.tables.walls.get(id)!, staying);
    const before = [...staying, ...gone];
    for (const room of rooms)
      if (room.level === level && isClosed(room, before)) wallIn(draft, room, by, staying);
  }
}

const samePoint = (p: Point, q: Point): boolean => p[0] === q[0] && p[1] === q[1];

const alike = (a: Wall, b: Wall): boolean =>
  a.thickness === b.thickness &&
  a.construction === b.construction &&
  a.top === b.top &&
  a.rated === b.rated &&
  a.exterior === b.exterior;

/** Takes a wall out that stands in one that stays, once all that was in it and on it has gone over; else both stay. */
function becomeOne(draft: Draft, wall: Wall, staying: readonly Wall[]): void {
  const { a, b } = wall;
  const into = staying.find(
    (other) =>
      alike(wall, other) &&
      inLine(other, a, b, inBody) &&
      bareParts([other], a, b, inBody).length === 0,
  );
  if (!into) return;
  const openings = openingsIn(draft.plan, wall.id).map((opening) => goneOver(opening, wall, into));
  if (openings.some((row) => !fitsIn(into, row) || overlapsOpening(draft.plan, row))) return;
  for (const row of openings) draft.put('openings', row);
  for (const outlet of outletsOn(draft.plan, wall.id)) hang(draft, outlet, [into], wall.thickness);
  draft.remove({ table: 'walls', id: wall.id });
}

/** An opening at its place in another wall, hung and opening as before. */
function goneOver(opening: Opening, from: Wall, into: Wall): Opening {
  const along = Math.round(alongOf(into, placeAlong(from, opening.along)));
  const moved = { ...opening, wall: into.id, along };
  if (alongOf(into, from.a) < alongOf(into, from.b)) return moved;
  return {
    ...moved,
    hinge: opening.hinge === 'a' ? 'b' : 'a',
    side: opening.side === 'left' ? 'right' : 'left',
  };
}

/** Whether walls stand along all sides of a room. */
const isClosed = ({ outline }: Zone, walls: readonly Wall[]): boolean =>
  outline.every((a, i) => {
    const b = outline[(i + 1) % outline.length]!;
    return samePoint(a, b) || bareParts(walls, a, b, inBody).length === 0;
  });

/** Gives the sides of a moved room walls where they left walls that stay. */
function wallIn(draft: Draft, room: Zone, [dx, dy]: Point, staying: readonly Wall[]): void {
  const to = ([x, y]: Point): Point => [x + dx, y + dy];
  room.outline.forEach((a, i) => {
    const b = room.outline[(i + 1) % room.outline.length]!;
    if (samePoint(a, b)) return;
    for (const wall of staying) {
      const left = inLine(wall, a, b, inBody) ? stretchOf(wall, a, b) : null;
      if (!left) continue;
      const now = onLevel(draft.plan, 'walls', room.level);
      for (const [p, q] of bareParts(now, to(left[0]), to(left[1]), inBody)) {
        const id = draft.fresh('walls');
        draft.put('walls', { ...wall, id, a: p, b: q, locked: false });
      }
    }
  });
}

/** The stretch of a side along which a wall stands; null where that is next to nothing. */
function stretchOf(wall: Wall, a: Point, b: Point): readonly [Point, Point] | null {
  const length = distance(a, b);
  const [p, q] = [alongOf({ a, b }, wall.a), alongOf({ a, b }, wall.b)];
  const from = Math.max(0, Math.min(p, q));
  const end = Math.min(length, Math.max(p, q));
  if (end - from <= SLIVER) return null;
  const at = (along: number): Point => {
    if (along <= SLIVER) return a;
    if (along >= length - SLIVER) return b;
    const [x, y] = placeAlong({ a, b }, along);
    return [Math.round(x), Math.round(y)];
  };
  return [at(from), at(end)];
}
