import { msg } from '../base/message.ts';
import { passName } from '../plan/names.ts';
import { runsByRiser } from '../results/risers.ts';
import type { Rule } from './rule.ts';
import { CODE } from './sources.ts';
import { labelsOf } from './words.ts';

/** Cables pass a floor: where it is rated, somebody has to close the opening as the code wants it. */
export const floorOpening: Rule = {
  id: 'floor-opening',
  title: msg('Cables pass a floor'),
  severity: 'note',
  source: { document: CODE, clause: '300.21' },
  limits: [],
  check: ({ plan, runs }) =>
    [...runsByRiser(runs)].flatMap(([id, inside]) => {
      const riser = plan.tables.risers.get(id);
      if (!riser) return [];
      return [
        {
          subjects: [{ table: 'risers', id }],
          at: { level: riser.level, point: riser.at },
          message: msg('Cables pass the floor of {upper} in {riser}: {labels}.', {
            upper: plan.tables.levels.get(riser.upper)?.name || 'the level above',
            riser: passName(plan, 'risers', riser),
            labels: labelsOf(inside),
          }),
          remedy: msg(
            'Where the floor is fire-rated, have trained people close the opening with a listed firestop system on the day it is made. Local code decides which floors are rated, and which cable may go from floor to floor.',
          ),
          fix: null,
        },
      ];
    }),
};
