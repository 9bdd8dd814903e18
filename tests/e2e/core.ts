import { readFileSync } from 'node:fs';
import { kinds } from '../../src/kinds/index.ts';
import { readPlan, writePlan } from '../../src/plan/codec.ts';
import { emptyPlan, type Plan } from '../../src/plan/plan.ts';
import type { Survey } from '../../src/results/types.ts';
import { createSurveyor } from '../../src/survey/survey.ts';

/** The plan in a job file; throws with the issues of one that cannot be read. */
export function planOf(text: string): Plan {
  const read = readPlan(text, new Set(kinds.keys()));
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value.plan;
}

/** A sample of the built site, as it lies in the project. */
export const sampleText = (id: 'restaurant' | 'cafe'): string =>
  readFileSync(new URL(`../../public/samples/${id}.json`, import.meta.url), 'utf8');

/** What the core says of a plan, computed here in Node from nothing. */
export const surveyOf = (plan: Plan): Survey => createSurveyor(kinds)(plan);

/** The job on a blank sheet as a file. */
export const blankText = (): string => writePlan(emptyPlan());

/** The first issue that the core has with a file, as it would be said. */
export function issueOf(text: string): string {
  const read = readPlan(text, new Set(kinds.keys()));
  if (read.ok) throw new Error('this file is good');
  return read.issues[0]!.message;
}

export { kinds };
