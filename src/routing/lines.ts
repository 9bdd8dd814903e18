import type { Media } from './medium.ts';
import { type Profile, type Stretches, sameProfile, stretchAt } from './profile.ts';
import { profileOf, type Wish, type Wishes } from './wishes.ts';

/**
 * The lines along which a cheapest route can be found.
 *
 * A segment of a cheapest route can be slid sideways, at no cost, until it meets an edge of something: so it is
 * enough to look along the edges of areas, through the ends of pathways and through the risers, each line going on
 * until something bars it. On an edge the two sides are two lines, one a hair to either side.
 */
export interface LineSet {
  readonly axis: 0 | 1;
  readonly count: number;
  /** Coordinate of each line, ascending; side 0 comes before side 1. */
  readonly c: Float64Array;
  readonly side: Uint8Array;
  /** The line's unbarred stretch, closed. */
  readonly lo: Float64Array;
  readonly hi: Float64Array;
  readonly profiles: readonly Profile[];
  /** The row of all their profiles. */
  readonly row: Stretches;
  /** False when some were left out. */
  readonly whole: boolean;
}

const SIDES = [0, 1] as const;

/** Coordinates that are looked at to tell how much lies along the others. */
const SAMPLES = 24;

/**
 * How much work the lines along both axes would be: stretches, each with the walls that it lies inside. Taken from
 * some of the coordinates, so that a plan on which thousands of things lie over one another is known before it is
 * worked through.
 */
export function workOf(wishes: Wishes, media: Media): number {
  let work = 0;
  for (const axis of [0, 1] as const) {
    const coordinates = wishes.coordinates(axis);
    const step = Math.max(1, Math.floor(coordinates.length / SAMPLES));
    let looked = 0;
    let found = 0;
    for (let i = step >> 1; i < coordinates.length; i += step) {
      const at = coordinates[i]!;
      const { row, first, end } = profileOf(media, axis, at, wishes.axes[axis].get(at)!, 0);
      for (let k = first; k < end; k++) found += 1 + media.list[row.media[k]!]!.bodies.length;
      looked++;
    }
    if (looked > 0) work += (found / looked) * coordinates.length;
  }
  return work;
}

/**
 * The lines along one axis, at no more coordinates than `limit` of those that must be and of the others; where there
 * are more, every so manyth is taken.
 */
export function linesOf(wishes: Wishes, media: Media, axis: 0 | 1, limit: number): LineSet {
  const c: number[] = [];
  const side: number[] = [];
  const lo: number[] = [];
  const hi: number[] = [];
  const profiles: Profile[] = [];
  const coordinates = wishes.coordinates(axis);
  const wished = Array.from(coordinates, (at) => wishes.axes[axis].get(at)!);
  const musts = wished.filter((wish) => wish.must).length;
  const keepMust = Math.ceil(musts / limit);
  const keep = Math.ceil(coordinates.length / limit);
  let must = 0;
  for (let i = 0; i < coordinates.length; i++) {
    const at = coordinates[i]!;
    const wish = wished[i]!;
    const turn = wish.must ? must++ % keepMust : i % keep;
    if (turn !== 0 && !wish.always) continue;
    const spans = resolve(media, axis, at, wish);
    for (const s of SIDES) {
      if (spans[s].length === 0) continue;
      const profile = profileOf(media, axis, at, wish, s);
      for (const [from, to] of openStretches(media, profile)) {
        if (!touches(spans[s], from, to)) continue;
        c.push(at);
        side.push(s);
        lo.push(from);
        hi.push(to);
        profiles.push(profile);
      }
    }
  }
  return {
    axis,
    count: c.length,
    c: Float64Array.from(c),
    side: Uint8Array.from(side),
    lo: Float64Array.from(lo),
    hi: Float64Array.from(hi),
    profiles,
    row: media.stretches,
    whole: keep <= 1 && keepMust <= 1,
  };
}

/** The spans that the lines at a coordinate must touch, for each side; all for one where both sides are alike. */
function resolve(
  media: Media,
  axis: 0 | 1,
  at: number,
  { borders, spans, profiles }: Wish,
): readonly [readonly number[], readonly number[]] {
  if (borders.length === 0 && (spans[0].length === 0 || spans[1].length === 0)) return spans;
  profiles[0] ??= media.beside(axis, at, 0);
  profiles[1] ??= media.beside(axis, at, 1);
  const [below, above] = profiles;
  const real: number[] = [];
  for (let i = 0; i < borders.length; i += 2)
    if (differ(below, above, borders[i]!, borders[i + 1]!)) real.push(borders[i]!, borders[i + 1]!);
  const one = [...spans[0], ...real];
  const other = [...spans[1], ...real];
  if (one.length === 0 || other.length === 0 || !sameProfile(below, above)) return [one, other];
  return [[...one, ...other], []];
}

/** Whether two profiles differ somewhere between lo and hi. */
function differ(a: Profile, b: Profile, lo: number, hi: number): boolean {
  let i = stretchAt(a, lo, 1);
  let j = stretchAt(b, lo, 1);
  for (;;) {
    if (a.row.media[i] !== b.row.media[j]) return true;
    const ea = a.row.starts[i + 1]!;
    const eb = b.row.starts[j + 1]!;
    if (Math.min(ea, eb) >= hi) return false;
    if (ea <= eb) i++;
    if (eb <= ea) j++;
  }
}

/** The stretches of a line that nothing bars, as closed intervals. */
function openStretches(media: Media, { row, first, end }: Profile): [number, number][] {
  const open: [number, number][] = [];
  let from: number | null = null;
  for (let k = first; k < end; k++) {
    const start = row.starts[k]!;
    if (media.list[row.media[k]!]!.barred) {
      if (from !== null) open.push([from, start]);
      from = null;
    } else from ??= start;
  }
  if (from !== null) open.push([from, Infinity]);
  return open;
}

function touches(spans: readonly number[], from: number, to: number): boolean {
  for (let i = 0; i < spans.length; i += 2)
    if (spans[i]! <= to && spans[i + 1]! >= from) return true;
  return false;
}

/** The first place in a sorted row whose value is not below this one; its length where all are. */
export function lowerBound(sorted: Float64Array, value: number): number {
  let lo = 0;
  let hi = sorted.length;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (sorted[mid]! < value) lo = mid + 1;
    else hi = mid;
  }
  return lo;
}

/** Lines along x and y, and for each node the lines through it; -1 for none. */
interface Crossed {
  readonly lines: readonly [LineSet, LineSet];
  readonly lineOf: readonly [Int32Array, Int32Array];
}

/** The side on which a node lies along its line: that of the line across. */
export function sideAt(graph: Crossed, axis: 0 | 1, node: number): 0 | 1 {
  const across = graph.lineOf[(1 - axis) as 0 | 1][node]!;
  return across < 0 ? 0 : (graph.lines[(1 - axis) as 0 | 1].side[across] as 0 | 1);
}
