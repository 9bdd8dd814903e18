import { msg } from '../base/message.ts';
import { passName } from '../plan/names.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';
import { jackRef, jackSpot } from './spots.ts';

/** A pin may make a run longer than its free way by so many percent without a word. */
const MOST_PERCENT = 10;

/** A run is much longer for the pin that it is made to pass. */
export const pinDetour: Rule = {
  id: 'pin-detour',
  title: msg('A pin makes a run much longer'),
  severity: 'note',
  source: COMMON_PRACTICE,
  limits: [
    {
      name: 'longer than the free way',
      value: `${MOST_PERCENT} %`,
      clause: 'of the free way, as a tape would read it; our own choice',
    },
  ],
  check: ({ plan, runs }) =>
    runs.flatMap((run) => {
      const { pinned } = run;
      const pin = pinned ? plan.tables.pins.get(pinned.pin) : undefined;
      if (!pinned || !pin) return [];
      if (pinned.path * 100 <= (run.path - pinned.path) * MOST_PERCENT) return [];
      return [
        {
          subjects: [jackRef(run), { table: 'pins', id: pin.id } as const],
          at: jackSpot(plan, run),
          message: msg('By {pin}, run {label} is {more} longer than it need be.', {
            pin: passName(plan, 'pins', pin),
            label: run.label,
            more: { mm: pinned.path },
          }),
          remedy: msg(
            'Keep the pin where the site asks for it; else move it, or leave the way free.',
          ),
          fix: {
            command: 'leave-free',
            args: { jacks: [run.jack] },
            label: msg('Leave the way of {label} free', { label: run.label }),
          },
        },
      ];
    }),
};
