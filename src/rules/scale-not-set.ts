import { msg } from '../base/message.ts';
import { hasScale } from '../plan/picture-place.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';

/** A picture lies under the plan, but nobody has said how large it is. */
export const scaleNotSet: Rule = {
  id: 'scale-not-set',
  title: msg('A background has no scale'),
  severity: 'error',
  source: COMMON_PRACTICE,
  limits: [],
  check: ({ plan }) =>
    [...plan.tables.backgrounds.values()]
      .filter((picture) => !hasScale(picture))
      .map((picture) => ({
        subjects: [{ table: 'backgrounds', id: picture.id }],
        at: { level: picture.level, point: picture.origin },
        message: msg('The scale of {name} is not set, so every length drawn over it is a guess.', {
          name: picture.name || 'the background',
        }),
        remedy: msg(
          'Draw along a length that you know, such as a wall, and type how long it is, or say the scale that is printed on it.',
        ),
        fix: null,
      })),
};
