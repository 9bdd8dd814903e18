import type { Id } from '../base/ids.ts';
import type { FoundWalls } from '../geometry/wall-finder/find-walls.ts';

/** What one background shows that is a drawing, as far as it was read. */
export interface UnderSheet {
  readonly background: Id;
  /** `pixels`: a scan or a photo, which has no lines to be read; `failed`: its file could not be read. */
  readonly state: 'reading' | 'pixels' | 'failed' | 'read';
  /** Its straight lines where they lie in the plan, mm, not rounded: ax, ay, bx and by of each. */
  readonly lines: Float64Array;
  /** The walls that it seems to show; null while nobody has asked for them, or while it has no scale. */
  readonly found: FoundWalls | null;
}

/** What lies under the board on one level: a sheet for each background that is shown. */
export interface Underlay {
  readonly level: Id;
  readonly sheets: readonly UnderSheet[];
}
