import type { Plan } from '../plan/plan.ts';
import { noRows, withRows } from '../plan/sent-rows.ts';
import type { CeilingPlane } from '../results/ceiling-plane.ts';
import type { ClosetStudy, Survey } from '../results/types.ts';
import { type Answer, type Ask, type Lists, NO_LISTS, pack } from './protocol.ts';

/** What answers each kind of question. */
export interface Engines {
  survey(plan: Plan): Survey;
  closets(plan: Plan): ClosetStudy;
  ceilings(plan: Plan): readonly CeilingPlane[];
}

/** Answers questions one after another; rows that a question leaves out are those of the question before. */
export function createAnswerer({ survey, closets, ceilings }: Engines): (ask: Ask) => Answer {
  let plan = noRows();
  let last: Lists = NO_LISTS;
  return ({ id, rows, want }) => {
    plan = withRows(plan, rows);
    try {
      if (want === 'closets') return { id, closets: closets(plan) };
      if (want === 'ceilings') return { id, ceilings: ceilings(plan) };
      const whole = survey(plan);
      const packed = pack(whole, last);
      last = whole;
      return { id, survey: packed };
    } catch (error) {
      return { id, failed: error instanceof Error ? error.message : String(error) };
    }
  };
}
