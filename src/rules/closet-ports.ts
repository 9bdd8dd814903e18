import { groupBy } from '../base/group.ts';
import { msg } from '../base/message.ts';
import { closetName } from '../plan/names.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';
import { spotOf } from './spots.ts';
import { atStart } from './words.ts';

/** Panels come with 24 ports or a multiple of it. */
const PANEL = 24;

/** More cables come home to a closet than it has ports. */
export const closetPorts: Rule = {
  id: 'closet-ports',
  title: msg('A closet has fewer ports than cables'),
  severity: 'error',
  source: COMMON_PRACTICE,
  limits: [
    {
      name: 'cables that come home to a closet',
      value: 'the ports of the closet, 48 when it is placed',
      clause: 'one port for each cable',
    },
  ],
  check({ plan, runs }) {
    const byCloset = groupBy(runs, (run) => run.closet);
    return [...plan.tables.closets.values()].flatMap((closet) => {
      const cables = byCloset.get(closet.id)?.length ?? 0;
      if (cables <= closet.ports) return [];
      const ports = Math.ceil(cables / PANEL) * PANEL;
      return [
        {
          subjects: [{ table: 'closets', id: closet.id }],
          at: spotOf(plan, 'closets', closet.id),
          message: msg('{closet} has {ports} ports for {cables} cables.', {
            closet: atStart(closetName(plan, closet)),
            ports: closet.ports,
            cables,
          }),
          remedy: msg('Give it more ports, or send some cables to another closet.'),
          fix: {
            command: 'edit',
            args: { table: 'closets', id: closet.id, fields: { ports } },
            label: msg('Give it {ports} ports', { ports }),
          },
        },
      ];
    });
  },
};
