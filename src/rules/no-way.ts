import { type Message, msg } from '../base/message.ts';
import type { Plan, Ref } from '../plan/plan.ts';
import type { Run } from '../results/types.ts';
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
    ...wordsFor(plan, run),
    fix: null,
  };
}

type Words = Pick<Remark, 'message' | 'remedy'>;

function wordsFor(plan: Plan, run: Run): Words {
  const { label } = run;
  switch (run.blocked?.reason) {
    case 'other-level':
      return {
        message: msg('Jack {label} has no closet on its level.', { label }),
        remedy: msg(
          'Place a closet on that level, or choose one there for the jack. Until then the price leaves out its cable and hours.',
        ),
      };
    case 'no-under-slab':
      return {
        message: msg('Jack {label} sits in a floor box that no under-slab conduit leads to.', {
          label,
        }),
        remedy: msg(
          'Draw the under-slab conduit from the box, or hang the outlet elsewhere. Until then the price leaves out its cable and hours.',
        ),
      };
    default:
      return { message: barred(plan, run), remedy: remedyFor(run.blocked?.by ?? null) };
  }
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

/** Names what bars the way, and how far from the closet the cable gets, as far as either is known. */
function barred(plan: Plan, run: Run): Message {
  const { label } = run;
  const by = run.blocked?.by ?? null;
  const what = by === null ? '' : nameOf(plan, by);
  const gap = gapToCloset(plan, run);
  if (by && gap !== null)
    return msg('Jack {label} has no way home: {what} bars it, {gap} from the closet.', {
      ...{ label, what, gap: { mm: gap } },
    });
  if (by) return msg('Jack {label} has no way home: {what} bars it.', { label, what });
  if (gap !== null)
    return msg('Jack {label} has no way home: its cable ends {gap} from the closet.', {
      ...{ label, gap: { mm: gap } },
    });
  return msg('Jack {label} has no way to a closet.', { label });
}

/** From the place that the cable gets to, on the plan, to the closet that was chosen or else the nearest, mm. */
function gapToCloset(plan: Plan, run: Run): number | null {
  const reached = run.blocked?.reached;
  if (!reached) return null;
  const candidates = [...plan.tables.closets.values()].filter((closet) =>
    run.closet === null ? closet.level === run.level : closet.id === run.closet,
  );
  if (candidates.length === 0) return null;
  return Math.min(
    ...candidates.map(({ at }) => Math.hypot(reached[0] - at[0], reached[1] - at[1])),
  );
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
