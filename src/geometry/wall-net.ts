import { distance, nearestOnSegment } from './nearest.ts';
import type { Point } from './point.ts';

/** A wall as a straight piece with a thickness. */
export interface Barrier {
  readonly a: Point;
  readonly b: Point;
  readonly thickness: number;
}

/** Places closer than this are one. */
export const ONE = 3;

/** A stretch between two places. */
export interface Edge {
  readonly from: number;
  readonly to: number;
  /** Half the thickness of the wall. */
  readonly half: number;
  /** Where it stands for a gap: that from body to body. */
  readonly gap: readonly [Point, Point] | null;
}

/** Places, and what stands between them. */
export interface Net {
  readonly nodes: readonly Point[];
  readonly edges: readonly Edge[];
}

/** Middle lines with ends pulled to the middle of the walls that they stop at, cut where they cross. */
export function makeNet(barriers: readonly Barrier[]): Net {
  const pieces = pulledAll(barriers.filter(({ a, b }) => distance(a, b) > ONE));
  const nodes: Point[] = [];
  const nodeAt = (p: Point): number => {
    const known = nodes.findIndex((q) => distance(p, q) <= ONE);
    return known >= 0 ? known : nodes.push(p) - 1;
  };
  const edges = new Map<string, Edge>();
  const add = (p: Point, q: Point, half: number): void => {
    const [from, to] = [nodeAt(p), nodeAt(q)];
    if (from !== to) edges.set(edgeKey(from, to), { from, to, half, gap: null });
  };
  // Ends first, so that cuts near an end are the end.
  for (const { a, b } of pieces) {
    nodeAt(a);
    nodeAt(b);
  }
  for (const piece of pieces) {
    const cuts = [piece.a, ...cutsOf(piece, pieces), piece.b];
    const order = cuts.sort((p, q) => distance(piece.a, p) - distance(piece.a, q));
    for (let i = 1; i < order.length; i++) add(order[i - 1]!, order[i]!, piece.thickness / 2);
  }
  return { nodes, edges: [...edges.values()] };
}

/** The same for both ways along a stretch. */
export const edgeKey = (a: number, b: number): string => (a < b ? `${a} ${b}` : `${b} ${a}`);

/** Walls that lie in one line turn by no more than this: the sine of 10 degrees. */
const STRAIGHT = 0.17;
/** The place where two walls meet lies no farther beside the line of either than a hand is off, mm. */
const BESIDE = 40;

/** Barriers whose ends are drawn together where they meet, or to the middle line of what they stop in. */
function pulledAll(barriers: readonly Barrier[]): Barrier[] {
  const corners: { readonly at: Point; readonly half: number; readonly of: Barrier }[] = [];
  const steps: Barrier[] = [];
  /** The corner that an end meets; where a wall goes on in a thicker one beside its line, a step leads there. */
  const cornerOf = (at: Point, of: Barrier): Point => {
    const half = of.thickness / 2;
    const near = corners.find((c) => distance(c.at, at) <= c.half + half + ONE);
    if (!near) corners.push({ at, half, of });
    if (!near || !isBeside(near.at, at, of)) return near?.at ?? at;
    if (isStraight(near.of, of)) steps.push({ a: at, b: near.at, thickness: of.thickness });
    else corners.push({ at, half, of });
    return at;
  };
  const met = barriers.map((wall) => {
    const [p, q] = [cornerOf(wall.a, wall), cornerOf(wall.b, wall)];
    if (p !== q) return { ...wall, a: p, b: q };
    // A stub beside a door is no longer than a wall is thick: one of its ends stays where it is.
    return distance(wall.a, p) < distance(wall.b, p) ? { ...wall, a: p } : { ...wall, b: p };
  });
  const all = [...met, ...steps];
  const ends = all.flatMap(({ a, b }) => [a, b]);
  const free = (p: Point): boolean => ends.filter((q) => q === p).length === 1;
  return all.map((wall) => ({
    ...wall,
    a: free(wall.a) ? stopped(wall, wall.a, wall.b, all) : wall.a,
    b: free(wall.b) ? stopped(wall, wall.b, wall.a, all) : wall.b,
  }));
}

const wayOf = ({ a, b }: Barrier): Point => [b[0] - a[0], b[1] - a[1]];

function isBeside(corner: Point, at: Point, of: Barrier): boolean {
  const u = wayOf(of);
  const [dx, dy] = [corner[0] - at[0], corner[1] - at[1]];
  return Math.abs(dx * u[1] - dy * u[0]) > BESIDE * Math.hypot(...u);
}

function isStraight(one: Barrier, other: Barrier): boolean {
  const [u, v] = [wayOf(one), wayOf(other)];
  return Math.abs(u[0] * v[1] - u[1] * v[0]) <= STRAIGHT * Math.hypot(...u) * Math.hypot(...v);
}

/**
 * The place on the middle line of the wall that a free end stops in; itself where it stops in none, or where a stub
 * would shrink to nothing.
 */
function stopped(own: Barrier, p: Point, other: Point, all: readonly Barrier[]): Point {
  let best = p;
  let least = Number.POSITIVE_INFINITY;
  for (const wall of all) {
    const reach = (wall.thickness + own.thickness) / 2 + ONE;
    if (wall === own || distance(p, nearestOnSegment(wall.a, wall.b, p)) > reach) continue;
    const to = along(wall, p, other);
    const d = distance(p, to);
    if (d > 2 * reach || d >= least) continue;
    least = d;
    best = to;
  }
  return distance(best, other) <= ONE ? p : best;
}

/** Where the line of a piece, from its end p, meets the line of a wall; the nearest place on it where they are parallel. */
function along(wall: Barrier, p: Point, other: Point): Point {
  const u: Point = [p[0] - other[0], p[1] - other[1]];
  return meeting(wall, p, u)?.at ?? nearestOnSegment(wall.a, wall.b, p);
}

/**
 * Where an endless line through p in direction u meets a piece; null where it misses it or is parallel.
 *
 * @param beyond how far beyond its ends the piece goes on, mm
 */
export function meeting(
  { a, b }: { readonly a: Point; readonly b: Point },
  p: Point,
  u: Point,
  beyond: number = ONE,
): { readonly at: Point; readonly t: number } | null {
  const v: Point = [b[0] - a[0], b[1] - a[1]];
  const det = u[0] * v[1] - u[1] * v[0];
  if (Math.abs(det) < 0.02 * Math.hypot(...u) * Math.hypot(...v)) return null;
  const t = ((a[0] - p[0]) * v[1] - (a[1] - p[1]) * v[0]) / det;
  const s = ((a[0] - p[0]) * u[1] - (a[1] - p[1]) * u[0]) / det;
  const slack = beyond / Math.hypot(...v);
  if (s < -slack || s > 1 + slack) return null;
  return { at: [p[0] + u[0] * t, p[1] + u[1] * t], t };
}

/** Places on a piece at which others cross it, end on it, or lie along it. */
function cutsOf(piece: Barrier, all: readonly Barrier[]): Point[] {
  const cuts: Point[] = [];
  const u: Point = [piece.b[0] - piece.a[0], piece.b[1] - piece.a[1]];
  for (const other of all) {
    if (other === piece) continue;
    for (const end of [other.a, other.b])
      if (distance(end, nearestOnSegment(piece.a, piece.b, end)) <= ONE) cuts.push(end);
    const met = meeting(other, piece.a, u);
    if (met && met.t > 0 && met.t < 1) cuts.push(met.at);
  }
  return cuts;
}

/** How many stretches end at each place. */
export function degrees(edges: readonly Edge[]): Map<number, number> {
  const count = new Map<number, number>();
  for (const { from, to } of edges)
    for (const node of [from, to]) count.set(node, (count.get(node) ?? 0) + 1);
  return count;
}
