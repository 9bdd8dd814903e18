import { msg } from '../base/message.ts';
import type { Run } from '../results/types.ts';
import type { Rule } from './rule.ts';
import { CABLING } from './sources.ts';
import { atJack } from './spots.ts';

/** All cords of a channel together, mm. */
const MOST_CORDS = 10_000;

/** The cords of a run are longer together than a channel with the longest cable may have. */
export const cordsTooLong: Rule = {
  id: 'cords-too-long',
  title: msg('The cords of a run are too long together'),
  severity: 'warning',
  source: { document: CABLING, clause: 'cords of a channel; longer cords in open offices' },
  limits: [
    {
      name: 'cords together',
      value: '10 m (33 ft)',
      clause: 'all cords of a channel; beyond, C = (102 - H) / 1.2 in metres',
    },
  ],
  check: ({ plan, runs }) =>
    runs
      .filter((run) => cordsOf(run) > MOST_CORDS)
      .map((run) => ({
        ...atJack(plan, run),
        message: msg('The cords of {label} are {cords} together; the most is {most}.', {
          label: run.label,
          cords: { mm: cordsOf(run) },
          most: { mm: MOST_CORDS },
        }),
        remedy: msg(
          'Use shorter cords. With cords this long, the cable in the building may be {cable} at most.',
          { cable: { mm: cableFor(cordsOf(run)) } },
        ),
        fix: null,
      })),
};

const cordsOf = (run: Run): number => run.channel - run.cable;

/** The cable that goes with cords of a length, mm: H = 102 m - 1.2 C, since 24 AWG cords lose a fifth more. */
const cableFor = (cords: number): number => Math.max(0, Math.floor(102_000 - 1.2 * cords));
