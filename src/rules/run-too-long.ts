import { type Message, msg } from '../base/message.ts';
import { distance } from '../geometry/nearest.ts';
import { closetName } from '../plan/names.ts';
import { type Closet, type Plan, settings } from '../plan/plan.ts';
import type { Run } from '../results/types.ts';
import type { Remark, Rule } from './rule.ts';
import { CABLING } from './sources.ts';
import { atJack } from './spots.ts';

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

function remark(plan: Plan, run: Run): Remark {
  return {
    ...atJack(plan, run),
    message: msg('The cable of {label} is {cable} long; the most is {limit}.', {
      label: run.label,
      cable: { mm: run.cable },
      limit: { mm: run.limit },
    }),
    remedy:
      elsewhere(plan, run) ?? (run.limit < settings(plan).linkLimit ? SHORTER_CORDS : SHORTEN),
    fix: null,
  };
}

/**
 * What to say of a run that somebody sent to a closet of their choice, where another closet might bring it under its
 * limit: the straight way there is short enough. Null where none is.
 */
function elsewhere(plan: Plan, run: Run): Message | null {
  const chosen = plan.tables.closets.get(plan.tables.jacks.get(run.jack)?.closet ?? '');
  const outlet = plan.tables.outlets.get(run.outlet);
  if (!chosen || !outlet) return null;
  const near = (closet: Closet): number => distance(closet.at, outlet.at) + run.slack;
  const better = [...plan.tables.closets.values()]
    .filter((closet) => closet.id !== chosen.id && closet.level === outlet.level)
    .filter((closet) => near(closet) <= run.limit)
    .reduce<Closet | null>((a, b) => (a && near(a) <= near(b) ? a : b), null);
  if (!better) return null;
  return msg('It goes to {chosen} by choice. Let it take the nearest: {better} may do.', {
    chosen: closetName(plan, chosen),
    better: closetName(plan, better),
  });
}
