import type { Point } from '../point.ts';
import { type Body, thicknessOf } from './bodies.ts';
import { byDirection, type Direction, type Level, outOf } from './directions.ts';
import type { Face } from './faces.ts';

/** A straight piece of what may be a wall: the middle of its body from end to end. */
export interface Piece {
  readonly a: Point;
  readonly b: Point;
  readonly thickness: number;
  readonly how: 'pair' | 'filled';
  readonly between: boolean;
  /** The lines that it lies between, where it was made of two. */
  readonly faces: readonly Face[];
  /** Where it is a window, from end to end. */
  readonly windows: readonly (readonly [Point, Point])[];
}

/** The middle of a body, back in the drawing. */
export function pieceOf(direction: Direction, body: Body, how: Piece['how']): Piece {
  const y = (body.low.y + body.high.y) / 2;
  return {
    a: outOf(direction, [body.x0, y]),
    b: outOf(direction, [body.x1, y]),
    thickness: thicknessOf(body),
    how,
    between: body.between,
    faces: [body.low, body.high],
    windows: body.windows.map(
      ([from, to]) => [outOf(direction, [from, y]), outOf(direction, [to, y])] as const,
    ),
  };
}

/** Pieces in one line are one wall if their thickness differs by no more, mm, and they lie no farther beside. */
const LIKE = 4;
/** Pieces with no more than a mullion between them go on, mm. */
const TOUCH = 60;
/** One face goes on over a gap in the other where a wall comes in: no wider than such a wall, mm. */
const THROUGH = 650;

/** Puts together the pieces of one wall: those that touch, and those whose one face goes on where a wall comes in. */
export function straightWalls(pieces: readonly Piece[]): Piece[] {
  return byDirection(pieces, 0).flatMap(({ direction, lines }) => {
    const sorted = [...lines].sort((p, q) => p.y - q.y);
    const out: Piece[] = [];
    for (let i = 0; i < sorted.length; ) {
      let end = i + 1;
      while (end < sorted.length && sorted[end]!.y - sorted[end - 1]!.y <= LIKE / 2) end++;
      out.push(...inOneLine(direction, sorted.slice(i, end)));
      i = end;
    }
    return out;
  });
}

function inOneLine(direction: Direction, line: readonly Level<Piece>[]): Piece[] {
  const open: Level<Piece>[] = [];
  for (const next of [...line].sort((p, q) => p.x0 - q.x0)) {
    const before = open.findLastIndex((one) => continues(one, next));
    if (before < 0) open.push(next);
    else open[before] = together(open[before]!, next);
  }
  return open.map(({ of, x0, x1, y }) => ({
    ...of,
    a: outOf(direction, [x0, y]),
    b: outOf(direction, [x1, y]),
  }));
}

function continues(one: Level<Piece>, next: Level<Piece>): boolean {
  if (Math.abs(one.y - next.y) > LIKE) return false;
  if (Math.abs(one.of.thickness - next.of.thickness) > LIKE) return false;
  const gap = next.x0 - one.x1;
  if (gap <= TOUCH) return true;
  return gap <= THROUGH && next.of.faces.some((face) => one.of.faces.includes(face));
}

function together(one: Level<Piece>, next: Level<Piece>): Level<Piece> {
  const [p, q] = [one.x1 - one.x0, next.x1 - next.x0];
  const mean = (a: number, b: number) => (a * p + b * q) / (p + q || 1);
  return {
    x0: one.x0,
    x1: Math.max(one.x1, next.x1),
    y: mean(one.y, next.y),
    of: {
      ...one.of,
      thickness: mean(one.of.thickness, next.of.thickness),
      how: one.of.how === 'filled' || next.of.how === 'filled' ? 'filled' : 'pair',
      between: one.of.between || next.of.between,
      faces: [...one.of.faces, ...next.of.faces],
      windows: [...one.of.windows, ...next.of.windows],
    },
  };
}
