import { INCH, type Units } from './units.ts';

/** The step in which lengths are shown: a whole inch, or a centimetre. */
export const shownStep = (units: Units): number => (units === 'ft' ? INCH : 10);

/**
 * Rounds summands so that what is shown adds up: each is rounded down or up to a step, and together they make the
 * rounded total. The ones that lose most by rounding down are rounded up; equal ones in their order.
 *
 * @returns mm, each a multiple of `step`; empty for none
 */
export function apportion(parts: readonly number[], step: number): number[] {
  const total = Math.round(parts.reduce((sum, part) => sum + part, 0) / step);
  // A sum of binary fractions may fall just short of a whole step.
  const steps = parts.map((part) => Math.floor(part / step + 1e-9));
  const missing = total - steps.reduce((sum, n) => sum + n, 0);
  const byLoss = parts
    .map((part, i) => ({ i, loss: part / step - steps[i]! }))
    .sort((a, b) => b.loss - a.loss || a.i - b.i);
  for (const { i } of byLoss.slice(0, missing)) steps[i]! += 1;
  return steps.map((n) => n * step);
}
