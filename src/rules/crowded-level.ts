import { msg } from '../base/message.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';

/** So much is drawn on a level that the search for routes left lines out: runs hold, but may not be the cheapest. */
export const crowdedLevel: Rule = {
  id: 'crowded-level',
  title: msg('A level is too crowded to try every way'),
  severity: 'note',
  source: COMMON_PRACTICE,
  limits: [],
  check: ({ plan, inexact }) =>
    inexact.map((id) => ({
      subjects: [{ table: 'levels', id }],
      at: null,
      message: msg('{level} holds so much that not every way on it was tried.', {
        level: plan.tables.levels.get(id)?.name || 'A level',
      }),
      remedy: msg(
        'Its runs hold as they are drawn and measured, but a cheaper way may be there. Draw each wall as one piece, and draw pathways where the cables should go.',
      ),
      fix: null,
    })),
};
