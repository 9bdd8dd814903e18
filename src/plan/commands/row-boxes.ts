import type { Plan, Ref } from '../plan.ts';
import { placesOfRow } from '../row-places.ts';

/** A box along the axes, mm. */
export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** A row with the box round its places. */
export interface Placed {
  readonly ref: Ref;
  readonly box: Box;
}

/** The box round the places of a row; null for what has none of its own, as an opening. */
function boxOf(plan: Plan, ref: Ref): Box | null {
  const places = placesOfRow(plan, ref);
  if (places.length === 0) return null;
  const xs = places.map((p) => p[0]);
  const ys = places.map((p) => p[1]);
  return { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
}

/** The rows that have places of their own. */
export const placedOf = (plan: Plan, refs: readonly Ref[]): Placed[] =>
  refs.flatMap((ref) => {
    const box = boxOf(plan, ref);
    return box ? [{ ref, box }] : [];
  });

/** The box round them all. */
export const around = (placed: readonly Placed[]): Box => ({
  x0: Math.min(...placed.map(({ box }) => box.x0)),
  y0: Math.min(...placed.map(({ box }) => box.y0)),
  x1: Math.max(...placed.map(({ box }) => box.x1)),
  y1: Math.max(...placed.map(({ box }) => box.y1)),
});
