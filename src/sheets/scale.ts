import type { Units } from '../base/units.ts';

/** A scale that drawings are made to: how many times smaller than the building, and how it is written. */
export interface DrawingScale {
  readonly ratio: number;
  readonly words: string;
}

/** Architect's scales in inches to the foot, largest first (the usual set of a drafting scale). */
const ARCHITECT: readonly DrawingScale[] = [
  { ratio: 12, words: '1" = 1\'-0"' },
  { ratio: 16, words: '3/4" = 1\'-0"' },
  { ratio: 24, words: '1/2" = 1\'-0"' },
  { ratio: 32, words: '3/8" = 1\'-0"' },
  { ratio: 48, words: '1/4" = 1\'-0"' },
  { ratio: 64, words: '3/16" = 1\'-0"' },
  { ratio: 96, words: '1/8" = 1\'-0"' },
  { ratio: 128, words: '3/32" = 1\'-0"' },
  { ratio: 192, words: '1/16" = 1\'-0"' },
  { ratio: 384, words: '1/32" = 1\'-0"' },
];

/** Scales of the 1-2-5 row for building drawings (ISO 5455). */
const METRIC: readonly DrawingScale[] = [20, 50, 100, 200, 500].map((ratio) => ({
  ratio,
  words: `1:${ratio}`,
}));

/** The scales that drawings are made at, largest first, in the units of the job. */
export const standardScales = (units: Units): readonly DrawingScale[] =>
  units === 'ft' ? ARCHITECT : METRIC;

/**
 * The largest standard scale at which a building part fits into a window.
 *
 * @param size the part, mm
 * @param window the paper, mm, free of margins
 * @returns null when it is too large even for the smallest
 */
export function largestScale(
  units: Units,
  size: { readonly width: number; readonly height: number },
  window: { readonly width: number; readonly height: number },
): DrawingScale | null {
  return (
    standardScales(units).find(
      ({ ratio }) => size.width / ratio <= window.width && size.height / ratio <= window.height,
    ) ?? null
  );
}
