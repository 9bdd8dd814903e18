import type { Id } from '../base/ids.ts';
import type { Point } from '../geometry/point.ts';
import { boxAround } from './box-grid.ts';
import { areaInk, type Ink } from './display.ts';
import { avoidLine, isFree, place, take } from './label-place.ts';
import { type Drafting, toBuilding, toPaper } from './plan-view.ts';
import { BADGE_HEIGHT, BADGE_SIZE, countBadge } from './symbols.ts';

/** Width of a line on paper that says roughly how many cables it is; its number says it exactly. */
export const wayWidth = (cables: number): number =>
  Math.min(2, 0.3 + 0.18 * (Math.sqrt(cables) - 1));

/** The area whose cables alone lie in a way, or null where several share it. */
function onlyArea(labels: readonly string[]): string | null {
  const letters = new Set(labels.map((label) => label.charAt(0)));
  return letters.size === 1 ? labels[0]!.charAt(0) : null;
}

/** Ways that carry the same cables and touch: one line on paper. */
interface Chain {
  readonly points: readonly Point[];
  readonly cables: number;
  readonly area: string | null;
}

const key = ([x, y]: Point): string => `${Math.round(x)},${Math.round(y)}`;

/** Joins pieces end to end where exactly two of them meet. */
function joined(pieces: readonly (readonly [Point, Point])[]): Point[][] {
  const ends = new Map<string, number[]>();
  pieces.forEach((piece, i) => {
    for (const p of piece) ends.set(key(p), [...(ends.get(key(p)) ?? []), i]);
  });
  const used = new Set<number>();
  const grow = (chain: Point[]): void => {
    for (;;) {
      const end = chain[chain.length - 1]!;
      const there = ends.get(key(end))!;
      const next = there.length === 2 ? there.find((i) => !used.has(i)) : undefined;
      if (next === undefined) return;
      used.add(next);
      const [a, b] = pieces[next]!;
      chain.push(key(a) === key(end) ? b : a);
    }
  };
  const chains: Point[][] = [];
  pieces.forEach((piece, i) => {
    if (used.has(i)) return;
    used.add(i);
    const chain: Point[] = [...piece];
    grow(chain);
    chain.reverse();
    grow(chain);
    chains.push(chain);
  });
  return chains;
}

/** The level's ways seen from above, chained. */
export function chains({ plan, survey, view }: Drafting): Chain[] {
  const groups = new Map<string, { jacks: readonly Id[]; pieces: [Point, Point][] }>();
  for (const way of survey?.ways ?? []) {
    if (way.level !== view.level) continue;
    const a: Point = [way.from[0], way.from[1]];
    const b: Point = [way.to[0], way.to[1]];
    if (key(a) === key(b)) continue;
    const id = way.jacks.join(' ');
    const group = groups.get(id) ?? { jacks: way.jacks, pieces: [] };
    group.pieces.push([a, b]);
    groups.set(id, group);
  }
  const label = (id: Id): string => plan.tables.jacks.get(id)?.label ?? '';
  return [...groups.values()]
    .flatMap(({ jacks, pieces }) => {
      const area = onlyArea(jacks.map(label));
      return joined(pieces).map((points) => ({ points, cables: jacks.length, area }));
    })
    .sort((a, b) => b.cables - a.cables);
}

const chainInk = (chain: Chain): Ink =>
  chain.area === null ? 'cable' : `area-${areaInk(chain.area)}`;

/** The cables: one line for all that share a way, wide ones first. */
export function wayMarks(drafting: Drafting): void {
  const { view, field, wants, put } = drafting;
  for (const chain of chains(drafting)) {
    const width = wayWidth(chain.cables);
    for (let i = 1; i < chain.points.length; i++)
      avoidLine(field, toPaper(view, chain.points[i - 1]!), toPaper(view, chain.points[i]!), width);
    if (wants('ways'))
      put('ways', {
        op: 'line',
        points: chain.points,
        style: { stroke: chainInk(chain), width },
      });
  }
}

/** A number for every stretch that is at least this long on paper, and again after each of the second, mm. */
const LEAST_COUNTED = 5;
const COUNT_EVERY = 95;

/** How many cables lie in each shared way: a number on the line, away from symbols; beside it where that is taken. */
export function countMarks(drafting: Drafting): void {
  const { view, wants, put, leaveOut } = drafting;
  if (!wants('counts')) return;
  for (const chain of chains(drafting)) {
    if (chain.cables < 2) continue;
    const points = chain.points.map((p) => toPaper(view, p));
    const total = lengthOf(points);
    if (total < LEAST_COUNTED) continue;
    const text = chain.area === null ? String(chain.cables) : `${chain.cables} ${chain.area}`;
    const width = view.measure.width(text, BADGE_SIZE, 'sans', true);
    const parts = Math.max(1, Math.round(total / COUNT_EVERY));
    for (let i = 0; i < parts; i++) {
      const at = countPlace(drafting, points, total, [i / parts, (i + 1) / parts], width);
      if (!at) {
        leaveOut('counts', text);
        continue;
      }
      const { leader } = at;
      if (leader)
        put('leaders', {
          op: 'line',
          points: leader.map((p) => toBuilding(view, p)),
          style: { stroke: chainInk(chain), width: 0.18 },
        });
      put('counts', {
        op: 'symbol',
        at: toBuilding(view, at.at),
        marks: countBadge(text, width, chainInk(chain)),
      });
    }
  }
}

const lengthOf = (points: readonly Point[]): number =>
  points
    .slice(1)
    .reduce((sum, p, i) => sum + Math.hypot(p[0] - points[i]![0], p[1] - points[i]![1]), 0);

/** The place at a distance along a chain. */
function along(points: readonly Point[], distance: number): Point {
  let left = distance;
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1]!;
    const b = points[i]!;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (left <= length || i === points.length - 1) {
      const t = length === 0 ? 0 : Math.min(1, left / length);
      return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    }
    left -= length;
  }
  return points[0]!;
}

/** Where along its stretch a number is tried, from the middle outwards. */
const SHARES = [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.12, 0.88];

function countPlace(
  { field }: Drafting,
  points: readonly Point[],
  total: number,
  [from, to]: readonly [number, number],
  textWidth: number,
): ReturnType<typeof place> {
  const width = Math.max(BADGE_HEIGHT, textWidth + 1.5) + 0.4;
  const height = BADGE_HEIGHT + 0.4;
  for (const share of SHARES) {
    const at = along(points, total * (from + (to - from) * share));
    const box = boxAround(at, width, height);
    if (!isFree(field, box)) continue;
    take(field, box);
    return { at, leader: null };
  }
  for (const share of [0.5, 0.25, 0.75, 0.1, 0.9]) {
    const anchor = along(points, total * (from + (to - from) * share));
    const placed = place(field, { anchor, reach: 0.4, width, height, onAnchor: false });
    if (placed) return placed;
  }
  return null;
}
