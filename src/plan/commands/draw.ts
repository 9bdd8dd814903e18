import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { doubleArea } from '../../geometry/polygon.ts';
import { Draft } from '../change.ts';
import { AREA_LETTERS } from '../levels.ts';
import { followWalls } from '../outlet-place.ts';
import { makeRow, onLevel, type Pathway, type Plan, type Wall, type Zone } from '../plan.ts';
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

type ZoneLook = Partial<Pick<Zone, 'name' | 'area' | 'ceiling' | 'cableElevation'>>;

/** Draws a room: a zone with its ceiling and, if asked, walls along its sides where none stand yet. */
export const drawZone: Command<{
  level: Id;
  outline: readonly Point[];
  look?: ZoneLook;
  walls?: boolean;
}> = (plan, { level, outline, look, walls }, { kinds }) => {
  const corners = closedTidy(outline);
  if (corners.length < 3 || doubleArea(corners) === 0) {
    return { ok: false, why: msg('A room needs at least three corners that are not in a line.') };
  }
  const draft = new Draft(plan);
  const area = look?.area ?? freeArea(plan, level);
  const zone = draft.put(
    'zones',
    makeRow('zones', draft.fresh('zones'), { level, outline: corners, ...look, area }),
  );
  const added: Wall[] = [];
  if (walls) {
    const standing = onLevel(plan, 'walls', level);
    corners.forEach((corner, i) => {
      for (const [a, b] of bareParts(standing, corner, corners[(i + 1) % corners.length]!))
        added.push(draft.put('walls', makeRow('walls', draft.fresh('walls'), { level, a, b })));
    });
    followWalls(draft, added, kinds);
  }
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Draw room'),
    select: [{ table: 'zones', id: zone.id }],
  };
};

/** Twice the area of the triangle of a straight piece and a point: zero when they are in line. */
const doubleTriangle = (a: Point, b: Point, p: Point): number =>
  (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);

/** The stretches of a side along which no wall stands yet: walls in line with it cover theirs. */
function bareParts(standing: readonly Wall[], a: Point, b: Point): [Point, Point][] {
  const along = (p: Point): number => (p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1]);
  const before = (p: Point, q: Point): boolean => along(p) < along(q);
  const covered = standing
    .filter((w) => doubleTriangle(a, b, w.a) === 0 && doubleTriangle(a, b, w.b) === 0)
    .map((w): [Point, Point] => (before(w.a, w.b) ? [w.a, w.b] : [w.b, w.a]))
    .sort((p, q) => along(p[0]) - along(q[0]));
  const parts: [Point, Point][] = [];
  let from = a;
  for (const [start, end] of covered) {
    if (!before(from, end) || !before(start, b)) continue;
    if (before(from, start)) parts.push([from, start]);
    from = end;
  }
  if (before(from, b)) parts.push([from, b]);
  return parts;
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
