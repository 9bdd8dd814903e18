import { readFileSync } from 'node:fs';
import { kinds } from '../../../src/kinds/index.ts';
import { readPlan } from '../../../src/plan/codec.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import type { Survey } from '../../../src/results/types.ts';
import { createSurveyor } from '../../../src/survey/survey.ts';

/** The invented restaurant that the program ships as its sample. */
export function samplePlan(): Plan {
  const text = readFileSync(
    new URL('../../../public/samples/restaurant.json', import.meta.url),
    'utf8',
  );
  const read = readPlan(text, new Set(kinds.keys()));
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'));
  return read.value.plan;
}

/** What the survey says of a plan. */
export const surveyOf = (plan: Plan): Survey => createSurveyor(kinds)(plan);

/** The fonts that the program ships. */
export function fontBytes() {
  const font = (file: string) =>
    new Uint8Array(readFileSync(new URL(`../../../public/fonts/${file}`, import.meta.url)));
  return {
    sans: font('AtkinsonHyperlegibleNext_400Regular.ttf'),
    'sans-bold': font('AtkinsonHyperlegibleNext_700Bold.ttf'),
    mono: font('AtkinsonHyperlegibleMono_400Regular.ttf'),
    'mono-bold': font('AtkinsonHyperlegibleMono_700Bold.ttf'),
  };
}
