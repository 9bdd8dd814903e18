import { groupBy } from '../base/group.ts';
import { msg } from '../base/message.ts';
import { closetName } from '../plan/names.ts';
import type { Rule } from './rule.ts';
import { IDENTIFIERS } from './sources.ts';
import { jackRef, jackSpot } from './spots.ts';

/** Two cables are recorded on one port of a panel. */
export const doubledPort: Rule = {
  id: 'doubled-port',
  title: msg('A port is recorded for two cables'),
  severity: 'warning',
  source: { document: IDENTIFIERS, clause: 'identifiers are unique' },
  limits: [],
  check({ plan, runs }) {
    const portOf = (jack: string) => plan.tables.jacks.get(jack)?.built?.port ?? null;
    const homed = runs.filter((run) => run.closet !== null && portOf(run.jack) !== null);
    const ports = groupBy(homed, (run) => `${run.closet} ${portOf(run.jack)}`);
    return [...ports.values()]
      .filter((group) => group.length > 1)
      .map((group) => ({
        subjects: group.map(jackRef),
        at: jackSpot(plan, group[0]!),
        message: msg('{labels} are recorded on port {port} of {closet}.', {
          labels: group.map((run) => run.label).join(' and '),
          port: portOf(group[0]!.jack)!,
          closet: closetName(plan, plan.tables.closets.get(group[0]!.closet!)!),
        }),
        remedy: msg('Read the panel once more, and record the port of each.'),
        fix: null,
      }));
  },
};
