import { type Message, msg } from '../base/message.ts';
import { closetName, passName } from '../plan/names.ts';
import type { Plan, Ref } from '../plan/plan.ts';
import type { Run } from '../results/types.ts';
import { isCutOff } from './level-cut-off.ts';
import type { Remark, Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';
import { jackRef, jackSpot, placeSpot } from './spots.ts';

/**
 * A jack that no cable can join to a closet; where no closet stands at all, or a whole level is cut off, another rule
 * says so once.
 */
export const noWay: Rule = {
  id: 'no-way',
  title: msg('A jack has no way to the closet'),
  severity: 'error',
  source: COMMON_PRACTICE,
  limits: [],
  check({ plan, runs }) {
    if (plan.tables.closets.size === 0) return [];
    return runs
      .filter((run) => run.status === 'unroutable')
      .filter((run) => run.blocked?.reason !== 'other-level' || !isCutOff(plan, run.level))
      .map((run) => remark(plan, run));
  },
};

function remark(plan: Plan, run: Run): Remark {
  const by = run.blocked?.by ?? null;
  const reached = run.blocked?.reached ?? null;
  return {
    subjects: by === null ? [jackRef(run)] : [jackRef(run), by],
    at: reached === null ? jackSpot(plan, run) : placeSpot(plan, reached),
    fix: null,
    ...wordsFor(plan, run),
  };
}

type Words = Pick<Remark, 'message' | 'remedy'> & Partial<Pick<Remark, 'fix'>>;

function wordsFor(plan: Plan, run: Run): Words {
  const { label } = run;
  switch (run.blocked?.reason) {
    case 'other-level':
      return otherLevel(plan, run);
    case 'pin':
      return pastPin(plan, run);
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

/** The closets that it may go to stand on other levels, and no riser leads to any of them. */
function otherLevel(plan: Plan, { label, closet: id }: Run): Words {
  const closet = id === null ? undefined : plan.tables.closets.get(id);
  if (closet)
    return {
      message: msg('No riser leads from jack {label} to {closet}, which was chosen for it.', {
        label,
        closet: closetName(plan, closet),
      }),
      remedy: msg(
        'Place a riser between their levels, or let the jack go to the nearest closet. Until then the price leaves out its cable and hours.',
      ),
    };
  return {
    message: msg('Jack {label} has no closet on its level, and no riser leads to one.', { label }),
    remedy: msg(
      'Place a riser to a level with a closet, or a closet here. Until then the price leaves out its cable and hours.',
    ),
  };
}

/** The way is free, but not past the pin that the jack is made to pass. */
function pastPin(plan: Plan, { label, jack }: Run): Words {
  const pin = plan.tables.pins.get(plan.tables.jacks.get(jack)?.pin ?? '');
  const leave = {
    command: 'leave-free',
    args: { jacks: [jack] },
    label: msg('Leave the way of {label} free', { label }),
  };
  return {
    message: msg('Jack {label} has a way home, but not past {pin}.', {
      label,
      pin: pin ? passName(plan, 'pins', pin) : 'its pin',
    }),
    remedy: msg(
      'Move the pin to where a cable can get, or leave the way free. Until then the price leaves out its cable and hours.',
    ),
    fix: pin ? leave : null,
  };
}

/** What there is to do, by what bars the way. */
function remedyFor(by: Ref | null): Message {
  if (by?.table === 'keepouts') return THROUGH_KEEPOUT;
  if (by?.table === 'zones') return UNDER_CEILING;
  return by?.table === 'walls' ? THROUGH_WALL : JOIN;
}

const JOIN = msg(
  'Draw a pathway that joins the two, or move one of them. Until then the price leaves out its cable and hours.',
);
const THROUGH_KEEPOUT = msg(
  'Draw a pathway through it where a cable may pass, or leave a way round it. Until then the price leaves out its cable and hours.',
);
const UNDER_CEILING = msg(
  'Draw surface raceway or conduit below it, or say on the Rooms leg that its ceiling opens. Until then the price leaves out its cable and hours.',
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

/**
 * From the place that the cable gets to, on the plan, to the closet that was chosen or else the nearest, mm; null where
 * the cable ends on a level without it.
 */
function gapToCloset(plan: Plan, run: Run): number | null {
  const reached = run.blocked?.reached;
  if (!reached) return null;
  const level = placeSpot(plan, reached)?.level;
  const candidates = [...plan.tables.closets.values()].filter(
    (closet) => closet.level === level && (run.closet === null || closet.id === run.closet),
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
  if (ref.table === 'zones') {
    const name = plan.tables.zones.get(ref.id)?.name;
    return name ? `the closed ceiling of "${name}"` : 'a closed ceiling';
  }
  const wall = ref.table === 'walls' ? plan.tables.walls.get(ref.id) : undefined;
  if (!wall) return 'something drawn here';
  if (wall.exterior) return 'an outside wall';
  return wall.construction === 'insulated' ? 'an insulated wall' : 'a wall';
}
