import { msg } from '../base/message.ts';
import type { Run } from '../results/types.ts';
import type { Rule, RuleContext } from './rule.ts';
import { CABLING } from './sources.ts';
import { jackRef, jackSpot } from './spots.ts';

const SHORTEN = msg(
  'Move the jack or the closet, draw a straighter pathway, or add a closet nearer.',
);
const SHORTER_CORDS = msg(
  'Its cords are long and take from the cable. Use shorter cords, or move the jack or the closet.',
);

/** The cable of a run is longer than the standard allows it with its cords. */
export const runTooLong: Rule = {
  id: 'run-too-long',
  title: msg('A run is longer than the standard allows'),
  severity: 'error',
  source: { document: CABLING, clause: 'length of horizontal cabling' },
  limits: [
    {
      name: 'cable',
      value: { setting: 'linkLimit' },
      clause: 'permanent link at most 90 m, slack and verticals included',
    },
    {
      name: 'cable with its cords',
      value: { setting: 'channelLimit' },
      clause: 'channel at most 100 m',
    },
  ],
  check: ({ plan, runs }) => runs.filter(isTooLong).map((run) => remark(plan, run)),
};

const isTooLong = (run: Run): boolean => run.cable > run.limit;

function remark(plan: RuleContext['plan'], run: Run) {
  const linkLimit = plan.tables.settings.get('settings')?.linkLimit ?? run.limit;
  return {
    subjects: [jackRef(run)],
    at: jackSpot(plan, run),
    message: msg('The cable of {label} is {cable} long; the most is {limit}.', {
      label: run.label,
      cable: { mm: run.cable },
      limit: { mm: run.limit },
    }),
    remedy: run.limit < linkLimit ? SHORTER_CORDS : SHORTEN,
    fix: null,
  };
}
