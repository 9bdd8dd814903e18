import type { Id } from '../../base/ids.ts';
import { type Message, msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { Draft } from '../change.ts';
import { carryJoints, carryMounted, collapsed } from '../joints.ts';
import { isLocked, LOCKED } from '../locks.ts';
import { followWalls } from '../outlet-place.ts';
import { onLevel, type Plan, type Ref, type Wall } from '../plan.ts';
import { BEYOND, tooFar } from '../row-places.ts';
import type { Command, Outcome } from './command.ts';

const same = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];

/**
 * The points of a row that can be moved one by one: ends of a wall, corners, points of a pathway or a pin,
 * ends of a dimension line, the end of a note's line; else none.
 */
export function pointsOf(plan: Plan, { table, id }: Ref): readonly Point[] {
  switch (table) {
    case 'walls': {
      const wall = plan.tables.walls.get(id);
      return wall ? [wall.a, wall.b] : [];
    }
    case 'zones':
      return plan.tables.zones.get(id)?.outline ?? [];
    case 'keepouts':
      return plan.tables.keepouts.get(id)?.outline ?? [];
    case 'pathways':
      return plan.tables.pathways.get(id)?.points ?? [];
    case 'pins':
      return plan.tables.pins.get(id)?.points ?? [];
    case 'dimensions': {
      const row = plan.tables.dimensions.get(id);
      return row ? [row.a, row.b] : [];
    }
    case 'notes': {
      const to = plan.tables.notes.get(id)?.to;
      return to ? [to] : [];
    }
    default:
      return [];
  }
}

const WORDS: Readonly<Record<string, string>> = {
  walls: 'wall end',
  zones: 'corner of room',
  keepouts: 'corner of keep-out',
  pathways: 'point of pathway',
  pins: 'place of pin',
  dimensions: 'end of dimension line',
  notes: 'line of note',
};

/**
 * Moves one point of a wall, a room, a keep-out, a pathway, a pin, a dimension line or a note. What is joined there to a
 * wall or a room comes along, so that a room keeps its walls and walls their corners, unless the point is asked for
 * alone.
 */
export const movePoint: Command<{ ref: Ref; index: number; to: Point; alone?: boolean }> = (
  plan,
  { ref, index, to, alone },
  { kinds },
): Outcome => {
  const from = pointsOf(plan, ref)[index];
  if (!from) return { ok: false, why: msg('What you want to change is no longer there.') };
  const draft = new Draft(plan);
  const place: Point = [Math.round(to[0]), Math.round(to[1])];
  const level = (plan.tables[ref.table].get(ref.id) as unknown as { level: Id }).level;
  const joins = !alone && (ref.table === 'walls' || ref.table === 'zones');
  if (isLocked(plan, ref)) return { ok: false, why: LOCKED };
  if (tooFar(place)) return { ok: false, why: BEYOND };
  put(draft, ref, index, place);
  const before = new Map<Id, Wall>();
  for (const wall of onLevel(plan, 'walls', level)) {
    const own = ref.table === 'walls' && ref.id === wall.id;
    const meets = joins && !wall.locked && (same(wall.a, from) || same(wall.b, from));
    if (!own && !meets) continue;
    before.set(wall.id, wall);
    if (!own)
      draft.patch('walls', wall.id, {
        a: same(wall.a, from) ? place : wall.a,
        b: same(wall.b, from) ? place : wall.b,
      });
  }
  const places = new Map(joins ? [[`${from[0]},${from[1]}`, place] as const] : []);
  const walls = joins ? carryJoints(draft, before, level, places) : [...before.values()];
  if (!joins)
    for (const wall of walls)
      carryMounted(draft, { before: wall, after: draft.plan.tables.walls.get(wall.id)! });
  const fault = collapsed(draft.plan, draft) ?? flat(draft.plan, ref);
  if (fault) return { ok: false, why: fault };
  followWalls(draft, [...walls, ...walls.map((w) => draft.plan.tables.walls.get(w.id)!)], kinds);
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Move {what}', { what: WORDS[ref.table]! }),
  };
};

function put(draft: Draft, { table, id }: Ref, index: number, to: Point): void {
  if (table === 'walls') draft.patch('walls', id, index === 0 ? { a: to } : { b: to });
  const points = pointsOf(draft.plan, { table, id }).map((p, i) => (i === index ? to : p));
  if (table === 'zones') draft.patch('zones', id, { outline: points });
  if (table === 'keepouts') draft.patch('keepouts', id, { outline: points });
  if (table === 'pathways') draft.patch('pathways', id, { points });
  if (table === 'dimensions') draft.patch('dimensions', id, index === 0 ? { a: to } : { b: to });
  if (table === 'notes') draft.patch('notes', id, { to });
  if (table === 'pins') draft.patch('pins', id, { points });
}

/** Why a row of points cannot be as it is: it would have no length. */
function flat(plan: Plan, ref: Ref): Message | null {
  const points = pointsOf(plan, ref);
  const none = points.length > 1 && points.every((p) => same(p, points[0]!));
  if (ref.table === 'pathways' && none) return msg('A pathway needs two ends at different places.');
  if (ref.table === 'dimensions' && none)
    return msg('A dimension line needs two ends at different places.');
  return null;
}
