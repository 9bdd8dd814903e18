import { type Message, msg } from '../base/message.ts';
import { passName, pathwayName } from '../plan/names.ts';
import { settings } from '../plan/plan.ts';
import { runsByRiser } from '../results/risers.ts';
import type { Run } from '../results/types.ts';
import { bendsOf, degreesOf, ducts, TRADE_SIZES, type TradeSize, tradeSize } from './ducts.ts';
import type { Remark, Rule, RuleContext } from './rule.ts';
import { HANDBOOK, PATHWAYS } from './sources.ts';
import { labelsOf } from './words.ts';

/** Of the inside of a conduit, what one cable, two, and more may fill (NEC chapter 9, table 1; ANSI/TIA-569: 40 %). */
const SHARES = [0.53, 0.31, 0.4] as const;

/** What each 90° bend takes off that, added up (government handbook: 40 % with two bends becomes 28 %). */
const OFF_PER_BEND = 0.15;

/** More cables go through a conduit or a riser of a known size than can be pulled without hurting them. */
export const conduitFill: Rule = {
  id: 'conduit-fill',
  title: msg('A conduit holds too many cables'),
  severity: 'warning',
  source: { document: PATHWAYS, clause: 'conduit fill of 40 %' },
  limits: [
    {
      name: 'share of the inside that cables fill',
      value: '53 % for one cable, 31 % for two, 40 % for more; 15 % of it less for each 90° bend',
      clause: `NFPA 70 chapter 9 table 1 as good practice; bends after ${HANDBOOK}; where the size is a trade size`,
    },
  ],
  check: (context) => [...conduits(context), ...risers(context)],
};

function conduits({ plan, runs }: RuleContext): Remark[] {
  const { cableDiameter } = settings(plan);
  return ducts(plan, runs).flatMap(({ pathway, runs: inside }) => {
    const bends = degreesOf(bendsOf(pathway.points));
    const words = tooFull(pathwayName(pathway), pathway.size, inside, cableDiameter, bends);
    const at = { level: pathway.level, point: pathway.points[0]! };
    return words ? [{ subjects: [{ table: 'pathways', id: pathway.id }], at, ...words }] : [];
  });
}

function risers({ plan, runs }: RuleContext): Remark[] {
  const { cableDiameter } = settings(plan);
  return [...runsByRiser(runs)].flatMap(([id, inside]) => {
    const riser = plan.tables.risers.get(id);
    if (!riser) return [];
    const words = tooFull(passName(plan, 'risers', riser), riser.size, inside, cableDiameter, 0);
    const at = { level: riser.level, point: riser.at };
    return words ? [{ subjects: [{ table: 'risers', id }], at, ...words }] : [];
  });
}

/** What there is to say of so many cables in one conduit; null where they fit or its size is not known. */
function tooFull(
  name: string,
  size: string,
  runs: readonly Run[],
  cable: number,
  degrees: number,
): Pick<Remark, 'message' | 'remedy' | 'fix'> | null {
  const trade = tradeSize(size);
  if (!trade || fits(trade, runs.length, cable, degrees)) return null;
  return {
    message: msg(
      degrees > 0
        ? 'Through {name} go {count} cables ({labels}); with its bends {size} holds {most}.'
        : 'Through {name} go {count} cables ({labels}); {size} holds {most}.',
      {
        count: runs.length,
        name,
        labels: labelsOf(runs),
        size: trade.name,
        most: mostCables(trade, cable, degrees),
      },
    ),
    remedy: larger(runs.length, cable, degrees),
    fix: null,
  };
}

function larger(count: number, cable: number, degrees: number): Message {
  const enough = TRADE_SIZES.find((trade) => fits(trade, count, cable, degrees));
  return enough
    ? msg(
        'Use {size}, or lay another beside it. Reckoned with the thickness of cable in the settings of the job.',
        { size: enough.name },
      )
    : msg('Lay several beside each other, or a tray: no trade size holds them.');
}

/** Whether so many cables of a diameter, mm, may go through a conduit with bends of so many degrees. */
function fits({ inside }: TradeSize, count: number, cable: number, degrees: number): boolean {
  const share = SHARES[Math.min(count, SHARES.length) - 1]!;
  const left = Math.max(0, 1 - (OFF_PER_BEND * degrees) / 90);
  return count * cable ** 2 <= share * left * inside ** 2 * (1 + Number.EPSILON);
}

/**
 * The most cables that may go through a conduit. Not all fewer fit: where two would overfill it at their 31 %, three
 * may still be within 40 %.
 */
export function mostCables(trade: TradeSize, cable: number, degrees: number): number {
  let most = Math.floor((trade.inside / cable) ** 2);
  while (most > 0 && !fits(trade, most, cable, degrees)) most -= 1;
  return most;
}
