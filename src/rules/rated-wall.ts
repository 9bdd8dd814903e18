import { msg } from '../base/message.ts';
import type { Rule } from './rule.ts';
import { CODE } from './sources.ts';
import { crossedWalls } from './walls.ts';

/** Cables pass a fire-rated wall: somebody has to close the holes as the code wants it. */
export const ratedWall: Rule = {
  id: 'rated-wall',
  title: msg('Cables pass a fire-rated wall'),
  severity: 'note',
  source: { document: CODE, clause: '300.21' },
  limits: [],
  check: ({ plan, runs }) =>
    crossedWalls(plan, runs, (crossing) => crossing.firestop).map(({ wall, at, labels }) => ({
      subjects: [{ table: 'walls', id: wall }],
      at,
      message: msg('Cables pass a fire-rated wall here: {labels}.', { labels }),
      remedy: msg(
        'Have trained people close each hole with a listed firestop system on the day it is made. Local code decides what else is needed.',
      ),
      fix: null,
    })),
};
