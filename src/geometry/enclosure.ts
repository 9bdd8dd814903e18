import { distance, nearestOnSegment } from './nearest.ts';
import type { Point } from './point.ts';
import { doubleArea, insidePolygon } from './polygon.ts';

/** A wall as a straight piece with a thickness. */
export interface Barrier {
  readonly a: Point;
  readonly b: Point;
  readonly thickness: number;
}

/** The outline along the middle lines of what closes round a place, or where it is open. */
export type Enclosure =
  | {
      readonly closed: true;
      /** Clockwise as drawn, whole mm, no three corners in a line. */
      readonly outline: readonly Point[];
      /** Gaps that were passed over as doorways. */
      readonly bridged: readonly (readonly [Point, Point])[];
    }
  | {
      readonly closed: false;
      /** Gaps that would have to be closed, the widest first; none where nothing would close. */
      readonly leaks: readonly (readonly [Point, Point])[];
    };

/** A gap up to this counts as a doorway: a door leaf of 3 ft with its frame, and some (common practice, no source). */
export const DOORWAY = 1200;
/** Gaps that are looked for to say where it leaks, one after the other. */
const WIDER = [2400, 4800, 9600, 20_000];
/** Places closer than this are one. */
const ONE = 3;

interface Edge {
  readonly from: number;
  readonly to: number;
  /** Whether it stands for a gap. */
  readonly gap: boolean;
}

interface Net {
  readonly nodes: readonly Point[];
  readonly edges: readonly Edge[];
}

/**
 * The room round a place: the face of the walls' middle lines in which it lies. Ends that stop at a wall's face or
 * near another end are joined; gaps up to a doorway are passed over.
 *
 * @param gap the widest gap that is passed over, mm
 */
export function enclosure(
  barriers: readonly Barrier[],
  at: Point,
  gap: number = DOORWAY,
): Enclosure {
  const net = makeNet(barriers);
  const found = faceAt(withBridges(net, gap), at);
  if (found) return { closed: true, outline: found.outline, bridged: found.gaps };
  for (const wider of WIDER) {
    const open = faceAt(withBridges(net, wider), at);
    if (!open) continue;
    const leaks = open.gaps
      .filter(([p, q]) => distance(p, q) > gap)
      .sort((p, q) => distance(q[0], q[1]) - distance(p[0], p[1]));
    return { closed: false, leaks };
  }
  return { closed: false, leaks: [] };
}

/** Middle lines with ends pulled to the middle of the walls that they stop at, cut where they cross. */
function makeNet(barriers: readonly Barrier[]): Net {
  const pieces = pulledAll(barriers.filter(({ a, b }) => distance(a, b) > ONE));
  const nodes: Point[] = [];
  const nodeAt = (p: Point): number => {
    const known = nodes.findIndex((q) => distance(p, q) <= ONE);
    return known >= 0 ? known : nodes.push(p) - 1;
  };
  const edges = new Map<string, Edge>();
  const add = (p: Point, q: Point): void => {
    const [from, to] = [nodeAt(p), nodeAt(q)];
    if (from !== to) edges.set(edgeKey(from, to), { from, to, gap: false });
  };
  // Ends first, so that cuts near an end are the end.
  for (const { a, b } of pieces) {
    nodeAt(a);
    nodeAt(b);
  }
  for (const piece of pieces) {
    const cuts = [piece.a, ...cutsOf(piece, pieces), piece.b];
    const order = cuts.sort((p, q) => distance(piece.a, p) - distance(piece.a, q));
    for (let i = 1; i < order.length; i++) add(order[i - 1]!, order[i]!);
  }
  return { nodes, edges: [...edges.values()] };
}

const edgeKey = (a: number, b: number): string => (a < b ? `${a} ${b}` : `${b} ${a}`);

/** Barriers whose ends are drawn together where they meet, or to the middle line of what they stop in. */
function pulledAll(barriers: readonly Barrier[]): Barrier[] {
  const corners: { readonly at: Point; readonly half: number }[] = [];
  const cornerOf = (at: Point, half: number): Point => {
    const near = corners.find((c) => distance(c.at, at) <= c.half + half + ONE);
    if (!near) corners.push({ at, half });
    return near?.at ?? at;
  };
  const met = barriers.map(({ a, b, thickness }) => {
    const half = thickness / 2;
    return { a: cornerOf(a, half), b: cornerOf(b, half), thickness };
  });
  const ends = met.flatMap(({ a, b }) => [a, b]);
  const free = (p: Point): boolean => ends.filter((q) => q === p).length === 1;
  return met.map((wall) => ({
    ...wall,
    a: free(wall.a) ? stopped(wall, wall.a, wall.b, met) : wall.a,
    b: free(wall.b) ? stopped(wall, wall.b, wall.a, met) : wall.b,
  }));
}

/** The place on the middle line of the wall that a free end stops in; itself where it stops in none. */
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
  return best;
}

/** Where the line of a piece, from its end p, meets the line of a wall; the nearest place on it where they are parallel. */
function along(wall: Barrier, p: Point, other: Point): Point {
  const u: Point = [p[0] - other[0], p[1] - other[1]];
  return meeting(wall, p, u)?.at ?? nearestOnSegment(wall.a, wall.b, p);
}

/** Where an endless line through p in direction u meets a piece; null where it misses it or is parallel. */
function meeting(
  { a, b }: { readonly a: Point; readonly b: Point },
  p: Point,
  u: Point,
): { readonly at: Point; readonly t: number } | null {
  const v: Point = [b[0] - a[0], b[1] - a[1]];
  const det = u[0] * v[1] - u[1] * v[0];
  if (Math.abs(det) < 0.02 * Math.hypot(...u) * Math.hypot(...v)) return null;
  const t = ((a[0] - p[0]) * v[1] - (a[1] - p[1]) * v[0]) / det;
  const s = ((a[0] - p[0]) * u[1] - (a[1] - p[1]) * u[0]) / det;
  const slack = ONE / Math.hypot(...v);
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

const degrees = (edges: readonly Edge[]): Map<number, number> => {
  const count = new Map<number, number>();
  for (const { from, to } of edges)
    for (const node of [from, to]) count.set(node, (count.get(node) ?? 0) + 1);
  return count;
};

/** A net whose loose ends are joined to the nearest end or the wall ahead, as far as a gap reaches. */
function withBridges({ nodes, edges }: Net, gap: number): Net {
  const count = degrees(edges);
  const loose = nodes.flatMap((_, i) => (count.get(i) === 1 ? [i] : []));
  const points = [...nodes];
  let lines = [...edges];
  const beforeEnd = (i: number): Point => {
    const own = edges.find(({ from, to }) => from === i || to === i)!;
    return nodes[own.from === i ? own.to : own.from]!;
  };
  const linked = new Set(edges.map(({ from, to }) => edgeKey(from, to)));
  for (const node of loose) {
    const p = nodes[node]!;
    const own = edges.find(({ from, to }) => from === node || to === node)!;
    const back = beforeEnd(node);
    const ends = loose
      .filter((i) => i !== node && !linked.has(edgeKey(i, node)))
      .filter((i) => inLine(back, p, nodes[i]!) || inLine(beforeEnd(i), nodes[i]!, p))
      .map((i) => ({ at: nodes[i]!, d: distance(p, nodes[i]!), node: i, cut: null }));
    const ahead = lines.flatMap((edge) => {
      if (edge === own || edge.gap) return [];
      const piece = { a: points[edge.from]!, b: points[edge.to]! };
      const met = meeting(piece, p, [p[0] - back[0], p[1] - back[1]]);
      return met && met.t > 0 ? [{ at: met.at, d: distance(p, met.at), node: -1, cut: edge }] : [];
    });
    const best = [...ends, ...ahead].filter(({ d }) => d <= gap).sort((a, b) => a.d - b.d)[0];
    if (!best) continue;
    let to = best.node;
    if (to < 0) {
      const known = points.findIndex((q) => distance(q, best.at) <= ONE);
      to = known >= 0 ? known : points.push(best.at) - 1;
      const { from, to: end } = best.cut!;
      if (to !== from && to !== end)
        lines = [
          ...lines.filter((edge) => edge !== best.cut),
          { from, to, gap: false },
          { from: to, to: end, gap: false },
        ];
    }
    if (to === node || linked.has(edgeKey(node, to))) continue;
    linked.add(edgeKey(node, to));
    lines.push({ from: node, to, gap: true });
  }
  return { nodes: points, edges: lines };
}

/** Whether a wall that ends at p goes on towards q, within 20 degrees. */
function inLine(back: Point, p: Point, q: Point): boolean {
  const u: Point = [p[0] - back[0], p[1] - back[1]];
  const v: Point = [q[0] - p[0], q[1] - p[1]];
  return u[0] * v[0] + u[1] * v[1] >= Math.cos(Math.PI / 9) * Math.hypot(...u) * Math.hypot(...v);
}

interface Face {
  readonly outline: readonly Point[];
  readonly gaps: readonly (readonly [Point, Point])[];
}

/** The smallest face of a net round a place; null where none closes round it. */
function faceAt(net: Net, at: Point): Face | null {
  const edges = withoutSpurs(net.edges);
  const leaving = new Map<number, { readonly to: number; readonly gap: boolean }[]>();
  for (const { from, to, gap } of edges) {
    leaving.set(from, [...(leaving.get(from) ?? []), { to, gap }]);
    leaving.set(to, [...(leaving.get(to) ?? []), { to: from, gap }]);
  }
  const bearing = (from: number, to: number): number => {
    const [p, q] = [net.nodes[from]!, net.nodes[to]!];
    return Math.atan2(q[1] - p[1], q[0] - p[0]);
  };
  for (const [from, list] of leaving)
    list.sort((p, q) => bearing(from, p.to) - bearing(from, q.to));
  const seen = new Set<string>();
  let best: Face | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const [from, list] of leaving)
    for (const { to } of list) {
      if (seen.has(`${from}>${to}`)) continue;
      const loop = walk(leaving, from, to, seen);
      const outline = loop.map((i) => net.nodes[i]!);
      const area = doubleArea(outline);
      // Faces run clockwise as drawn; what surrounds a whole island runs the other way.
      if (area <= 0 || area >= least || !insidePolygon(outline, at[0], at[1])) continue;
      least = area;
      best = { outline: straightened(outline), gaps: gapsOf(net, loop, leaving) };
    }
  return best;
}

type Leaving = ReadonlyMap<number, readonly { readonly to: number; readonly gap: boolean }[]>;

/** Round a face: at each node on to the next way to the left of where it came from. */
function walk(leaving: Leaving, from: number, to: number, seen: Set<string>): number[] {
  const loop: number[] = [];
  let [a, b] = [from, to];
  while (!seen.has(`${a}>${b}`)) {
    seen.add(`${a}>${b}`);
    loop.push(a);
    const list = leaving.get(b)!;
    const back = list.findIndex((way) => way.to === a);
    const next = list[(back + list.length - 1) % list.length]!.to;
    [a, b] = [b, next];
  }
  return loop;
}

function gapsOf(net: Net, loop: readonly number[], leaving: Leaving): [Point, Point][] {
  return loop.flatMap((from, i): [Point, Point][] => {
    const to = loop[(i + 1) % loop.length]!;
    const gap = leaving.get(from)!.some((way) => way.to === to && way.gap);
    return gap ? [[rounded(net.nodes[from]!), rounded(net.nodes[to]!)]] : [];
  });
}

/** Edges without those that lead nowhere. */
function withoutSpurs(edges: readonly Edge[]): readonly Edge[] {
  let rest = edges;
  for (;;) {
    const count = degrees(rest);
    const kept = rest.filter(({ from, to }) => count.get(from)! > 1 && count.get(to)! > 1);
    if (kept.length === rest.length) return kept;
    rest = kept;
  }
}

const rounded = (p: Point): Point => [Math.round(p[0]) + 0, Math.round(p[1]) + 0];

/** Whole corners without those that lie in a line with their neighbours, to the mm. */
function straightened(outline: readonly Point[]): Point[] {
  let corners = outline.map(rounded);
  for (;;) {
    const kept = corners.filter((p, i) => {
      const a = corners[(i + corners.length - 1) % corners.length]!;
      const b = corners[(i + 1) % corners.length]!;
      const beside = Math.abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]));
      return beside > ONE * (distance(a, b) || 1) * 0.5;
    });
    if (kept.length === corners.length || kept.length < 3) return corners;
    corners = kept;
  }
}
