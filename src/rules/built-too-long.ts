import { msg } from '../base/message.ts';
import { builtLengthOf } from '../plan/built.ts';
import type { Rule } from './rule.ts';
import { CABLING } from './sources.ts';
import { atJack } from './spots.ts';

/** A cable that was built is longer than the standard allows it with its cords. */
export const builtTooLong: Rule = {
  id: 'built-too-long',
  title: msg('A cable was built longer than the standard allows'),
  severity: 'error',
  source: { document: CABLING, clause: 'length of horizontal cabling' },
  limits: [
    {
      name: 'cable as built',
      value: { setting: 'linkLimit' },
      clause: 'permanent link at most 90 m; less where its cords take from the channel of 100 m',
    },
  ],
  check: ({ plan, runs }) =>
    runs.flatMap((run) => {
      const length = builtLengthOf(plan, run.jack);
      if (length === null || length <= run.limit) return [];
      return {
        ...atJack(plan, run),
        message: msg('{label} was built {built} long; the most is {limit}.', {
          label: run.label,
          built: { mm: length },
          limit: { mm: run.limit },
        }),
        remedy: msg(
          'Read its marks once more. If they hold, take what is spare out of its loops, or pull it anew by a shorter way.',
        ),
        fix: null,
      };
    }),
};
