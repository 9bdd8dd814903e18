import Flatbush from 'flatbush';
import type { Id } from '../base/ids.ts';
import { wallCorners } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { onLevel, type Plan, type Ref, refKey } from '../plan/plan.ts';

/** What can act on a place while drawing. */
export type SnapKind =
  | 'grid'
  | 'end'
  | 'middle'
  | 'place'
  | 'face'
  | 'centre'
  | 'edge'
  | 'right-angle'
  | 'perpendicular'
  | 'extension'
  | 'aligned'
  | 'under-end'
  | 'under-line';

export interface Target {
  readonly at: Point;
  readonly kind: 'end' | 'middle' | 'place' | 'under-end';
  readonly row: string;
  /** Whether it is of the level below, which shows through: what is drawn here wins over it. */
  readonly ghost?: boolean;
}

export interface TargetLine {
  readonly a: Point;
  readonly b: Point;
  readonly kind: 'face' | 'centre' | 'edge' | 'under-line';
  readonly row: string;
  readonly ghost?: boolean;
}

/** Everything on a level that a place can snap to, in coordinates along the building lines. */
export interface SnapTargets {
  readonly points: readonly Target[];
  readonly lines: readonly TargetLine[];
  readonly pointIndex: Flatbush | null;
  readonly lineIndex: Flatbush | null;
  /** Cosine and sine of the level's frame angle. */
  readonly frame: readonly [cos: number, sin: number];
}

const middle = (a: Point, b: Point): Point => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];

export const intoFrame = ([c, s]: readonly [number, number], [x, y]: Point): Point =>
  s === 0 ? [x, y] : [x * c + y * s, y * c - x * s];
export const outOfFrame = ([c, s]: readonly [number, number], [x, y]: Point): Point =>
  s === 0 ? [x, y] : [x * c - y * s, x * s + y * c];
/** Whole mm; zero is added so that a place just left of the origin is 0 and not -0. */
export const whole = (p: Point): Point => [Math.round(p[0]) + 0, Math.round(p[1]) + 0];

/**
 * Gathers the targets of a level; done once for each state of the plan.
 *
 * @param below the level that shows through, if one does: the ends, middle lines and faces of its walls are targets, too
 */
export function snapTargets(plan: Plan, level: Id, below: Id | null = null): SnapTargets {
  const angle = ((plan.tables.levels.get(level)?.frameAngle ?? 0) * Math.PI) / 180;
  const frame = angle === 0 ? ([1, 0] as const) : ([Math.cos(angle), Math.sin(angle)] as const);
  const points: Target[] = [];
  const lines: TargetLine[] = [];
  const point = (ref: Ref, kind: Target['kind'], at: Point) =>
    points.push({ at: intoFrame(frame, at), kind, row: refKey(ref) });
  const line = (ref: Ref, kind: TargetLine['kind'], a: Point, b: Point) =>
    lines.push({ a: intoFrame(frame, a), b: intoFrame(frame, b), kind, row: refKey(ref) });
  const chain = (ref: Ref, at: readonly Point[], closed: boolean) => {
    at.forEach((p, i) => {
      point(ref, 'end', p);
      const next = at[i + 1] ?? (closed ? at[0] : undefined);
      if (!next) return;
      point(ref, 'middle', middle(p, next));
      line(ref, 'edge', p, next);
    });
  };
  for (const wall of onLevel(plan, 'walls', level)) {
    const ref: Ref = { table: 'walls', id: wall.id };
    point(ref, 'end', wall.a);
    point(ref, 'end', wall.b);
    point(ref, 'middle', middle(wall.a, wall.b));
    line(ref, 'centre', wall.a, wall.b);
    const corners = wallCorners(wall.a, wall.b, wall.thickness);
    line(ref, 'face', corners[0]!, corners[1]!);
    line(ref, 'face', corners[3]!, corners[2]!);
  }
  for (const { id, outline } of onLevel(plan, 'zones', level))
    chain({ table: 'zones', id }, outline, true);
  for (const { id, outline } of onLevel(plan, 'keepouts', level))
    chain({ table: 'keepouts', id }, outline, true);
  for (const { id, points: way } of onLevel(plan, 'pathways', level))
    chain({ table: 'pathways', id }, way, false);
  for (const { id, level: from, upper, at } of plan.tables.risers.values())
    if (from === level || upper === level) point({ table: 'risers', id }, 'place', at);
  for (const { id, points: by } of onLevel(plan, 'pins', level))
    for (const at of by) point({ table: 'pins', id }, 'place', at);
  for (const table of ['closets', 'devices', 'outlets', 'powers'] as const)
    for (const { id, at } of onLevel(plan, table, level)) point({ table, id }, 'place', at);
  if (below !== null)
    for (const wall of onLevel(plan, 'walls', below)) {
      const [p, q, r, t] = wallCorners(wall.a, wall.b, wall.thickness);
      const of = { row: refKey({ table: 'walls', id: wall.id }), ghost: true } as const;
      for (const at of [wall.a, wall.b])
        points.push({ at: intoFrame(frame, at), kind: 'end', ...of });
      const piece = (kind: TargetLine['kind'], a: Point, b: Point) =>
        lines.push({ a: intoFrame(frame, a), b: intoFrame(frame, b), kind, ...of });
      piece('centre', wall.a, wall.b);
      piece('face', p!, q!);
      piece('face', t!, r!);
    }
  return { points, lines, pointIndex: indexPoints(points), lineIndex: indexLines(lines), frame };
}

function indexPoints(points: readonly Target[]): Flatbush | null {
  if (points.length === 0) return null;
  const index = new Flatbush(points.length);
  for (const { at } of points) index.add(at[0], at[1]);
  index.finish();
  return index;
}

function indexLines(lines: readonly TargetLine[]): Flatbush | null {
  if (lines.length === 0) return null;
  const index = new Flatbush(lines.length);
  for (const { a, b } of lines)
    index.add(
      Math.min(a[0], b[0]),
      Math.min(a[1], b[1]),
      Math.max(a[0], b[0]),
      Math.max(a[1], b[1]),
    );
  index.finish();
  return index;
}

/** The corner or end nearest to a place, no farther than `reach` mm; null where there is none. */
export function endNear(targets: SnapTargets, place: Point, reach: number): Point | null {
  const p = intoFrame(targets.frame, place);
  let best: Point | null = null;
  let least = reach;
  for (const { at, kind } of targets.points) {
    const far = Math.hypot(at[0] - p[0], at[1] - p[1]);
    if (kind !== 'end' || far > least) continue;
    least = far;
    best = at;
  }
  return best && whole(outOfFrame(targets.frame, best));
}

/**
 * The next corner or end from a place in a direction along the building lines, those straight on before those aside;
 * null where none lies within 45 degrees of it.
 */
export function endToward(targets: SnapTargets, place: Point, by: Point): Point | null {
  const p = intoFrame(targets.frame, place);
  let best: Point | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const { at, kind } of targets.points) {
    if (kind !== 'end') continue;
    const [dx, dy] = [at[0] - p[0], at[1] - p[1]];
    const along = dx * by[0] + dy * by[1];
    const aside = Math.abs(dx * by[1]) + Math.abs(dy * by[0]);
    if (along < 1 || aside > along || along + 3 * aside >= least) continue;
    least = along + 3 * aside;
    best = at;
  }
  return best && whole(outOfFrame(targets.frame, best));
}

/** The place so far from another along the building lines. */
export const placeBy = ({ frame }: SnapTargets, place: Point, by: Point, mm: number): Point => {
  const p = intoFrame(frame, place);
  return whole(outOfFrame(frame, [p[0] + by[0] * mm, p[1] + by[1] * mm]));
};
