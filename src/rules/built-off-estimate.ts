import { msg } from '../base/message.ts';
import { METRE } from '../base/units.ts';
import { builtLengthOf, marksAgainst } from '../plan/built.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';
import { atJack } from './spots.ts';

/** What a cable may differ from its estimate: a fifth of it, and 3 m (10 ft) at the least, as loops come out longer or shorter. */
const SHARE = 0.2;
const LEAST = 3 * METRE;

/** A cable came out so much longer or shorter than planned that one of the two is likely to be wrong. */
export const builtOffEstimate: Rule = {
  id: 'built-off-estimate',
  title: msg('A cable was built much longer or shorter than planned'),
  severity: 'note',
  source: COMMON_PRACTICE,
  limits: [
    {
      name: 'difference from the plan',
      value: '20 % of the planned cable, at least 3 m (10 ft)',
      clause: 'more than loops and detours explain',
    },
  ],
  check: ({ plan, runs }) =>
    runs
      .filter((run) => run.status !== 'unroutable')
      .flatMap((run) => {
        const length = builtLengthOf(plan, run.jack);
        const most = Math.max(LEAST, run.cable * SHARE);
        // Of one that is too long another check tells, and of one that its own marks gainsay.
        if (length === null || length > run.limit) return [];
        if (marksAgainst(plan.tables.jacks.get(run.jack)?.built ?? null) !== null) return [];
        if (Math.abs(length - run.cable) <= most) return [];
        return {
          ...atJack(plan, run),
          message: msg('{label} was built {built} long; the plan says {cable}.', {
            label: run.label,
            built: { mm: length },
            cable: { mm: run.cable },
          }),
          remedy: msg(
            'Read its marks once more. If they hold, it lies another way than drawn: draw that, or pin it there.',
          ),
          fix: null,
        };
      }),
};
