import { groupBy } from '../base/group.ts';
import type { BoxPlan, PriceLine } from '../results/types.ts';
import { t } from '../text/index.ts';

export interface PriceGroup {
  readonly group: PriceLine['group'];
  readonly lines: readonly PriceLine[];
  readonly totalCents: number;
}

/** The lines of a price by group, in the order in which they come, each group with its subtotal. */
export const priceGroups = (lines: readonly PriceLine[]): PriceGroup[] =>
  [...groupBy(lines, (line) => line.group)].map(([group, these]) => ({
    group,
    lines: these,
    totalCents: these.reduce((sum, line) => sum + line.totalCents, 0),
  }));

/** What the box plan is worth: proven best, or how near to the best that can be proven. */
export function boxWords(plan: BoxPlan): string {
  const count = plan.boxes.length;
  if (count === 0) return t('boxes.said.none');
  const oversize =
    plan.oversize.length > 0 ? ` ${t.count('boxes.said.oversize', plan.oversize.length)}` : '';
  const proven =
    count === plan.bound ? t('boxes.said.best') : t('boxes.said.near', { bound: plan.bound });
  return `${proven}${oversize}`;
}
