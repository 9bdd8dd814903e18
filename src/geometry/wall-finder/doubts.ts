import { bareStretches, barIndex, near } from './covering.ts';
import { goesOn } from './in-line.ts';
import type { Joined } from './joints.ts';
import type { Piece } from './straight.ts';

/**
 * Why a wall is offered with doubt: it touches no other, it is very thick, other lines lie between its faces, or another
 * seems to run right beside it, so that one of them may be a lining, a sill or a counter.
 */
export type Doubt = 'alone' | 'thick' | 'between' | 'beside';

/** Thicker walls are offered with doubt, mm. */
const THICK = 420;
/** A pier in a wall may be thicker; it is no longer than this, mm. */
const PIER = 1500;
/** Walls whose faces are nearer than this along most of their length are beside one another, mm. */
const BESIDE = 150;
/** So much of a wall's length must have another beside it. */
const MOST = 0.5;

/** What speaks against each of some walls, in their order. */
export function doubtsOf(walls: readonly Joined<Piece>[]): Doubt[][] {
  const pieces = walls.map(({ of }) => of);
  const index = barIndex(pieces);
  const on = goesOn(walls);
  return walls.map(({ of, meets, goesOn: pier }, i) => {
    const doubts: Doubt[] = [];
    if (meets.length === 0 && !on[i]) doubts.push('alone');
    if (of.thickness > THICK && !(pier && lengthOf(of) <= PIER)) doubts.push('thick');
    if (of.between) doubts.push('between');
    const beside = near(index, of, BESIDE).filter((j) => j !== i && !isLess(walls[j]!, walls[i]!));
    if (
      isBeside(
        of,
        beside.map((j) => pieces[j]!),
      )
    )
      doubts.push('beside');
    return doubts;
  });
}

const lengthOf = ({ a, b }: Piece): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Whether of two that run beside one another the doubt is about the one: it is held at fewer ends, or it is thinner. */
const isLess = (one: Joined<Piece>, other: Joined<Piece>): boolean =>
  one.ends < other.ends ||
  (one.ends === other.ends && one.ends > 0 && one.of.thickness < other.of.thickness);

/** Whether others run beside a wall along most of it. */
function isBeside(wall: Piece, others: readonly Piece[]): boolean {
  const length = lengthOf(wall);
  const bare = bareStretches(wall, others, BESIDE);
  return bare.reduce((sum, [from, to]) => sum + to - from, 0) < (1 - MOST) * length;
}
