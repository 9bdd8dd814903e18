import Flatbush from 'flatbush';
import type { Id } from '../base/ids.ts';
import { FOOT, INCH, type Units } from '../base/units.ts';
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

/** One thing that acted: where it acts from, for the guide line; null for the grid. */
export interface SnapAct {
  readonly kind: SnapKind;
  readonly from: Point | null;
}

export interface Snapped {
  /** The place, whole mm. */
  readonly at: Point;
  readonly acts: readonly SnapAct[];
}

interface Target {
  readonly at: Point;
  readonly kind: 'end' | 'middle' | 'place' | 'under-end';
  readonly row: string;
}

interface TargetLine {
  readonly a: Point;
  readonly b: Point;
  readonly kind: 'face' | 'centre' | 'edge' | 'under-line';
  readonly row: string;
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

const intoFrame = ([c, s]: readonly [number, number], [x, y]: Point): Point =>
  s === 0 ? [x, y] : [x * c + y * s, y * c - x * s];
const outOfFrame = ([c, s]: readonly [number, number], [x, y]: Point): Point =>
  s === 0 ? [x, y] : [x * c - y * s, x * s + y * c];
/** Whole mm; zero is added so that a place just left of the origin is 0 and not -0. */
const whole = (p: Point): Point => [Math.round(p[0]) + 0, Math.round(p[1]) + 0];

/** Gathers the targets of a level; done once for each state of the plan. */
export function snapTargets(plan: Plan, level: Id): SnapTargets {
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
  for (const table of ['closets', 'devices', 'outlets', 'powers'] as const)
    for (const { id, at } of onLevel(plan, table, level)) point({ table, id }, 'place', at);
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

const GRIDS: Readonly<Record<Units, readonly number[]>> = {
  ft: [INCH, 6 * INCH, FOOT],
  m: [10, 100, 500],
};
/** Grid lines stand at least this far apart on the screen, px. */
const LEAST_CELL = 6;

/** The grid for a zoom: the finest whose cells can be told apart. @param pixel one screen pixel in mm */
export const gridStep = (units: Units, pixel: number): number =>
  GRIDS[units].find((step) => step >= LEAST_CELL * pixel) ?? GRIDS[units].at(-1)!;

export interface SnapAsk {
  /** One screen pixel in mm. */
  readonly pixel: number;
  readonly kinds: readonly SnapKind[];
  readonly grid: number;
  /** Where right angles are measured from. */
  readonly anchor: Point | null;
  /** Holds the place on a right angle from the anchor, wherever the pointer is. */
  readonly lock: boolean;
  /** Rows that are no targets, by their key. */
  readonly without: ReadonlySet<string>;
  /** Lines of the background that are near the place. */
  readonly under: readonly (readonly [Point, Point])[];
}

/** How near the pointer must come, and how far away things in line are looked for, px. */
export const REACH = 9;
const ALIGN_REACH = 5;
const ALIGN_FAR = 480;

/** A line that the place is held on. */
interface Hold {
  readonly kind: SnapKind;
  readonly from: Point;
  readonly through: Point;
  /** Unit direction; axis-parallel ones are exact. */
  readonly u: Point;
  readonly distance: number;
  /** Ends, where it is a piece and not endless. */
  readonly piece: readonly [Point, Point] | null;
}

/**
 * Moves a place to what is near: a point before all; else the crossing of two lines that hold it, or one line with the
 * grid along it; else the grid. Without kinds the place is only rounded.
 */
export function snap(targets: SnapTargets, raw: Point, ask: SnapAsk): Snapped {
  const { frame } = targets;
  const p = intoFrame(frame, raw);
  const anchor = ask.anchor === null ? null : intoFrame(frame, ask.anchor);
  const out = (at: Point, acts: readonly SnapAct[]): Snapped => ({
    at: whole(outOfFrame(frame, at)),
    acts: acts.map(({ kind, from }) => ({ kind, from: from && outOfFrame(frame, from) })),
  });
  const locked = ask.lock && anchor !== null;
  const under = ask.under.map(
    ([a, b]): TargetLine => ({
      a: intoFrame(frame, a),
      b: intoFrame(frame, b),
      kind: 'under-line',
      row: '',
    }),
  );
  if (!locked) {
    const target = nearestPoint(targets, under, p, ask);
    if (target) return out(target.at, [{ kind: target.kind, from: target.at }]);
    const plumb = anchor && plumbPoint(targets, p, anchor, ask);
    if (plumb) return out(plumb, [{ kind: 'perpendicular', from: anchor }]);
  }
  const holds = [
    ...lineHolds(targets, under, p, ask),
    ...extensionHolds(targets, p, ask),
    ...axisHolds(targets, p, anchor, ask),
  ];
  const first = locked ? lockHold(p, anchor) : nearestHold(holds);
  if (!first) return out(...onGrid(p, ask));
  const base = foot(first, p);
  const second = nearestHold(
    holds.filter(
      (hold) =>
        // Both right angles cross in the anchor itself, where nobody wants to be held.
        (hold.kind !== 'right-angle' || first.kind !== 'right-angle') &&
        crossing(first, hold, base, REACH * ask.pixel) !== null,
    ),
  );
  if (second)
    return out(crossing(first, second, base, REACH * ask.pixel)!, [
      { kind: first.kind, from: first.from },
      { kind: second.kind, from: second.from },
    ]);
  return out(alongGrid(first, base, ask), [{ kind: first.kind, from: first.from }]);
}

function nearestPoint(
  targets: SnapTargets,
  under: readonly TargetLine[],
  p: Point,
  ask: SnapAsk,
): Target | null {
  const reach = REACH * ask.pixel;
  const near = targets.pointIndex?.search(p[0] - reach, p[1] - reach, p[0] + reach, p[1] + reach);
  let best: Target | null = null;
  let least = reach;
  const ends = under.flatMap(({ a, b, row }): Target[] =>
    [a, b].map((at) => ({ at, kind: 'under-end', row })),
  );
  for (const target of [...(near ?? []).map((i) => targets.points[i]!), ...ends]) {
    if (!ask.kinds.includes(target.kind) || ask.without.has(target.row)) continue;
    const far = Math.hypot(target.at[0] - p[0], target.at[1] - p[1]);
    // Ends win over middles, and what is drawn over what lies under it, where both are near.
    const d = target.kind === 'middle' || target.kind === 'under-end' ? far * 1.4 : far;
    if (d <= least) {
      least = d;
      best = target;
    }
  }
  return best;
}

function lineHolds(
  targets: SnapTargets,
  under: readonly TargetLine[],
  p: Point,
  ask: SnapAsk,
): Hold[] {
  const holds = holdsOf(targets, p, ask, ask.kinds);
  if (!ask.kinds.includes('under-line')) return holds;
  const reach = REACH * ask.pixel;
  for (const line of under) {
    const hold = holdOn(line, p);
    if (hold && hold.distance <= reach && onPiece(hold, foot(hold, p), reach)) holds.push(hold);
  }
  return holds;
}

/** Lines of some kinds that the pointer is near to. */
function holdsOf(targets: SnapTargets, p: Point, ask: SnapAsk, kinds: readonly SnapKind[]): Hold[] {
  const reach = REACH * ask.pixel;
  const near = targets.lineIndex?.search(p[0] - reach, p[1] - reach, p[0] + reach, p[1] + reach);
  const holds: Hold[] = [];
  for (const i of near ?? []) {
    const line = targets.lines[i]!;
    if (!kinds.includes(line.kind) || ask.without.has(line.row)) continue;
    const hold = holdOn(line, p);
    if (hold && hold.distance <= reach && onPiece(hold, foot(hold, p), reach)) holds.push(hold);
  }
  return holds;
}

/** A line as what holds a place; null where it has no length. */
function holdOn({ a, b, kind }: TargetLine, p: Point): Hold | null {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length === 0) return null;
  const u: Point = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const distance = Math.abs((p[0] - a[0]) * u[1] - (p[1] - a[1]) * u[0]);
  return { kind, from: a, through: a, u, distance, piece: [a, b] };
}

/** The place on a line near the pointer that is square below the anchor; null where none is in reach. */
function plumbPoint(targets: SnapTargets, p: Point, anchor: Point, ask: SnapAsk): Point | null {
  if (!ask.kinds.includes('perpendicular')) return null;
  let best: Point | null = null;
  let least = REACH * ask.pixel;
  for (const hold of holdsOf(targets, p, ask, ['face', 'centre', 'edge'])) {
    // Along the building lines a right angle says the same.
    if (Math.abs(hold.u[0]) < 1e-6 || Math.abs(hold.u[1]) < 1e-6) continue;
    const at = foot(hold, anchor);
    const d = Math.hypot(at[0] - p[0], at[1] - p[1]);
    if (d > least || !onPiece(hold, at, 0)) continue;
    least = d;
    best = at;
  }
  return best;
}

/** Middle lines of walls beyond their ends, as far as the pointer may be from the end. */
function extensionHolds(targets: SnapTargets, p: Point, ask: SnapAsk): Hold[] {
  if (!ask.kinds.includes('extension')) return [];
  const far = ALIGN_FAR * ask.pixel;
  const near = targets.lineIndex?.search(p[0] - far, p[1] - far, p[0] + far, p[1] + far) ?? [];
  const holds: Hold[] = [];
  for (const i of near) {
    const line = targets.lines[i]!;
    const hold = line.kind === 'centre' ? holdOn(line, p) : null;
    if (!hold || ask.without.has(line.row)) continue;
    if (hold.distance > ALIGN_REACH * ask.pixel || onPiece(hold, foot(hold, p), 0)) continue;
    const ends = [line.a, line.b].map((end) => ({
      end,
      d: Math.hypot(end[0] - p[0], end[1] - p[1]),
    }));
    const { end, d } = ends[0]!.d <= ends[1]!.d ? ends[0]! : ends[1]!;
    if (d <= far) holds.push({ ...hold, kind: 'extension', from: end, piece: null });
  }
  return holds;
}

const ACROSS: Point = [1, 0];
const DOWN: Point = [0, 1];

/** Lines along the building through the anchor, and through the nearest points that are in line with the place. */
function axisHolds(targets: SnapTargets, p: Point, anchor: Point | null, ask: SnapAsk): Hold[] {
  const holds: Hold[] = [];
  if (anchor && ask.kinds.includes('right-angle')) {
    const reach = REACH * ask.pixel;
    for (const u of [ACROSS, DOWN]) {
      const hold = axisHold('right-angle', anchor, u, p);
      if (hold.distance <= reach) holds.push(hold);
    }
  }
  if (ask.kinds.includes('aligned'))
    for (const u of [ACROSS, DOWN]) {
      const from = inLine(targets, p, u, ask);
      if (from) holds.push(axisHold('aligned', from, u, p));
    }
  return holds;
}

const axisHold = (kind: SnapKind, from: Point, u: Point, p: Point): Hold => ({
  kind,
  from,
  through: from,
  u,
  distance: u[0] === 1 ? Math.abs(p[1] - from[1]) : Math.abs(p[0] - from[0]),
  piece: null,
});

/** The nearest point that lies in line with the place, along x or y. */
function inLine(targets: SnapTargets, p: Point, u: Point, ask: SnapAsk): Point | null {
  const near = ALIGN_REACH * ask.pixel;
  const far = ALIGN_FAR * ask.pixel;
  const [rx, ry] = u[0] === 1 ? [far, near] : [near, far];
  let best: Point | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const i of targets.pointIndex?.search(p[0] - rx, p[1] - ry, p[0] + rx, p[1] + ry) ?? []) {
    const { at, kind, row } = targets.points[i]!;
    if (kind === 'middle' || ask.without.has(row)) continue;
    const d = Math.abs(at[0] - p[0]) + Math.abs(at[1] - p[1]);
    if (d < least) {
      least = d;
      best = at;
    }
  }
  return best;
}

function lockHold(p: Point, anchor: Point): Hold {
  const u = Math.abs(p[0] - anchor[0]) >= Math.abs(p[1] - anchor[1]) ? ACROSS : DOWN;
  return axisHold('right-angle', anchor, u, p);
}

function nearestHold(holds: readonly Hold[]): Hold | null {
  let best: Hold | null = null;
  for (const hold of holds) if (!best || hold.distance < best.distance) best = hold;
  return best;
}

/** The place on a hold's line that is nearest to a point. */
function foot({ through, u }: Hold, p: Point): Point {
  if (u[0] === 1) return [p[0], through[1]];
  if (u[1] === 1) return [through[0], p[1]];
  const t = (p[0] - through[0]) * u[0] + (p[1] - through[1]) * u[1];
  return [through[0] + u[0] * t, through[1] + u[1] * t];
}

function onPiece(hold: Hold, at: Point, slack: number): boolean {
  if (!hold.piece) return true;
  const [a, b] = hold.piece;
  const t = (at[0] - a[0]) * hold.u[0] + (at[1] - a[1]) * hold.u[1];
  return t >= -slack && t <= Math.hypot(b[0] - a[0], b[1] - a[1]) + slack;
}

/** Where two holds cross, if that is near a place and the two are not all but parallel; null otherwise. */
function crossing(first: Hold, second: Hold, near: Point, reach: number): Point | null {
  const det = first.u[0] * second.u[1] - first.u[1] * second.u[0];
  if (Math.abs(det) < 0.1) return null;
  const dx = second.through[0] - first.through[0];
  const dy = second.through[1] - first.through[1];
  const t = (dx * second.u[1] - dy * second.u[0]) / det;
  const at: Point = [first.through[0] + first.u[0] * t, first.through[1] + first.u[1] * t];
  return Math.hypot(at[0] - near[0], at[1] - near[1]) > reach ? null : at;
}

const gridded = (value: number, step: number): number => Math.round(value / step) * step;

function onGrid(p: Point, ask: SnapAsk): [Point, readonly SnapAct[]] {
  if (!ask.kinds.includes('grid')) return [p, []];
  return [[gridded(p[0], ask.grid), gridded(p[1], ask.grid)], [{ kind: 'grid', from: null }]];
}

/** Along an axis the free coordinate goes to the grid; along a slanted line it stays. */
function alongGrid({ u }: Hold, at: Point, ask: SnapAsk): Point {
  if (!ask.kinds.includes('grid')) return at;
  if (Math.abs(u[0]) === 1) return [gridded(at[0], ask.grid), at[1]];
  if (Math.abs(u[1]) === 1) return [at[0], gridded(at[1], ask.grid)];
  return at;
}
