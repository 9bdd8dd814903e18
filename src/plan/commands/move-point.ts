import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { doubleArea } from '../../geometry/polygon.ts';
import { Draft } from '../change.ts';
import { followWalls } from '../outlet-place.ts';
import { onLevel, type Plan, type Ref, type Wall } from '../plan.ts';
import type { Command, Outcome } from './command.ts';

const same = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];

/** The points of a row that can be moved one by one: ends of a wall, corners, points of a pathway or a pin; else none. */
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
};

/**
 * Moves one point of a wall, a room, a keep-out, a pathway or a pin. Wall ends and room corners that meet there on the level
 * come along, so that a room keeps its walls, unless the point is asked for alone.
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
  put(draft, ref, index, place);
  const walls: Wall[] = [];
  for (const wall of onLevel(plan, 'walls', level)) {
    const own = ref.table === 'walls' && ref.id === wall.id;
    if (own) walls.push(wall);
    if (!joins || own) continue;
    if (!same(wall.a, from) && !same(wall.b, from)) continue;
    draft.patch('walls', wall.id, {
      a: same(wall.a, from) ? place : wall.a,
      b: same(wall.b, from) ? place : wall.b,
    });
    walls.push(wall);
  }
  if (joins)
    for (const zone of onLevel(plan, 'zones', level))
      if (zone.outline.some((p) => same(p, from)))
        draft.patch('zones', zone.id, {
          outline: zone.outline.map((p) => (same(p, from) ? place : p)),
        });
  const fault = collapsed(draft.plan, draft);
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
  if (table === 'pins') draft.patch('pins', id, { points });
}

/** Why the move cannot be: something would have no length or no area. */
function collapsed(plan: Plan, draft: Draft) {
  for (const { table, id } of draft.changes()) {
    const points = pointsOf(plan, { table, id });
    if (table === 'walls' && same(points[0]!, points[1]!))
      return msg('A wall needs two ends at different places.');
    if ((table === 'zones' || table === 'keepouts') && doubleArea(points) === 0)
      return msg('Its corners may not lie in one line.');
    if (table === 'pathways' && points.every((p) => same(p, points[0]!)))
      return msg('A pathway needs two ends at different places.');
  }
  return null;
}
