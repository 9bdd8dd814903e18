import { distance } from '../geometry/nearest.ts';
import { hasScale } from '../plan/picture-place.ts';
import type { Background } from '../plan/plan.ts';
import { formatPercent } from '../text/index.ts';

/** Which way a known length runs on the drawing as it is turned now. */
export type Axis = 'across' | 'down' | 'slant';

/** Up to here a check counts as right: the width of a pencil line in a long dimension; common practice, no source. */
export const RIGHT_WITHIN = 0.005;
/** Beyond here the scale is wrong: at 2 % a 50 m run is out by a metre; common practice, no source. */
export const OFF_BEYOND = 0.02;

export interface ScaleOutcome {
  /** What the drawing measures along the check, and what the user typed for it, mm. */
  readonly measured: number;
  readonly real: number;
  /** Measured over real, less one: above zero the drawing is too long that way. */
  readonly error: number;
  /** The size of the error in words: `1.2 %`. */
  readonly by: string;
  readonly verdict: 'right' | 'near' | 'off';
  readonly axis: Axis;
  /**
   * What the check says of the picture: of both ways, where it runs another way than the length that set the scale; of
   * its own way alone; or of a printed scale, which no line has set.
   */
  readonly covers: 'both' | 'one' | 'printed';
}

/** What the check length says of a background's scale; null while one of the two is missing. */
export function scaleOutcome(background: Background): ScaleOutcome | null {
  const { scale, check, mmPerPixel } = background;
  if (!hasScale(background) || check === null) return null;
  const measured = distance(check.a, check.b) * mmPerPixel;
  const error = measured / check.length - 1;
  const size = Math.abs(error);
  const axis = axisOf(background, check.a, check.b);
  return {
    measured,
    real: check.length,
    error,
    by: formatPercent(size),
    verdict: size <= RIGHT_WITHIN ? 'right' : size <= OFF_BEYOND ? 'near' : 'off',
    axis,
    covers:
      scale === null ? 'printed' : axis === axisOf(background, scale.a, scale.b) ? 'one' : 'both',
  };
}

/** The way of a line on the picture; a quarter turn swaps across and down. */
export function axisOf(
  background: Pick<Background, 'turn'>,
  a: readonly [number, number],
  b: readonly [number, number],
): Axis {
  const swapped = background.turn === 90 || background.turn === 270;
  const [dx, dy] = swapped ? [b[1] - a[1], b[0] - a[0]] : [b[0] - a[0], b[1] - a[1]];
  if (Math.abs(dx) >= 3 * Math.abs(dy)) return 'across';
  if (Math.abs(dy) >= 3 * Math.abs(dx)) return 'down';
  return 'slant';
}
