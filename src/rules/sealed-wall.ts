import { msg } from '../base/message.ts';
import type { Rule } from './rule.ts';
import { CODE } from './sources.ts';
import { crossedWalls } from './walls.ts';

/** Cables pass an insulated or outside wall, where air and water must not follow them. */
export const sealedWall: Rule = {
  id: 'sealed-wall',
  title: msg('Cables pass an insulated or outside wall'),
  severity: 'note',
  source: { document: CODE, clause: '300.7(A)' },
  limits: [],
  check: ({ plan, runs }) =>
    crossedWalls(plan, runs, (crossing) => crossing.work === 'seal').map(
      ({ wall, at, labels }) => ({
        subjects: [{ table: 'walls', id: wall }],
        at,
        message: msg('Cables pass an insulated or outside wall here: {labels}.', { labels }),
        remedy: msg(
          'Ask the supplier of a cold room before you drill. Seal round the conduit and inside it, so that no warm air gets in to freeze.',
        ),
        fix: null,
      }),
    ),
};
