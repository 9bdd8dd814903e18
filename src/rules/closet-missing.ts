import { msg } from '../base/message.ts';
import type { Rule } from './rule.ts';
import { CABLING } from './sources.ts';

/** Jacks are drawn, but no closet for their cables. */
export const closetMissing: Rule = {
  id: 'closet-missing',
  title: msg('There is no network closet'),
  severity: 'error',
  source: { document: CABLING, clause: 'star from one room, each outlet by its own cable' },
  limits: [],
  check({ plan }) {
    const { closets, jacks } = plan.tables;
    if (closets.size > 0 || jacks.size === 0) return [];
    return [
      {
        subjects: [],
        at: null,
        message: msg('There is no network closet yet. Jacks that wait for one: {count}.', {
          count: jacks.size,
        }),
        remedy: msg('Place the closet where the network gear will hang and the line comes in.'),
        fix: null,
      },
    ];
  },
};
