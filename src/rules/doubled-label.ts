import { groupBy } from '../base/group.ts';
import { msg } from '../base/message.ts';
import type { Rule } from './rule.ts';
import { IDENTIFIERS } from './sources.ts';
import { spotOf } from './spots.ts';

/** Several jacks carry the same label, so that nobody can tell their cables apart. */
export const doubledLabel: Rule = {
  id: 'doubled-label',
  title: msg('Several jacks carry the same label'),
  severity: 'error',
  source: { document: IDENTIFIERS, clause: 'identifiers are unique' },
  limits: [],
  check({ plan }) {
    const byLabel = groupBy(plan.tables.jacks.values(), (jack) => jack.label);
    return [...byLabel]
      .filter(([, jacks]) => jacks.length > 1)
      .map(([label, jacks]) => ({
        subjects: jacks.map((jack) => ({ table: 'jacks', id: jack.id })),
        at: spotOf(plan, 'outlets', jacks[0]!.outlet),
        message: msg('Label {label} is on {count} jacks.', { label, count: jacks.length }),
        remedy: msg('Give each its own label. Renumbering changes the labels of all jacks.'),
        fix: { command: 'renumber', args: {}, label: msg('Renumber all jacks') },
      }));
  },
};
