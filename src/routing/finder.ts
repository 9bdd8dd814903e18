import Flatbush from 'flatbush';
import type { Shape } from '../geometry/shape.ts';

/** Finds areas by their bounds. */
export interface Finder {
  /** Numbers of the areas whose bounds touch a box, ascending. */
  near(x0: number, y0: number, x1: number, y1: number): number[];
}

/** An index of areas by their bounds. */
export function finderOf(
  areas: readonly { readonly shape: Pick<Shape, 'x0' | 'y0' | 'x1' | 'y1'> }[],
): Finder {
  if (areas.length === 0) return { near: () => [] };
  const index = new Flatbush(areas.length);
  for (const { shape } of areas) index.add(shape.x0, shape.y0, shape.x1, shape.y1);
  index.finish();
  return { near: (x0, y0, x1, y1) => index.search(x0, y0, x1, y1).sort((a, b) => a - b) };
}
