import { boxAround } from '../drawing/box-grid.ts';
import { ceilingMarks } from '../drawing/ceiling-marks.ts';
import { fontMeasure } from '../drawing/measure.ts';
import type { PlanDrawing, PlanGroup } from '../drawing/plan-marks.ts';
import { job, type Plan } from '../plan/plan.ts';
import type { CeilingPlane } from '../results/ceiling-plane.ts';

/** What gives way to the ceiling plane, and what only stands back for it. */
export const UNDER_PLANE: ReadonlySet<PlanGroup> = new Set([
  'background',
  'zones',
  'keepouts',
  'walls',
  'openings',
  'pathways',
  'crossings',
  'counts',
  'rooms',
  'power',
]);
export const ASIDE_PLANE: ReadonlySet<PlanGroup> = new Set([
  'leaders',
  'outlets',
  'devices',
  'notes',
]);
export const ASIDE = 0.6;

/** What a symbol takes with its label, paper mm; a closet has its name over it. */
const SYMBOL_SIZE = [10, 6] as const;
const CLOSET_SIZE = [26, 10] as const;

/**
 * The ceiling plane: what lies under the cables, and the words for it where symbols leave room.
 *
 * @param paper paper mm for one mm of the building
 */
export function planeLayers(
  plan: Plan,
  plane: CeilingPlane,
  { layers }: PlanDrawing,
  paper: number,
) {
  const taken = layers.flatMap(({ group, marks }) =>
    marks.flatMap((mark) => {
      if (mark.op !== 'symbol') return [];
      const [width, height] = group === 'closets' ? CLOSET_SIZE : SYMBOL_SIZE;
      return [boxAround([mark.at[0] * paper, mark.at[1] * paper], width, height)];
    }),
  );
  const cables = layers.flatMap(({ group, marks }) =>
    group === 'ways' ? marks.flatMap((mark) => (mark.op === 'line' ? [mark.points] : [])) : [],
  );
  const { units } = job(plan);
  const view = { plan, plane, units, measure: fontMeasure, scale: paper, taken, cables };
  const { ground, words } = ceilingMarks(view);
  return { ground: { marks: ground, strength: 1 }, words: { marks: words, strength: 1 } };
}
