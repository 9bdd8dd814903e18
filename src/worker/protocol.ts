import type { Tables } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';

/**
 * The whole wire format between the screen and the survey: one question, one answer, in order. Everything travels by
 * structured clone.
 */

/** A question. Tables that are the same as in the question before are left out. */
export interface Ask {
  readonly id: number;
  readonly tables: Partial<Tables>;
}

/** The survey of the plan that was asked about, or why there is none. */
export type Answer =
  | { readonly id: number; readonly survey: Survey }
  | { readonly id: number; readonly failed: string };
