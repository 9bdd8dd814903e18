import { msg } from '../base/message.ts';
import { hasScale } from '../plan/picture-place.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';

/** Nothing confirms the scale of a picture, so that a slip in it would make every length wrong unseen. */
export const scaleUnchecked: Rule = {
  id: 'scale-unchecked',
  title: msg('The scale of a background is not checked'),
  severity: 'warning',
  source: COMMON_PRACTICE,
  limits: [],
  check: ({ plan }) =>
    [...plan.tables.backgrounds.values()]
      .filter((picture) => hasScale(picture) && picture.check === null)
      .map((picture) => ({
        subjects: [{ table: 'backgrounds', id: picture.id }],
        at: { level: picture.level, point: picture.origin },
        message: msg(
          picture.scale
            ? 'The scale of {name} rests on one length, and nothing confirms it.'
            : 'The scale of {name} is the one printed on it, and no length confirms it.',
          { name: picture.name || 'the background' },
        ),
        remedy: msg(
          'Check it along another length that you know. A slip here makes every length wrong.',
        ),
        fix: null,
      })),
};
