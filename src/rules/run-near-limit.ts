import { msg } from '../base/message.ts';
import { settings } from '../plan/plan.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';
import { atJack } from './spots.ts';

/** The cable of a run comes so near to its limit that a detour on site would break it. */
export const runNearLimit: Rule = {
  id: 'run-near-limit',
  title: msg('A run comes near to its limit'),
  severity: 'warning',
  source: COMMON_PRACTICE,
  limits: [
    {
      name: 'share of the limit, found from there on',
      value: { setting: 'nearPercent' },
      clause: 'a reserve for detours on site',
    },
  ],
  check({ plan, runs }) {
    const percent = settings(plan).nearPercent;
    return runs
      .filter((run) => run.status !== 'unroutable')
      .filter((run) => run.cable * 100 >= run.limit * percent && run.cable <= run.limit)
      .map((run) => ({
        ...atJack(plan, run),
        message: msg('The cable of {label} is {cable} long, only {left} below the most allowed.', {
          label: run.label,
          cable: { mm: run.cable },
          left: { mm: run.limit - run.cable },
        }),
        remedy: msg('Measure its way on site before you pull: a detour could make it too long.'),
        fix: null,
      }));
  },
};
