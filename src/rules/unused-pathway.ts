import { msg } from '../base/message.ts';
import { pathwayName } from '../plan/names.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';

/** A pathway is in the price, but no cable goes by it: often a conduit whose ends are out of reach. */
export const unusedPathway: Rule = {
  id: 'unused-pathway',
  title: msg('A pathway is bought that no cable goes by'),
  severity: 'note',
  source: COMMON_PRACTICE,
  limits: [],
  check: ({ plan, runs }) => {
    const used = new Set(runs.flatMap((run) => run.pathways));
    // Before there is a run home there is nothing that could go by it.
    if (runs.every((run) => run.status === 'unroutable')) return [];
    return [...plan.tables.pathways.values()]
      .filter(({ id, existing }) => !existing && !used.has(id))
      .map((pathway) => ({
        subjects: [{ table: 'pathways', id: pathway.id }],
        at: { level: pathway.level, point: pathway.points[0]! },
        message: msg('No cable goes by {name}, and yet it is in the price.', {
          name: pathwayName(pathway),
        }),
        remedy: msg(
          'Draw its ends to where cables come past, or delete it. Keep it if it is laid for later.',
        ),
        fix: null,
      }));
  },
};
