import { msg } from '../base/message.ts';
import { settings } from '../plan/plan.ts';
import type { Rule } from './rule.ts';
import { CABLING } from './sources.ts';
import { atJack } from './spots.ts';

/** A run takes more cable in one piece than a box holds. */
export const longerThanBox: Rule = {
  id: 'longer-than-box',
  title: msg('A run is longer than a box of cable'),
  severity: 'warning',
  source: { document: CABLING, clause: 'horizontal cable is one piece, without splices' },
  limits: [
    {
      name: 'length to order for one run',
      value: { setting: 'boxLength' },
      clause: 'a box of 1000 ft is 304.8 m',
    },
  ],
  check({ plan, runs, boxPlan }) {
    const oversize = new Set(boxPlan.oversize);
    return runs
      .filter((run) => oversize.has(run.jack))
      .map((run) => ({
        ...atJack(plan, run),
        message: msg('The cable of {label} takes {order} in one piece; a box holds {box}.', {
          label: run.label,
          order: { mm: run.order },
          box: { mm: settings(plan).boxLength },
        }),
        remedy: msg('Buy cable on a longer reel for it. A run is never spliced.'),
        fix: null,
      }));
  },
};
