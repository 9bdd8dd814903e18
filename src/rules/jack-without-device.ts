import { msg } from '../base/message.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';
import { spotOf } from './spots.ts';

/** A jack serves nothing and is not meant as a spare: a device was forgotten, or the cable is not needed. */
export const jackWithoutDevice: Rule = {
  id: 'jack-without-device',
  title: msg('A jack serves no device and is not a spare'),
  severity: 'warning',
  source: COMMON_PRACTICE,
  limits: [],
  check: ({ plan }) =>
    [...plan.tables.jacks.values()]
      .filter((jack) => jack.device === null && !jack.spare)
      .map((jack) => ({
        subjects: [{ table: 'jacks', id: jack.id }],
        at: spotOf(plan, 'outlets', jack.outlet),
        message: msg('Jack {label} serves no device.', { label: jack.label }),
        remedy: msg('Make it a spare if it is meant as one, or delete it.'),
        fix: { command: 'make-spare', args: { jack: jack.id }, label: msg('Make it a spare') },
      })),
};
