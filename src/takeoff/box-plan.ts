import { inLabelOrder } from '../results/ports.ts';
import type { BoxPlan, BoxUse, Run } from '../results/types.ts';
import { boxBound } from './box-bound.ts';
import { bestFitDecreasing, packBoxes } from './packing.ts';

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
  const first = bestFitDecreasing(sizes, boxLength);
  const bound = boxBound(sizes, boxLength, first.length);
  const boxes = packBoxes(sizes, boxLength, bound, first);
  return {
    boxes: numbered(boxes, fitting, boxLength),
    bound,
    oversize: cut.filter((run) => run.order > boxLength).map((run) => run.jack),
    ...estimates(
      cut.map((run) => run.order),
      boxLength,
    ),
  };
}

/** Boxes numbered in the order of their first labels, each with its runs in the order of theirs; so are all the runs. */
function numbered(
  boxes: readonly (readonly number[])[],
  runs: readonly Run[],
  boxLength: number,
): BoxUse[] {
  return boxes
    .map((box) => box.toSorted((a, b) => a - b))
    .sort((a, b) => a[0]! - b[0]!)
    .map((box, i) => {
      const used = box.reduce((sum, run) => sum + runs[run]!.order, 0);
      const jacks = box.map((run) => runs[run]!.jack);
      return { number: i + 1, jacks, used, left: boxLength - used };
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
