import { barIndex, near } from './covering.ts';
import type { Joined } from './joints.ts';
import type { Piece } from './straight.ts';

/** A doorway or a wide opening is no wider, mm: what lies in one line beyond it is the same wall. */
const OPENING = 1600;
/** How far beside, and how much thicker or thinner, the same wall may be drawn beyond an opening, mm. */
const LIKE = 4;
/** A piece runs the same way as another if it turns by no more than this: the sine of a quarter of a degree. */
const TURN = 0.0044;

/** Whether each of some walls goes on in the line of one that others meet, beyond an opening. */
export function goesOn(walls: readonly Joined<Piece>[]): boolean[] {
  const pieces = walls.map(({ of }) => of);
  const index = barIndex(pieces);
  return walls.map(({ of, meets }, i) => {
    if (meets.length > 0) return false;
    return near(index, of, OPENING).some(
      (other) => other !== i && walls[other]!.meets.length > 0 && inLine(of, pieces[other]!),
    );
  });
}

function inLine(piece: Piece, other: Piece): boolean {
  if (Math.abs(piece.thickness - other.thickness) > LIKE) return false;
  const [dx, dy] = [other.b[0] - other.a[0], other.b[1] - other.a[1]];
  const length = Math.hypot(dx, dy);
  const [u, v] = [dx / length, dy / length];
  const places = [piece.a, piece.b].map(([x, y]) => {
    const [px, py] = [x - other.a[0], y - other.a[1]];
    return [px * u + py * v, py * u - px * v] as const;
  });
  const long = Math.abs(places[0]![0] - places[1]![0]);
  if (places.some(([, aside]) => Math.abs(aside) > LIKE)) return false;
  if (Math.abs(places[0]![1] - places[1]![1]) > Math.max(1, TURN * long)) return false;
  const from = Math.min(places[0]![0], places[1]![0]);
  return from - length <= OPENING && from + long >= -OPENING;
}
