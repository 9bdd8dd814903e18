import { type Message, msg } from '../base/message.ts';
import { emptyPlan, type Plan, type Prices, prices } from '../plan/plan.ts';
import type { PriceLine, Survey } from './types.ts';

/** The price book as it is before anybody types in it. Its prices are made up. */
const STARTING = prices(emptyPlan());

/** The price that a line is reckoned with. */
const priceOf = ({ group, part }: PriceLine): keyof Prices =>
  group === 'labour' ? 'labourHour' : (part as keyof Prices);

/** What speaks against sending a price as it stands: runs that are not in it, and prices that are still made up. */
export function priceDoubts(plan: Plan, { runs, price }: Survey): Message[] {
  const lost = runs.filter((run) => run.status === 'unroutable').length;
  return [...(lost > 0 ? [lostRuns(lost)] : []), ...madeUp(plan, price.lines)];
}

const lostRuns = (count: number): Message =>
  count === 1
    ? msg('1 run has no way home: its cable and hours are not in this price.')
    : msg('{count} runs have no way home: their cable and hours are not in this price.', { count });

function madeUp(plan: Plan, lines: readonly PriceLine[]): Message[] {
  const book = prices(plan);
  const used = [...new Set(lines.map(priceOf))];
  const count = used.filter((name) => book[name] === STARTING[name]).length;
  if (count === 0) return [];
  return count === used.length
    ? [msg('All prices here are made up until somebody types the real ones.')]
    : [msg('{count} of {all} prices here are still made up.', { count, all: used.length })];
}
