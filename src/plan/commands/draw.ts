import type { Id } from '../../base/ids.ts';
import { type Message, msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { doubleArea } from '../../geometry/polygon.ts';
import { bareParts } from '../bare-parts.ts';
import { Draft } from '../change.ts';
import { followCeilings } from '../follow-ceilings.ts';
import { layOnWalls } from '../lay-on-walls.ts';
import { AREA_LETTERS } from '../levels.ts';
import { followWalls } from '../outlet-place.ts';
import { makeRow, onLevel, type Pathway, type Plan, type Wall, type Zone } from '../plan.ts';
import { keepWithin } from '../rooms-within.ts';
import { BEYOND, tooFar } from '../row-places.ts';
import type { Command } from './command.ts';

const samePoint = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];

/** The points without those that repeat their neighbour. */
const tidy = (points: readonly Point[]): Point[] =>
  points.filter((p, i) => i === 0 || !samePoint(p, points[i - 1]!));

const closedTidy = (points: readonly Point[]): Point[] => {
  const open = tidy(points);
  while (open.length > 1 && samePoint(open[0]!, open.at(-1)!)) open.pop();
  return open;
};

type WallLook = Partial<Pick<Wall, 'thickness' | 'construction' | 'top' | 'rated' | 'exterior'>>;

/** Draws a chain of walls through points; `closed` joins the last to the first. */
export const drawWalls: Command<{
  level: Id;
  points: readonly Point[];
  closed?: boolean;
  look?: WallLook;
}> = (plan, { level, points, closed, look }, { kinds }) => {
  const chain = closed ? closedTidy(points) : tidy(points);
  if (chain.length < 2)
    return { ok: false, why: msg('A wall needs two ends at different places.') };
  if (tooFar(chain)) return { ok: false, why: BEYOND };
  const draft = new Draft(plan);
  const walls: Wall[] = [];
  const count = closed && chain.length > 2 ? chain.length : chain.length - 1;
  for (let i = 0; i < count; i++) {
    const row = makeRow('walls', draft.fresh('walls'), {
      level,
      a: chain[i]!,
      b: chain[(i + 1) % chain.length]!,
      ...look,
    });
    walls.push(draft.put('walls', row));
  }
  followWalls(draft, walls, kinds);
  return {
    ok: true,
    changes: draft.changes(),
    label:
      walls.length === 1 ? msg('Draw wall') : msg('Draw {count} walls', { count: walls.length }),
    select: walls.map(({ id }) => ({ table: 'walls', id })),
  };
};

/** The first letter that no room of the plan has, and no other level than the one that it is for. */
export function freeArea(plan: Plan, level: Id): string {
  const taken = new Set([...plan.tables.zones.values()].map((zone) => zone.area));
  for (const other of plan.tables.levels.values()) if (other.id !== level) taken.add(other.area);
  return AREA_LETTERS.find((letter) => !taken.has(letter)) ?? 'Z';
}

const NOT_AS_TYPED = msg(
  'A side of the room lies in a wall that stands there already, and is laid on it: look at the lengths of the room.',
);

const usesWalls = (count: number): Message =>
  msg('The room uses {count} {walls} already there.', {
    count,
    walls: count === 1 ? 'wall' : 'walls',
  });

export type ZoneLook = Partial<Pick<Zone, 'name' | 'area' | 'ceiling' | 'cableElevation'>>;

/**
 * Draws a room: a zone with its ceiling and, if asked, walls along its sides. A side on a wall that stands, or within
 * half a foot of it, is laid on that wall and gets no second one; where its sides were typed, only one within a wall.
 * Rooms that lie within it hold there still.
 */
export const drawZone: Command<{
  level: Id;
  outline: readonly Point[];
  look?: ZoneLook;
  walls?: boolean;
  typed?: boolean;
}> = (plan, { level, outline, look, walls, typed }, { kinds }) => {
  const drawn = closedTidy(outline);
  const flat = msg('A room needs at least three corners that are not in a line.');
  if (drawn.length < 3 || doubleArea(drawn) === 0) return { ok: false, why: flat };
  if (tooFar(drawn)) return { ok: false, why: BEYOND };
  const standing = walls ? onLevel(plan, 'walls', level) : [];
  const laid = layOnWalls(standing, drawn, typed);
  const corners = closedTidy(laid.outline);
  if (corners.length < 3 || doubleArea(corners) === 0) return { ok: false, why: flat };
  const draft = new Draft(plan);
  const area = look?.area ?? freeArea(plan, level);
  const zone = draft.put(
    'zones',
    makeRow('zones', draft.fresh('zones'), { level, outline: corners, ...look, area }),
  );
  keepWithin(draft, zone);
  const added: Wall[] = [];
  if (walls) {
    corners.forEach((corner, i) => {
      for (const [a, b] of bareParts(standing, corner, corners[(i + 1) % corners.length]!))
        added.push(draft.put('walls', makeRow('walls', draft.fresh('walls'), { level, a, b })));
    });
    followWalls(draft, added, kinds);
  }
  followCeilings(draft, plan, level, kinds);
  const used = laid.used.length;
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Draw room'),
    select: [{ table: 'zones', id: zone.id }],
    ...(used === 0
      ? {}
      : {
          notice: typed && !sameOutline(drawn, corners) ? NOT_AS_TYPED : usesWalls(used),
        }),
  };
};

/** Whether two outlines have the same corners, wherever they begin and whichever way they run. */
export function sameOutline(a: readonly Point[], b: readonly Point[]): boolean {
  const keys = (outline: readonly Point[]) => outline.map(String).sort().join(' ');
  return a.length === b.length && keys(a) === keys(b);
}

/** Draws a place where no cable may go. */
export const drawKeepout: Command<{
  level: Id;
  outline: readonly Point[];
  name?: string;
  clearance?: number;
}> = (plan, { level, outline, name, clearance }) => {
  const corners = closedTidy(outline);
  if (corners.length < 3 || doubleArea(corners) === 0) {
    return {
      ok: false,
      why: msg('A keep-out needs at least three corners that are not in a line.'),
    };
  }
  if (tooFar(corners)) return { ok: false, why: BEYOND };
  const draft = new Draft(plan);
  const row = makeRow('keepouts', draft.fresh('keepouts'), {
    level,
    outline: corners,
    ...(name === undefined ? {} : { name }),
    ...(clearance === undefined ? {} : { clearance }),
  });
  draft.put('keepouts', row);
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Draw keep-out'),
    select: [{ table: 'keepouts', id: row.id }],
  };
};

/** Draws a pathway along which cables gather. */
export const drawPathway: Command<{
  level: Id;
  points: readonly Point[];
  kind: Pathway['kind'];
  elevation?: number | null;
  size?: string;
}> = (plan, { level, points, kind, elevation, size }) => {
  const chain = tidy(points);
  if (chain.length < 2)
    return { ok: false, why: msg('A pathway needs two ends at different places.') };
  if (tooFar(chain)) return { ok: false, why: BEYOND };
  const draft = new Draft(plan);
  const row = makeRow('pathways', draft.fresh('pathways'), {
    level,
    kind,
    points: chain,
    ...(elevation === undefined ? {} : { elevation }),
    ...(size === undefined ? {} : { size }),
  });
  draft.put('pathways', row);
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Draw pathway'),
    select: [{ table: 'pathways', id: row.id }],
  };
};
