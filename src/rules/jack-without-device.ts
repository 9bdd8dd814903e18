import { msg } from '../base/message.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';
import { spotOf } from './spots.ts';

const REMEDY = msg('Make it a spare if it is meant as one, or delete it.');
const MAKE_SPARE = msg('Make it a spare');

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
        remedy: REMEDY,
        fix: { command: 'make-spare', args: { jack: jack.id }, label: MAKE_SPARE },
      })),
};
