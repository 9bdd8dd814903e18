import { compareLabels } from '../base/labels.ts';
import type { BoxPlan, BoxUse, Run } from '../results/types.ts';
import { boxBound } from './box-bound.ts';
import { packBoxes } from './packing.ts';
import { inLabelOrder } from './ports.ts';

/**
 * Which run is cut from which box: whole runs only, in as few boxes as the search finds; never fewer than `bound`,
 * so a plan with `bound` boxes is proven to be the best, and one with more may or may not be.
 *
 * Runs without a way take no cable. Runs longer than a box are in no box; they are listed in `oversize`.
 *
 * @param boxLength length of cable in a box, mm
 */
export function boxPlan(runs: readonly Run[], boxLength: number): BoxPlan {
  const cut = inLabelOrder(runs).filter((run) => run.status !== 'unroutable' && run.order > 0);
  const fitting = cut.filter((run) => run.order <= boxLength);
  const sizes = fitting.map((run) => run.order);
  const bound = boxBound(sizes, boxLength);
  const boxes = packBoxes(sizes, boxLength, bound).map((box) => box.map((i) => fitting[i]!));
  return {
    boxes: numbered(boxes, boxLength),
    bound,
    oversize: cut.filter((run) => run.order > boxLength).map((run) => run.jack),
    ...estimates(
      cut.map((run) => run.order),
      boxLength,
    ),
  };
}

/** Boxes numbered in the order of their first labels, each with its runs in the order of theirs. */
function numbered(boxes: readonly (readonly Run[])[], boxLength: number): BoxUse[] {
  return boxes
    .map((box) => inLabelOrder(box))
    .sort(
      (a, b) => compareLabels(a[0]!.label, b[0]!.label) || compareLabels(a[0]!.jack, b[0]!.jack),
    )
    .map((box, i) => {
      const used = box.reduce((sum, run) => sum + run.order, 0);
      return { number: i + 1, jacks: box.map((run) => run.jack), used, left: boxLength - used };
    });
}

/**
 * What two rules of thumb say of the number of boxes, to stand beside the plan: the total over the box length, and
 * the count of runs over how many runs of average length one box holds whole. Where the average run is longer than
 * a box, both say the same.
 */
export function estimates(
  lengths: readonly number[],
  boxLength: number,
): { byLength: number; byAverage: number } {
  const total = lengths.reduce((sum, length) => sum + length, 0);
  if (total === 0) return { byLength: 0, byAverage: 0 };
  const byLength = Math.ceil(total / boxLength);
  const perBox = Math.floor((boxLength * lengths.length) / total);
  return { byLength, byAverage: perBox === 0 ? byLength : Math.ceil(lengths.length / perBox) };
}
