import Flatbush from 'flatbush';
import { type Face, type Gap, gapsBetween } from './faces.ts';
import type { Jambs } from './jambs.ts';
import { type Stretch, stretchesBetween, windowsBetween, windowsIn } from './windows.ts';

/** What may be the body of a wall, in the frame of its direction: between two faces, along a stretch. */
export interface Body {
  readonly x0: number;
  readonly x1: number;
  readonly low: Face;
  readonly high: Face;
  /** Whether nothing lies between its faces, and whether so much does that it may be something else. */
  readonly clear: boolean;
  readonly between: boolean;
  /** Where it is a window. */
  readonly windows: readonly Stretch[];
}

/** How thick a wall may be, mm: from a light partition to an old outer wall (common practice, no source). */
export const THINNEST = 66;
export const THICKEST = 600;
/** Faces shorter than this are ticks, letters and mullions, mm. */
const LEAST_FACE = 150;
/** Of the stretch that two faces have in common so much must have nothing between, or only the clear parts count. */
const CLEAR = 0.3;
/** A wall of which less than this share is clear is offered with doubt. */
const MUCH = 0.85;
/** So many equal gaps one over another are a hatch, a stair or a table. */
const STACK = 3;

const lengthOf = ({ x0, x1 }: { x0: number; x1: number }): number => x1 - x0;
/** How far the two faces lie apart, mm. */
export const thicknessOf = ({ low, high }: Pick<Body, 'low' | 'high'>): number => high.y - low.y;

/** What may be walls between the faces of one direction; each stretch of a face is used once, but by windows. */
export function bodiesBetween(faces: readonly Face[], jambs: Jambs): Body[] {
  const gaps = gapsBetween(
    faces.filter((face) => lengthOf(face) >= LEAST_FACE),
    THICKEST,
  );
  const stacked = stackedGaps(gaps);
  const candidates = [...pairsOf(gaps.filter((gap) => !stacked.has(gap))).values()]
    .flatMap((pair) => candidatesOf(pair, jambs))
    .sort((p, q) => worth(q) - worth(p));
  const used = new Map<Face, [number, number][]>();
  const bodies = candidates.flatMap((candidate) => {
    const free = [candidate.low, candidate.high].reduce(
      (left, face) => left.flatMap((part) => without(part, used.get(face) ?? [])),
      [[candidate.x0, candidate.x1] as [number, number]],
    );
    const parts = free.filter(([x0, x1]) => x1 - x0 >= thicknessOf(candidate) / 2);
    for (const face of [candidate.low, candidate.high]) {
      const there = used.get(face);
      if (there) there.push(...parts);
      else used.set(face, [...parts]);
    }
    return parts.map(([x0, x1]) => ({ ...candidate, x0, x1 }));
  });
  return withoutNested([...bodies, ...windowsBetween(bodies, faces)]);
}

/** Bodies without those that lie between the faces of another, as the panes of a window do. */
function withoutNested(bodies: readonly Body[]): Body[] {
  if (bodies.length === 0) return [];
  const index = new Flatbush(bodies.length);
  for (const { x0, x1, low, high } of bodies) index.add(x0, low.y, x1, high.y);
  index.finish();
  const nested = new Set<number>();
  bodies.forEach((outer, i) => {
    if (outer.clear) return;
    for (const other of index.search(outer.x0, outer.low.y, outer.x1, outer.high.y)) {
      const { x0, x1, low, high } = bodies[other]!;
      const common = Math.min(x1, outer.x1) - Math.max(x0, outer.x0);
      if (other !== i && low.y >= outer.low.y && high.y <= outer.high.y && common > (x1 - x0) / 2)
        nested.add(other);
    }
  });
  return bodies.filter((_, i) => !nested.has(i));
}

/** Long ones before short ones; the thick ones, and the thin ones that a leaf leaves before a wall, after the usual. */
function worth(body: Body): number {
  const thick = thicknessOf(body);
  return lengthOf(body) * (thick < 90 ? 0.8 : 1 - Math.max(0, thick - 300) / 500);
}

/** The gaps of each pair of faces. */
function pairsOf(gaps: readonly Gap[]): Map<string, Gap[]> {
  const numbers = new Map<Face, number>();
  const numberOf = (face: Face): number => {
    const there = numbers.get(face) ?? numbers.size;
    numbers.set(face, there);
    return there;
  };
  const pairs = new Map<string, Gap[]>();
  for (const gap of gaps) {
    const key = `${numberOf(gap.low)} ${numberOf(gap.high)}`;
    const there = pairs.get(key);
    if (there) there.push(gap);
    else pairs.set(key, [gap]);
  }
  return pairs;
}

function candidatesOf(gaps: readonly Gap[], jambs: Jambs): Body[] {
  const { low, high } = gaps[0]!;
  if (high.y - low.y < THINNEST) return [];
  const [x0, x1] = [Math.max(low.x0, high.x0), Math.min(low.x1, high.x1)];
  const parts = gaps.map((gap) => [gap.x0, gap.x1] as const);
  const clear = sumOf(parts);
  if (clear < CLEAR * (x1 - x0))
    return parts.map(([x0, x1]) => ({
      ...{ x0, x1, low, high },
      ...{ clear: true, between: true, windows: [] },
    }));
  const windows = windowsIn(stretchesBetween(parts, x0, x1), { low, high, x0, x1 }, jambs);
  const share = clear / (x1 - x0);
  const understood = (clear + sumOf(windows)) / (x1 - x0);
  return [{ x0, x1, low, high, clear: share > 0.999, between: understood < MUCH, windows }];
}

const sumOf = (parts: readonly Stretch[]): number =>
  parts.reduce((sum, [from, to]) => sum + to - from, 0);

/** What is left of a stretch without others. */
export function without(
  part: readonly [number, number],
  others: readonly (readonly [number, number])[],
): [number, number][] {
  let left: [number, number][] = [[part[0], part[1]]];
  for (const [from, to] of others)
    left = left.flatMap(([x0, x1]): [number, number][] => {
      if (to <= x0 || from >= x1) return [[x0, x1]];
      const rest: [number, number][] = [];
      if (from > x0) rest.push([x0, from]);
      if (to < x1) rest.push([to, x1]);
      return rest;
    });
  return left;
}

/** Gaps that lie one over another at equal distances, as the lines of a hatch, the steps of a stair, the rows of a table. */
function stackedGaps(gaps: readonly Gap[]): ReadonlySet<Gap> {
  const overLow = new Map<Face, Gap[]>();
  for (const gap of gaps) {
    const there = overLow.get(gap.low);
    if (there) there.push(gap);
    else overLow.set(gap.low, [gap]);
  }
  // From the top down: how many equal gaps follow each above, and which.
  const above = new Map<Gap, { count: number; next: Gap | null }>();
  for (let i = gaps.length - 1; i >= 0; i--) {
    const gap = gaps[i]!;
    let best: { count: number; next: Gap | null } = { count: 1, next: null };
    for (const next of overLow.get(gap.high) ?? []) {
      const { count } = above.get(next) ?? { count: 1 };
      if (count + 1 > best.count && alike(gap, next)) best = { count: count + 1, next };
    }
    above.set(gap, best);
  }
  const stacked = new Set<Gap>();
  for (const gap of gaps)
    if (above.get(gap)!.count >= STACK)
      for (let one: Gap | null = gap; one && !stacked.has(one); one = above.get(one)!.next)
        stacked.add(one);
  return stacked;
}

function alike(p: Gap, q: Gap): boolean {
  const [t, u] = [thicknessOf(p), thicknessOf(q)];
  const common = Math.min(p.x1, q.x1) - Math.max(p.x0, q.x0);
  return (
    Math.abs(t - u) <= Math.max(3, 0.06 * t) && common >= 0.6 * Math.max(lengthOf(p), lengthOf(q))
  );
}
