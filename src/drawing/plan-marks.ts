import { atOnce, type Steps } from '../base/steps.ts';
import { job, type Plan } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';
import { crossingMarks } from './crossing-marks.ts';
import { deviceMarks, findingMarks } from './device-marks.ts';
import type { Mark } from './display.ts';
import { makeField } from './label-place.ts';
import { noteMarks, openingMarks } from './opening-marks.ts';
import { pathwayMarks, pathwayNames } from './pathway-marks.ts';
import { pinMarks } from './pin-marks.ts';
import {
  type Drafting,
  type LeftOut,
  PLAN_GROUPS,
  type PlanDrawing,
  type PlanGroup,
  type PlanView,
} from './plan-view.ts';
import { riserMarks } from './riser-marks.ts';
import { backgroundMarks, keepoutMarks, roomTags, wallMarks, zoneMarks } from './room-marks.ts';
import { countMarks, wayMarks } from './way-marks.ts';

export type { LeftOut, PlanDrawing, PlanGroup, PlanView } from './plan-view.ts';
export { GROUP_TITLES, PLAN_GROUPS } from './plan-view.ts';

/**
 * Draws a level: what was decided and what the survey found, with symbols and type at paper size and labels in free
 * room. The same plan, survey and view give the same drawing. A level that is not there gives an empty one.
 */
export const planMarks = (plan: Plan, survey: Survey | null, view: PlanView): PlanDrawing =>
  atOnce(planSteps(plan, survey, view));

/** The same, step by step. */
export function* planSteps(plan: Plan, survey: Survey | null, view: PlanView): Steps<PlanDrawing> {
  const urgent = new Set<string>();
  let best = yield* attempt(plan, survey, view, urgent);
  let last = best;
  for (let n = 1; n < (view.attempts ?? 1) && last.leftOut.length > 0; n++) {
    for (const { group, what } of last.leftOut) urgent.add(`${group} ${what}`);
    last = yield* attempt(plan, survey, view, urgent);
    if (weight(last) < weight(best)) best = last;
  }
  return best;
}

/** How bad it is that something is not shown: a jack or a device far worse than a name. */
const weight = ({ leftOut }: PlanDrawing): number =>
  leftOut.reduce(
    (sum, { group }) => sum + (group === 'outlets' || group === 'devices' ? 100 : 1),
    0,
  );

function* attempt(
  plan: Plan,
  survey: Survey | null,
  view: PlanView,
  urgent: ReadonlySet<string>,
): Steps<PlanDrawing> {
  const marks = new Map<PlanGroup, Mark[]>(PLAN_GROUPS.map((group) => [group, []]));
  const leftOut: LeftOut[] = [];
  const { bounds, scale } = view;
  const drafting: Drafting = {
    plan,
    survey,
    view,
    units: job(plan).units,
    field: makeField(
      bounds
        ? {
            x0: bounds.x0 * scale,
            y0: bounds.y0 * scale,
            x1: bounds.x1 * scale,
            y1: bounds.y1 * scale,
          }
        : null,
    ),
    wants: (group) => view.groups?.has(group) ?? true,
    put: (group, ...more) => {
      marks.get(group)!.push(...more);
    },
    leaveOut: (group, what) => {
      leftOut.push({ group, what });
    },
    urgent: (group, what) => urgent.has(`${group} ${what}`),
  };
  backgroundMarks(drafting);
  zoneMarks(drafting);
  keepoutMarks(drafting);
  yield* wallMarks(drafting);
  openingMarks(drafting);
  yield;
  pathwayMarks(drafting);
  yield;
  wayMarks(drafting);
  noteMarks(drafting);
  yield;
  // From here on each takes its room on paper, so that the first has the best: symbols, counts, labels, names.
  const riserNames = riserMarks(drafting);
  const labels = yield* deviceMarks(drafting);
  const pinNames = pinMarks(drafting);
  crossingMarks(drafting);
  yield;
  countMarks(drafting);
  yield;
  yield* labels();
  riserNames();
  pinNames();
  yield;
  findingMarks(drafting);
  yield;
  yield* roomTags(drafting);
  yield;
  pathwayNames(drafting);
  const layers = PLAN_GROUPS.map((group) => ({ group, marks: marks.get(group)! }));
  return { layers: layers.filter((layer) => layer.marks.length > 0), leftOut };
}
