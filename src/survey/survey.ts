import type { KindRegistry } from '../kinds/kind.ts';
import type { Plan } from '../plan/plan.ts';
import type { CeilingPlane } from '../results/ceiling-plane.ts';
import type { ClosetStudy, Survey } from '../results/types.ts';
import { ceilingPlane, createRouter, studyClosets } from '../routing/index.ts';
import { checkRules } from '../rules/index.ts';
import { takeoff } from '../takeoff/index.ts';

/**
 * The one way from a plan to everything that follows from it. The surveyor remembers its last plan, so that a change
 * costs what it touched; the answer is the same as from a new one.
 */
export function createSurveyor(kinds: KindRegistry): (plan: Plan) => Survey {
  const router = createRouter();
  return (plan) => {
    const { runs, ways, inexact } = router.homeRuns(plan);
    const off = takeoff(plan, runs, ways);
    const findings = checkRules({ plan, kinds, runs, ways, boxPlan: off.boxPlan, inexact });
    return { runs, ways, findings, ...off };
  };
}

/** What one more closet would do: asked for by itself, since it takes a search from every room. */
export const closetStudy = (plan: Plan): ClosetStudy =>
  studyClosets(plan, createRouter().homeRuns(plan).runs);

/** What a cable may do overhead, level by level: asked for by itself, when somebody looks at it. */
export const ceilingPlanes = (plan: Plan): CeilingPlane[] =>
  [...plan.tables.levels.keys()].flatMap((level) => ceilingPlane(plan, level) ?? []);
