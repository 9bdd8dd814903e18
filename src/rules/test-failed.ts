import { msg } from '../base/message.ts';
import type { Rule } from './rule.ts';
import { UNIVERSITY_GUIDE } from './sources.ts';
import { atJack } from './spots.ts';

/** The test of a cable is recorded as failed. */
export const testFailed: Rule = {
  id: 'test-failed',
  title: msg('A cable failed its test'),
  severity: 'error',
  source: { document: UNIVERSITY_GUIDE, clause: 'every cable is tested; a faulty one is replaced' },
  limits: [],
  check: ({ plan, runs }) =>
    runs.flatMap((run) => {
      const built = plan.tables.jacks.get(run.jack)?.built;
      if (built?.test !== 'fail') return [];
      const { label } = run;
      const { remark } = built;
      return {
        ...atJack(plan, run),
        message:
          remark === ''
            ? msg('The cable of {label} failed its test.', { label })
            : msg('The cable of {label} failed its test: {remark}.', {
                label,
                remark: remark.replace(/\.$/, ''),
              }),
        remedy: msg(
          'Terminate both ends anew and test again. If it fails again, replace the cable: it is not spliced.',
        ),
        fix: null,
      };
    }),
};
