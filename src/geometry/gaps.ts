import { distance, nearestOnSegment } from './nearest.ts';
import type { Point } from './point.ts';
import { degrees, type Edge, edgeKey, meeting, type Net, ONE } from './wall-net.ts';

/** Two walls that lack only the corner between them: the one ends so near to it, mm. */
const CORNER = 300;
/** Bodies with no more between them touch, mm. */
const TOUCH = 60;
/** They cross at this at least: the sine of 30 degrees. */
const SQUARE = 0.5;

/** The end of a wall that meets nothing. */
interface End {
  readonly node: number;
  readonly at: Point;
  /** The other end of its last stretch. */
  readonly back: Point;
  readonly own: Edge;
}

/** A way over a gap from such an end. */
interface Bridge {
  /** How wide the gap is, from body to body. */
  readonly clear: number;
  /** Where it comes to: another end, or a place on a wall. */
  readonly to: Point;
  readonly end: End | null;
  readonly cut: Edge | null;
  /** The corner that it goes by. */
  readonly by: Point | null;
}

/** A net whose loose ends are joined to the nearest end or the wall ahead, as far as a gap reaches. */
export function withBridges({ nodes, edges }: Net, gap: number): Net {
  const points = [...nodes];
  let lines = [...edges];
  const linked = new Set(edges.map(({ from, to }) => edgeKey(from, to)));
  const ends = looseEnds({ nodes, edges });
  const nodeAt = (p: Point): number => {
    const known = points.findIndex((q) => distance(q, p) <= ONE);
    return known >= 0 ? known : points.push(p) - 1;
  };
  const link = (from: number, to: number, span: readonly [Point, Point]): void => {
    if (from === to || linked.has(edgeKey(from, to))) return;
    linked.add(edgeKey(from, to));
    lines.push({ from, to, half: 0, gap: span });
  };
  for (const end of ends) {
    const others = ends.filter(
      (other) => other !== end && !linked.has(edgeKey(other.node, end.node)),
    );
    const best = [...others.flatMap((other) => toEnd(end, other)), ...toWalls(end, lines, points)]
      .filter(({ clear }) => clear <= gap)
      .sort((p, q) => p.clear - q.clear)[0];
    if (!best) continue;
    const { half } = end.own;
    if (best.by && best.end) {
      const corner = nodeAt(best.by);
      link(end.node, corner, between(end.at, half, best.by, best.end.own.half));
      link(best.end.node, corner, between(best.to, best.end.own.half, best.by, half));
      linked.add(edgeKey(end.node, best.end.node));
      continue;
    }
    const to = best.end?.node ?? nodeAt(best.to);
    const { cut } = best;
    if (cut && to !== cut.from && to !== cut.to)
      lines = [...lines.filter((edge) => edge !== cut), { ...cut, to }, { ...cut, from: to }];
    link(end.node, to, between(end.at, half, best.to, (best.end?.own ?? cut)?.half ?? 0));
  }
  return { nodes: points, edges: lines };
}

function looseEnds({ nodes, edges }: Net): End[] {
  const count = degrees(edges);
  return edges
    .flatMap((own) =>
      [
        [own.from, own.to],
        [own.to, own.from],
      ]
        .filter(([node]) => count.get(node!) === 1)
        .map(([node, back]) => ({ node: node!, at: nodes[node!]!, back: nodes[back!]!, own })),
    )
    .sort((p, q) => p.node - q.node);
}

const way = ({ at, back }: End): Point => [at[0] - back[0], at[1] - back[1]];

/**
 * From one end to another: straight where they touch or one goes on towards the other, or by the corner that both lack.
 */
function toEnd(end: End, other: End): Bridge[] {
  const common = { to: other.at, end: other, cut: null };
  const corner = cornerOf(end, other);
  if (corner) return [{ ...common, ...corner }];
  const clear = distance(end.at, other.at) - end.own.half - other.own.half;
  if (clear > TOUCH && !inLine(end, other.at) && !inLine(other, end.at)) return [];
  return [{ ...common, clear, by: null }];
}

/** The corner that two ends lack, where the lines on which they lie cross ahead of both. */
function cornerOf(end: End, other: End): { readonly by: Point; readonly clear: number } | null {
  const [u, v] = [way(end), way(other)];
  const det = u[0] * v[1] - u[1] * v[0];
  if (Math.abs(det) < SQUARE * Math.hypot(...u) * Math.hypot(...v)) return null;
  const [dx, dy] = [other.at[0] - end.at[0], other.at[1] - end.at[1]];
  const [t, s] = [(dx * v[1] - dy * v[0]) / det, (dx * u[1] - dy * u[0]) / det];
  if (t <= 0 || s <= 0) return null;
  const halves = end.own.half + other.own.half;
  const clear = [t * Math.hypot(...u) - halves, s * Math.hypot(...v) - halves];
  if (Math.min(...clear) > CORNER) return null;
  return { by: [end.at[0] + u[0] * t, end.at[1] + u[1] * t], clear: Math.max(...clear) };
}

/** From an end on to the walls ahead. */
function toWalls(end: End, lines: readonly Edge[], points: readonly Point[]): Bridge[] {
  return lines.flatMap((cut) => {
    if (cut === end.own || cut.gap) return [];
    const piece = { a: points[cut.from]!, b: points[cut.to]! };
    const halves = end.own.half + cut.half;
    const met = meeting(piece, end.at, way(end));
    // Beyond the end of that wall it meets no more than what is left of its body.
    const beside = met ?? meeting(piece, end.at, way(end), halves);
    if (!beside || beside.t <= 0) return [];
    const clear = distance(end.at, beside.at) - halves;
    if (!met && clear > TOUCH) return [];
    return [{ to: nearestOnSegment(piece.a, piece.b, beside.at), end: null, cut, clear, by: null }];
  });
}

/** Whether a wall goes on towards a place beyond its end, within 20 degrees. */
function inLine(end: End, q: Point): boolean {
  const u = way(end);
  const v: Point = [q[0] - end.at[0], q[1] - end.at[1]];
  return u[0] * v[0] + u[1] * v[1] >= Math.cos(Math.PI / 9) * Math.hypot(...u) * Math.hypot(...v);
}

/** What lies between two bodies of which the middles and half the thicknesses are known. */
function between(p: Point, half: number, q: Point, other: number): readonly [Point, Point] {
  const far = distance(p, q);
  const share = far > half + other ? 1 : far / (half + other || 1);
  const [from, to] = far === 0 ? [0, 0] : [(half * share) / far, (other * share) / far];
  const at = (k: number): Point => [p[0] + (q[0] - p[0]) * k, p[1] + (q[1] - p[1]) * k];
  return [at(from), at(1 - to)];
}
