import type { Point } from '../point.ts';
import { withoutAxes, withoutDashes } from './axes.ts';
import { bodiesBetween, THICKEST } from './bodies.ts';
import { hullOf, withoutBorders } from './borders.ts';
import { type Bar, bareStretches, barIndex, near } from './covering.ts';
import { byDirection, type Line } from './directions.ts';
import { type Doubt, doubtsOf } from './doubts.ts';
import { type Face, facesOf } from './faces.ts';
import { bodiesInside } from './fills.ts';
import { goesOn } from './in-line.ts';
import { jambsIn } from './jambs.ts';
import { type Joined, joinEnds } from './joints.ts';
import { withoutLeaves } from './leaves.ts';
import { type Piece, pieceOf, straightWalls } from './straight.ts';

/** What a drawing shows, in mm of the building. */
export interface Drawn {
  /** Straight strokes with their breadth. */
  readonly lines: readonly (Line & { readonly width: number })[];
  /** Filled shapes, each with its rings. */
  readonly fills: readonly (readonly (readonly Point[])[])[];
}

/** A wall that a drawing seems to show; its places are whole mm, its thickness is measured. */
export interface WallOffer extends Bar {
  readonly how: 'pair' | 'filled';
  readonly doubts: readonly Doubt[];
  /** Its windows, by how far the middle of each lies from its end `a`; whole mm. */
  readonly windows: readonly { readonly along: number; readonly width: number }[];
}

export interface FoundWalls {
  readonly offers: readonly WallOffer[];
  /** How many long lines and filled shapes make no wall that could be understood. */
  readonly left: number;
}

/** A direction in which less is drawn than this has no walls, mm. */
const LEAST_DIRECTION = 1000;
/** A stroke this broad is the body of a wall, mm; a finer one is a face. */
const BROAD = 85;
/** A line from this length on is counted where nothing came of it, mm. */
const LONG = 1000;
/** What touches no wall must be so long, mm, and not too thick to be a wall by itself. */
const ALONE = 1000;
const ALONE_THICKEST = 320;
const SHORTEST = 150;
/** A window of which no more is left is none, mm. */
const LEAST_WINDOW = 300;

/**
 * Finds what a drawing shows of walls: two long lines side by side with nothing between, and filled bars. Hatches,
 * stairs, tables, borders and small things are left out, and whatever else was not understood.
 *
 * Works in the time of a sort: a sweep across each direction, and an index of boxes.
 */
export function findWalls({ lines, fills }: Drawn): FoundWalls {
  const fine = lines.filter(({ width }) => width < BROAD);
  const pairs = pairsIn(fine);
  const bars = barsIn(lines, fills);
  const pieces = straightWalls([
    ...bars.pieces,
    ...withoutDoubles(pairs.pieces, straightWalls(bars.pieces)),
  ]);
  const walls = standing(pieces, hullOf([...lines, ...bars.pieces]));
  const doubts = doubtsOf(walls);
  const used = new Set(walls.flatMap(({ of }) => of.faces));
  return {
    offers: walls
      .map((wall, i) => offerOf(wall, doubts[i]!))
      .filter(({ a, b }) => a[0] !== b[0] || a[1] !== b[1]),
    left: pairs.faces.filter((face) => face.x1 - face.x0 >= LONG && !used.has(face)).length,
  };
}

function pairsIn(lines: readonly Line[]): { pieces: Piece[]; faces: Face[] } {
  const [pieces, faces]: [Piece[], Face[]] = [[], []];
  const jambs = jambsIn(lines);
  for (const { direction, lines: levels } of byDirection(lines, LEAST_DIRECTION)) {
    const own = withoutLeaves(withoutAxes(withoutDashes(facesOf(levels)), THICKEST));
    faces.push(...own);
    for (const body of bodiesBetween(own, jambs(direction)))
      pieces.push(pieceOf(direction, body, 'pair'));
  }
  return { pieces, faces };
}

/** Filled bars: parts of filled shapes, and strokes as broad as a wall. */
function barsIn(lines: Drawn['lines'], fills: Drawn['fills']): { pieces: Piece[] } {
  const pieces = fills.flatMap((rings) =>
    bodiesInside(rings).flatMap(({ direction, bodies }) =>
      bodies.map((body) => pieceOf(direction, body, 'filled')),
    ),
  );
  for (const { a, b, width } of lines)
    if (width >= BROAD && width <= THICKEST && Math.hypot(b[0] - a[0], b[1] - a[1]) >= 2 * width)
      pieces.push({
        a,
        b,
        thickness: width,
        how: 'filled',
        between: false,
        faces: [],
        windows: [],
      });
  return { pieces };
}

/** Pairs without what a filled bar shows already: the outline of a wall that is filled. */
function withoutDoubles(pairs: readonly Piece[], bars: readonly Piece[]): Piece[] {
  const index = barIndex(bars);
  return pairs.flatMap((pair) => {
    const around = near(index, pair, 0).map((i) => bars[i]!);
    if (around.length === 0) return [pair];
    return bareStretches(pair, around)
      .filter(([from, to]) => to - from > pair.thickness)
      .map(([from, to]) => ({ ...pair, a: along(pair, from), b: along(pair, to) }));
  });
}

function along({ a, b }: Line, by: number): Point {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return [a[0] + ((b[0] - a[0]) * by) / length, a[1] + ((b[1] - a[1]) * by) / length];
}

/** The pieces that stand as walls, joined; over again while something falls, since what falls carries nothing. */
function standing(pieces: readonly Piece[], hull: readonly Point[]): Joined<Piece>[] {
  let now: readonly Piece[] = pieces;
  for (;;) {
    const joined = joinEnds(now);
    const on = goesOn(joined);
    const firm = joined.filter((wall, i) => stands(wall, on[i]!));
    const kept = firm.length < joined.length ? firm : withoutBorders(joined, hull);
    if (kept.length === joined.length) return joined;
    now = kept.map(({ of }) => of);
  }
}

const lengthOf = ({ a, b }: Line): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

function stands({ of, meets, ends, goesOn: pier }: Joined<Piece>, inLine: boolean): boolean {
  const length = lengthOf(of);
  if (meets.length === 0 && !inLine)
    return length >= ALONE && length >= 5 * of.thickness && of.thickness <= ALONE_THICKEST;
  const held = ends === 2 || inLine;
  return length >= SHORTEST && length >= (held ? (pier ? 0.5 : 0.8) : 1.5) * of.thickness;
}

function offerOf({ of, a, b }: Joined<Piece>, doubts: readonly Doubt[]): WallOffer {
  const whole = (p: Point): Point => [Math.round(p[0]) + 0, Math.round(p[1]) + 0];
  return {
    a: whole(a),
    b: whole(b),
    thickness: Math.round(of.thickness),
    how: of.how,
    doubts,
    windows: windowsAlong({ a: whole(a), b: whole(b) }, of.windows),
  };
}

/** Windows as they lie along a wall, no farther than its ends; none of those of which too little is left. */
function windowsAlong({ a, b }: Line, windows: Piece['windows']): WallOffer['windows'] {
  const length = lengthOf({ a, b });
  const at = ([x, y]: Point): number =>
    Math.max(
      0,
      Math.min(length, ((x - a[0]) * (b[0] - a[0]) + (y - a[1]) * (b[1] - a[1])) / length),
    );
  return windows
    .map(([p, q]) => [at(p), at(q)] as const)
    .map(([p, q]) => ({
      along: Math.round((p + q) / 2),
      width: Math.floor(Math.abs(p - q)),
    }))
    .filter(({ width }) => width >= LEAST_WINDOW);
}
