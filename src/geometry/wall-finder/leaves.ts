import { type Face, gapsBetween } from './faces.ts';

/** The leaf of a door is drawn as thick and as wide as this, mm (common practice, no source). */
const THINNEST = 20;
const THICKEST = 60;
const NARROWEST = 500;
const WIDEST = 1300;
/** Its two sides end side by side within this, mm; where it hangs, one may go on in a line of the frame. */
const EVEN = 10;
const FRAME = 150;

/** Faces without the sides of leaves of doors, which stand open before walls. */
export function withoutLeaves(faces: readonly Face[]): Face[] {
  const sides = new Set<Face>();
  for (const { low, high } of gapsBetween(faces, THICKEST))
    if (isLeaf(low, high)) sides.add(low).add(high);
  return sides.size === 0 ? [...faces] : faces.filter((face) => !sides.has(face));
}

function isLeaf(low: Face, high: Face): boolean {
  const width = Math.min(low.x1, high.x1) - Math.max(low.x0, high.x0);
  const ends = [Math.abs(low.x0 - high.x0), Math.abs(low.x1 - high.x1)];
  return (
    high.y - low.y >= THINNEST &&
    width >= NARROWEST &&
    width <= WIDEST &&
    Math.min(...ends) <= EVEN &&
    Math.max(...ends) <= FRAME
  );
}
