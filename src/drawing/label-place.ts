import type { Point } from '../geometry/point.ts';
import { addTo, type Box, type BoxGrid, boxAround, hits, isEmpty, makeGrid } from './box-grid.ts';

/**
 * Finds free room for labels and symbols on paper. Greedy: what is placed first keeps its place, later ones move
 * aside, at most `FAR_AWAY`, with a line back to where they belong. All in paper mm, y down.
 */

/** A label further from its object than this would mislead more than it tells. */
export const FAR_AWAY = 40;

/** What is taken. Hard boxes are never covered; soft ones (walls, lines) only for want of better. */
export interface Field {
  readonly hard: BoxGrid;
  readonly soft: BoxGrid;
  /** Lines back to objects: nothing covers them, but two may cross for want of better. */
  readonly leaders: BoxGrid;
  /** Middles of walls: what belongs on one side of a wall had better stay there. */
  readonly walls: BoxGrid;
  /** What labels must stay within; null for no bound. */
  readonly bounds: Box | null;
}

/** A field in which nothing is taken yet. */
export const makeField = (bounds: Box | null = null): Field => ({
  hard: makeGrid(),
  soft: makeGrid(),
  leaders: makeGrid(),
  walls: makeGrid(),
  bounds,
});

/** Takes a box: nothing that is placed later covers it. */
export const take = (field: Field, box: Box): void => addTo(field.hard, box);

/** Notes a straight line as something that labels had better not cover. */
export const avoidLine = (field: Field, a: Point, b: Point, width: number): void =>
  addLine(field.soft, a, b, width);

/** Notes a wall: labels had better not cover it, nor stand on its other side. */
export function avoidWall(field: Field, a: Point, b: Point, thickness: number): void {
  avoidLine(field, a, b, thickness);
  addLine(field.walls, a, b, 0.02);
}

/** Notes an area that labels had better not cover. */
export const avoidBox = (field: Field, box: Box): void => addTo(field.soft, box);

/** A line falls into no more boxes than this: one that is longer than any sheet is followed less closely. */
const MOST_PARTS = 20_000;

/** Small boxes along a line, no longer than 2 mm each, so that a slanted line takes little room; until one stops it. */
function alongLine(a: Point, b: Point, width: number, stop: (box: Box) => boolean): boolean {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const flat = a[0] === b[0] || a[1] === b[1];
  const parts = flat ? 1 : Math.min(MOST_PARTS, Math.max(1, Math.ceil(length / 2)));
  const dx = (b[0] - a[0]) / parts;
  const dy = (b[1] - a[1]) / parts;
  const half = width / 2;
  for (let i = 0; i < parts; i++) {
    const x = a[0] + dx * i;
    const y = a[1] + dy * i;
    const box = {
      x0: Math.min(x, x + dx) - half,
      y0: Math.min(y, y + dy) - half,
      x1: Math.max(x, x + dx) + half,
      y1: Math.max(y, y + dy) + half,
    };
    if (stop(box)) return true;
  }
  return false;
}

/** Puts small boxes along a line into a grid. */
function addLine(grid: BoxGrid, a: Point, b: Point, width: number): void {
  alongLine(a, b, width, (box) => {
    addTo(grid, box);
    return false;
  });
}

/** Whether nothing taken lies under a box; with `clear`, no wall or line either. */
export const isFree = (field: Field, box: Box, clear = false): boolean =>
  inside(field.bounds, box) &&
  !hits(field.hard, box) &&
  !hits(field.leaders, box) &&
  !(clear && hits(field.soft, box));

const inside = (bounds: Box | null, box: Box): boolean =>
  bounds === null ||
  (box.x0 >= bounds.x0 && box.y0 >= bounds.y0 && box.x1 <= bounds.x1 && box.y1 <= bounds.y1);

/** Where something was placed: its middle, and the line back to its object if it stands off. */
export interface Placed {
  readonly at: Point;
  readonly leader: readonly [from: Point, to: Point] | null;
}

export interface Wish {
  /** What the thing belongs to, and how far that reaches. */
  readonly anchor: Point;
  readonly reach: number;
  readonly width: number;
  readonly height: number;
  /** Whether its best place is on the anchor itself (a symbol) and not beside it (a label). */
  readonly onAnchor: boolean;
  /** Whether it would rather be nowhere than on a wall, a line or a hatch. */
  readonly clear?: boolean;
}

const GAP = 0.5;
/** Off the object by more than this, a label gets its line. */
const TOUCH = 1.2;

/** Directions round an object, best first: right, left, above, below, then the corners and between. */
const AROUND: readonly Point[] = [
  0, 180, -90, 90, -45, -135, 45, 135, -22, 22, -158, 158, -68, -112, 68, 112,
].map((a): Point => [Math.cos((a * Math.PI) / 180), Math.sin((a * Math.PI) / 180)]);
const RINGS: readonly number[] = [0, 0.8, 2, 3.5, 5.5, 8, 11, 14.5, 18, 22, 26, 31, 35, FAR_AWAY];

/** The middle of a box that stands off the anchor in a direction, so that it clears the anchor's reach by `away`. */
function besides(wish: Wish, [ux, uy]: Point, away: number): Point {
  const { anchor, reach } = wish;
  const off = reach + GAP + away;
  // The box touches the ring with its nearest side or corner.
  return [
    anchor[0] + ux * off + Math.sign(Math.round(ux * 2)) * (wish.width / 2),
    anchor[1] + uy * off + Math.sign(Math.round(uy * 2)) * (wish.height / 2),
  ];
}

/** The line from an object to a box that stands off it, or null where they all but touch. */
function leaderTo(wish: Wish, box: Box): readonly [Point, Point] | null {
  const [ax, ay] = wish.anchor;
  const end: Point = [
    Math.min(Math.max(ax, box.x0), box.x1),
    Math.min(Math.max(ay, box.y0), box.y1),
  ];
  const length = Math.hypot(end[0] - ax, end[1] - ay);
  if (wish.onAnchor ? length === 0 : length <= wish.reach + TOUCH) return null;
  const start = wish.onAnchor ? 0 : wish.reach / length;
  return [[ax + (end[0] - ax) * start, ay + (end[1] - ay) * start], end];
}

/** Whether a leader would run through something taken, apart from the object that it starts from. */
function leaderBlocked(field: Field, wish: Wish, leader: readonly [Point, Point]): boolean {
  const own = boxAround(wish.anchor, wish.reach * 2 + 0.2, wish.reach * 2 + 0.2);
  return alongLine(leader[0], leader[1], 0.2, (part) => hits(field.hard, part, own));
}

/** Whether a line from an object to a place meets any of some boxes: middles of walls, other objects' lines. */
const meets = (grid: BoxGrid, from: Point, to: Point): boolean =>
  !isEmpty(grid) && alongLine(from, to, 0.02, (part) => hits(grid, part));

const SOFT_COST = 4;
/** What belongs to one side of a wall goes this much further before it goes to the other side, mm. */
const WALL_COST = 9;
/** So does what would cross another's line. */
const CROSS_COST = 12;
/** A line that runs under other symbols is only for want of any other place. */
const UNDER_COST = FAR_AWAY + 12;

/**
 * Finds the best free place for a wish, and takes it together with its leader. Null when there is none within
 * `FAR_AWAY`: the caller leaves the thing out and says so.
 */
export function place(field: Field, wish: Wish): Placed | null {
  let best: { at: Point; box: Box; leader: readonly [Point, Point] | null; cost: number } | null =
    null;
  const consider = (at: Point, cost: number): void => {
    if (best && best.cost <= cost) return;
    const box = boxAround(at, wish.width, wish.height);
    if (!isFree(field, box, wish.clear)) return;
    let full = cost + (hits(field.soft, box) ? SOFT_COST : 0);
    if (best && best.cost <= full) return;
    if (at !== wish.anchor && meets(field.walls, wish.anchor, at)) full += WALL_COST;
    if (best && best.cost <= full) return;
    const leader = leaderTo(wish, box);
    if (leader && leaderBlocked(field, wish, leader)) full += UNDER_COST;
    if (best && best.cost <= full) return;
    if (leader && meets(field.leaders, leader[0], leader[1])) full += CROSS_COST;
    if (best && best.cost <= full) return;
    best = { at, box, leader, cost: full };
  };
  if (wish.onAnchor) consider(wish.anchor, -SOFT_COST);
  for (const ring of RINGS) {
    if (best && (best as { cost: number }).cost <= ring) break;
    for (const [i, direction] of AROUND.entries())
      consider(besides(wish, direction, ring), ring + i * 0.05);
  }
  if (!best) return null;
  const { at, box, leader } = best as {
    at: Point;
    box: Box;
    leader: readonly [Point, Point] | null;
  };
  take(field, box);
  if (leader) addLine(field.leaders, leader[0], leader[1], 0.15);
  return { at, leader };
}
