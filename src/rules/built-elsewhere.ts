import { msg } from '../base/message.ts';
import { METRE } from '../base/units.ts';
import { distance } from '../geometry/nearest.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';
import { atJack } from './spots.ts';

/** An outlet may be put straight on the plan by so much without a word. */
const STRAIGHTENED = 0.3 * METRE;

/** An outlet was moved on the plan after its cable was recorded as built. */
export const builtElsewhere: Rule = {
  id: 'built-elsewhere',
  title: msg('An outlet was moved after its cable was recorded'),
  severity: 'note',
  source: COMMON_PRACTICE,
  limits: [
    {
      name: 'move since the record',
      value: '0.30 m (1 ft)',
      clause: 'less is putting the drawing straight',
    },
  ],
  check: ({ plan, runs }) =>
    runs.flatMap((run) => {
      const at = plan.tables.jacks.get(run.jack)?.built?.at ?? null;
      const outlet = plan.tables.outlets.get(run.outlet);
      if (!at || !outlet || distance(at, outlet.at) <= STRAIGHTENED) return [];
      const { label } = run;
      return {
        ...atJack(plan, run),
        message: msg('{label} was moved {by} after it was recorded as built.', {
          label,
          by: { mm: Math.round(distance(at, outlet.at)) },
        }),
        remedy: msg('Move it back to where it hangs, or say that it hangs where it is drawn now.'),
        fix: {
          command: 'record',
          args: { records: [{ jack: run.jack, fields: { at: outlet.at } }] },
          label: msg('It hangs where it is drawn'),
        },
      };
    }),
};
