import { msg } from '../base/message.ts';
import { marksAgainst } from '../plan/built.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';
import { atJack } from './spots.ts';

/** The length that was typed for a cable is not what the marks on its jacket say: one of them is a slip. */
export const builtOffMarks: Rule = {
  id: 'built-off-marks',
  title: msg('The length that is recorded is not that between the marks'),
  severity: 'warning',
  source: COMMON_PRACTICE,
  limits: [
    {
      name: 'difference from the marks',
      value: '5 % of the cable between them, at least 1.2 m (4 ft)',
      clause: 'more than reading marks and testers explains',
    },
  ],
  check: ({ plan, runs }) =>
    runs.flatMap((run) => {
      const built = plan.tables.jacks.get(run.jack)?.built ?? null;
      const marks = marksAgainst(built);
      if (marks === null) return [];
      return {
        ...atJack(plan, run),
        message: msg('{label} is recorded as {built} long; its marks say {marks}.', {
          label: run.label,
          built: { mm: built!.length! },
          marks: { mm: marks },
        }),
        remedy: msg(
          'Read the marks and the length on the sheet once more. While both stand, the typed length holds.',
        ),
        fix: {
          command: 'record',
          args: { records: [{ jack: run.jack, fields: { length: null } }] },
          label: msg('Go by the marks'),
        },
      };
    }),
};
