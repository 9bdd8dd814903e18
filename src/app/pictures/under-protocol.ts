import type { FoundWalls } from '../../geometry/wall-finder/find-walls.ts';
import type { PackedPage, Placement } from './page-placed.ts';

/** A page whose lines were read, or an SVG whose lines are still to be. */
export type UnderPage = PackedPage | { readonly svg: string };

/** Asks where the lines of a page lie in the plan, and which walls it seems to show where those are wanted. */
export interface UnderAsk {
  readonly page: UnderPage;
  readonly place: Placement;
  readonly walls: boolean;
}

export interface UnderFound {
  readonly lines: Float64Array;
  readonly found: FoundWalls | null;
}

export type UnderAnswer = UnderFound | { readonly failed: string };
