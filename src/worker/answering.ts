import type { Plan, Tables } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';
import type { Answer, Ask } from './protocol.ts';

/** Answers questions one after another; tables that a question leaves out are those of the question before. */
export function createAnswerer(survey: (plan: Plan) => Survey): (ask: Ask) => Answer {
  let tables: Partial<Tables> = {};
  return ({ id, tables: changed }) => {
    tables = { ...tables, ...changed };
    try {
      return { id, survey: survey({ tables: tables as Tables }) };
    } catch (error) {
      return { id, failed: error instanceof Error ? error.message : String(error) };
    }
  };
}
