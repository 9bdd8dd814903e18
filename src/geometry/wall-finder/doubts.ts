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
/** Walls whose faces are nearer than this along most of their length are beside one another, mm. */
const BESIDE = 150;
/** So much of a wall's length must have another beside it. */
const MOST = 0.5;

/** What speaks against each of some walls, in their order. */
export function doubtsOf(walls: readonly Joined<Piece>[]): Doubt[][] {
  const pieces = walls.map(({ of }) => of);
  const index = barIndex(pieces);
  const on = goesOn(walls);
  return walls.map(({ of, meets }, i) => {
    const doubts: Doubt[] = [];
    if (meets.length === 0 && !on[i]) doubts.push('alone');
    if (of.thickness > THICK) doubts.push('thick');
    if (of.between) doubts.push('between');
    const around = near(index, of, BESIDE).filter((other) => other !== i);
    if (
      isBeside(
        of,
        around.map((other) => pieces[other]!),
      )
    )
      doubts.push('beside');
    return doubts;
  });
}

/** Whether others run beside a wall along most of it. */
function isBeside(wall: Piece, others: readonly Piece[]): boolean {
  const length = Math.hypot(wall.b[0] - wall.a[0], wall.b[1] - wall.a[1]);
  const bare = bareStretches(wall, others, BESIDE);
  return bare.reduce((sum, [from, to]) => sum + to - from, 0) < (1 - MOST) * length;
}
