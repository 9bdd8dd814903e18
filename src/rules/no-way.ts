import { type Message, msg } from '../base/message.ts';
import type { Plan, Ref } from '../plan/plan.ts';
import type { Place, Run } from '../results/types.ts';
import type { Remark, Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';
import { jackRef, jackSpot, placeSpot } from './spots.ts';

/** A jack that no cable can join to a closet; where no closet stands at all, another rule says so once. */
export const noWay: Rule = {
  id: 'no-way',
  title: msg('A jack has no way to the closet'),
  severity: 'error',
  source: COMMON_PRACTICE,
  limits: [],
  check({ plan, runs }) {
    if (plan.tables.closets.size === 0) return [];
    return runs.filter((run) => run.status === 'unroutable').map((run) => remark(plan, run));
  },
};

function remark(plan: Plan, run: Run): Remark {
  const by = run.blocked?.by ?? null;
  const reached = run.blocked?.reached ?? null;
  return {
    subjects: by === null ? [jackRef(run)] : [jackRef(run), by],
    at: reached === null ? jackSpot(plan, run) : placeSpot(plan, reached),
    message: message(plan, run, by, reached),
    remedy: remedyFor(by),
    fix: null,
  };
}

/** What there is to do, by what bars the way. */
function remedyFor(by: Ref | null): Message {
  if (by?.table === 'keepouts') return THROUGH_KEEPOUT;
  return by?.table === 'walls' ? THROUGH_WALL : JOIN;
}

const JOIN = msg(
  'Draw a pathway that joins the two, or move one of them. Until then the price leaves out its cable and hours.',
);
const THROUGH_KEEPOUT = msg(
  'Draw a pathway through it where a cable may pass, or leave a way round it. Until then the price leaves out its cable and hours.',
);
const THROUGH_WALL = msg(
  'Draw a conduit or a sleeve through it where a hole is allowed. Until then the price leaves out its cable and hours.',
);

function message(plan: Plan, run: Run, by: Ref | null, reached: Place | null): Message {
  const { label } = run;
  const closet = run.closet === null ? undefined : plan.tables.closets.get(run.closet);
  const what = by === null ? '' : nameOf(plan, by);
  const gap =
    closet && reached
      ? { mm: Math.hypot(reached[0] - closet.at[0], reached[1] - closet.at[1]) }
      : null;
  if (by && gap)
    return msg('Jack {label} has no way home: {what} bars it, {gap} from the closet.', {
      ...{ label, what, gap },
    });
  if (by) return msg('Jack {label} has no way home: {what} bars it.', { label, what });
  if (gap)
    return msg('Jack {label} has no way home: its cable ends {gap} from the closet.', {
      ...{ label, gap },
    });
  return msg('Jack {label} has no way to a closet.', { label });
}

function nameOf(plan: Plan, ref: Ref): string {
  if (ref.table === 'keepouts') {
    const name = plan.tables.keepouts.get(ref.id)?.name;
    return name ? `the keep-out "${name}"` : 'a keep-out';
  }
  const wall = ref.table === 'walls' ? plan.tables.walls.get(ref.id) : undefined;
  if (!wall) return 'something drawn here';
  if (wall.exterior) return 'an outside wall';
  return wall.construction === 'insulated' ? 'an insulated wall' : 'a wall';
}
