import type { SentRow } from '../plan/sent-rows.ts';
import type { CeilingPlane } from '../results/ceiling-plane.ts';
import type { ClosetStudy, Run, Survey } from '../results/types.ts';

/**
 * The whole wire format between the screen and the survey: one question, one answer, in order. Everything travels by
 * structured clone, which makes a new object of each row; so only what changed is sent, and what did not stays the
 * same object at the other end, where results are remembered by it.
 */

/** A question: the rows that are not as in the question before, null for one that is gone. */
export interface Ask {
  readonly id: number;
  readonly rows: readonly SentRow[];
  /** What is asked of the plan. */
  readonly want: 'survey' | 'closets' | 'ceilings';
}

/** The survey of the plan that was asked about, or why there is none. */
export type Answer =
  | { readonly id: number; readonly survey: PackedSurvey }
  | { readonly id: number; readonly closets: ClosetStudy }
  | { readonly id: number; readonly ceilings: readonly CeilingPlane[] }
  | { readonly id: number; readonly failed: string };

/**
 * A survey as it travels. Runs that are the same as in the answer before are named by their place there: a move
 * changes few of hundreds, and the screen draws anew only what is another object.
 */
export interface PackedSurvey extends Omit<Survey, 'runs'> {
  readonly runs: readonly (Run | number)[];
}

/** Packs a survey against the runs of the answer before. */
export function pack(survey: Survey, before: readonly Run[]): PackedSurvey {
  const places = new Map(before.map((run, place) => [run, place]));
  return { ...survey, runs: survey.runs.map((run) => places.get(run) ?? run) };
}

/** Unpacks a survey with the runs of the answer before. Throws on a place that is not there. */
export function unpack(packed: PackedSurvey, before: readonly Run[]): Survey {
  const runs = packed.runs.map((run) => {
    const found = typeof run === 'number' ? before[run] : run;
    if (!found) throw new Error(`the answer before has no run ${run}`);
    return found;
  });
  return { ...packed, runs };
}
