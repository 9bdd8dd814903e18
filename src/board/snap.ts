import { FOOT, INCH, type Units } from '../base/units.ts';
import type { Point } from '../geometry/point.ts';
import {
  ACROSS,
  axisHold,
  crossing,
  DOWN,
  foot,
  type Hold,
  holdOn,
  lockHold,
  nearestHold,
  onPiece,
} from './hold.ts';
import {
  intoFrame,
  outOfFrame,
  type SnapKind,
  type SnapTargets,
  type Target,
  type TargetLine,
  whole,
} from './snap-targets.ts';

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

const GRIDS: Readonly<Record<Units, readonly number[]>> = {
  ft: [INCH, 6 * INCH, FOOT],
  m: [10, 100, 500],
};
/** Grid lines stand at least this far apart on the screen, px. */
const LEAST_CELL = 6;

/** The grid for a zoom: the finest whose cells can be told apart. @param pixel one screen pixel in mm */
export const gridStep = (units: Units, pixel: number): number =>
  GRIDS[units].find((step) => step >= LEAST_CELL * pixel) ?? GRIDS[units].at(-1)!;

/** Over a picture the grid moves a place by half of this at most, px: less than a hand can tell. */
const MOST_OVER_PICTURE = 4;

/**
 * The grid over a picture, where a corner has to stay on the line under the pointer: whole inches or centimetres for as
 * long as nobody sees them act; null from the zoom on at which they would.
 */
export const gridOverPicture = (units: Units, pixel: number): number | null =>
  GRIDS[units][0]! <= MOST_OVER_PICTURE * pixel ? GRIDS[units][0]! : null;

export interface SnapAsk {
  /** One screen pixel in mm. */
  readonly pixel: number;
  readonly kinds: readonly SnapKind[];
  /** Null where no grid acts. */
  readonly grid: number | null;
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
    const target = nearestPoint(targets, under, p, anchor, ask);
    if (target) return out(target.at, [{ kind: target.kind, from: target.at }]);
    const plumb = anchor && plumbPoint(targets, p, anchor, ask);
    if (plumb) return out(plumb, [{ kind: 'perpendicular', from: anchor }]);
  }
  const holds = [
    ...lineHolds(targets, under, p, anchor, ask),
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
  anchor: Point | null,
  ask: SnapAsk,
): Target | null {
  const reach = REACH * ask.pixel;
  const near = targets.pointIndex?.search(p[0] - reach, p[1] - reach, p[0] + reach, p[1] + reach);
  let best: Target | null = null;
  let least = reach;
  const square = squareFrom(anchor, ask);
  const ends = under.flatMap(({ a, b, row }): Target[] =>
    [a, b]
      .filter((at) => !square || !isAslant(at, square, reach))
      .map((at) => ({ at, kind: 'under-end', row })),
  );
  for (const target of [...(near ?? []).map((i) => targets.points[i]!), ...ends]) {
    if (!ask.kinds.includes(target.kind) || ask.without.has(target.row)) continue;
    const far = Math.hypot(target.at[0] - p[0], target.at[1] - p[1]);
    // Ends win over middles, and what is drawn over what lies under it, where both are near.
    const weak = target.kind === 'middle' || target.kind === 'under-end' || target.ghost;
    const d = weak ? far * 1.4 : far;
    if (d <= least) {
      least = d;
      best = target;
    }
  }
  return best;
}

/** The anchor, where sides are kept square from it. */
const squareFrom = (anchor: Point | null, ask: SnapAsk): Point | null =>
  ask.kinds.includes('right-angle') ? anchor : null;

/**
 * Whether a place is all but square from the anchor, and not quite: there the right angle holds, since it is the other
 * face of a wall that lies so near, and a side that is aslant by it is never meant.
 */
function isAslant(at: Point, anchor: Point, reach: number): boolean {
  const off = Math.min(Math.abs(at[0] - anchor[0]), Math.abs(at[1] - anchor[1]));
  return off > 0.5 && off <= reach;
}

/** The same of a line along the building: whether it lies so near beside a side that is square from the anchor. */
function runsAslant({ a, b }: TargetLine, anchor: Point, reach: number): boolean {
  return ([0, 1] as const).some((axis) => {
    const off = Math.abs(a[axis] - anchor[axis]);
    return Math.abs(a[axis] - b[axis]) < 0.5 && off > 0.5 && off <= reach;
  });
}

function lineHolds(
  targets: SnapTargets,
  under: readonly TargetLine[],
  p: Point,
  anchor: Point | null,
  ask: SnapAsk,
): Hold[] {
  const holds = holdsOf(targets, p, ask, ask.kinds);
  if (!ask.kinds.includes('under-line')) return holds;
  const reach = REACH * ask.pixel;
  const square = squareFrom(anchor, ask);
  for (const line of under) {
    if (square && runsAslant(line, square, reach)) continue;
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
    const hold = line.kind === 'centre' && !line.ghost ? holdOn(line, p) : null;
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

/** The nearest point that lies in line with the place, along x or y. */
function inLine(targets: SnapTargets, p: Point, u: Point, ask: SnapAsk): Point | null {
  const near = ALIGN_REACH * ask.pixel;
  const far = ALIGN_FAR * ask.pixel;
  const [rx, ry] = u[0] === 1 ? [far, near] : [near, far];
  let best: Point | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const i of targets.pointIndex?.search(p[0] - rx, p[1] - ry, p[0] + rx, p[1] + ry) ?? []) {
    const { at, kind, row, ghost } = targets.points[i]!;
    if (kind === 'middle' || ghost || ask.without.has(row)) continue;
    const d = Math.abs(at[0] - p[0]) + Math.abs(at[1] - p[1]);
    if (d < least) {
      least = d;
      best = at;
    }
  }
  return best;
}

const gridded = (value: number, step: number): number => Math.round(value / step) * step;

function onGrid(p: Point, ask: SnapAsk): [Point, readonly SnapAct[]] {
  const { grid } = ask;
  if (grid === null || !ask.kinds.includes('grid')) return [p, []];
  return [[gridded(p[0], grid), gridded(p[1], grid)], [{ kind: 'grid', from: null }]];
}

/** Along an axis the free coordinate goes to the grid; along a slanted line it stays. */
function alongGrid({ u }: Hold, at: Point, ask: SnapAsk): Point {
  const { grid } = ask;
  if (grid === null || !ask.kinds.includes('grid')) return at;
  if (Math.abs(u[0]) === 1) return [gridded(at[0], grid), at[1]];
  if (Math.abs(u[1]) === 1) return [at[0], gridded(at[1], grid)];
  return at;
}
