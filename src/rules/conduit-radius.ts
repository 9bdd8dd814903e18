import { msg } from '../base/message.ts';
import { distance } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { pathwayName } from '../plan/names.ts';
import { bendsOf, type Duct, ducts, type TradeSize, tradeSize } from './ducts.ts';
import type { Remark, Rule } from './rule.ts';
import { PATHWAYS } from './sources.ts';

/** Radius of a bend in inside diameters, up to 2 in. and above it. */
const TIMES = 6;
const TIMES_LARGE = 10;

/** The bends of a conduit are drawn so close that they cannot be bent as wide as they have to be. */
export const conduitRadius: Rule = {
  id: 'conduit-radius',
  title: msg('Bends of a conduit are too close'),
  severity: 'note',
  source: { document: PATHWAYS, clause: 'bend radius of conduit (from memory)' },
  limits: [
    {
      name: 'straight drawn before, between and after bends',
      value: 'what the bends take of it: radius times the tangent of half their angle',
      clause:
        '6 inside diameters up to 2 in., 10 above; from memory; where the size is a trade size',
    },
  ],
  check: ({ plan, runs }) =>
    ducts(plan, runs).flatMap((duct) => {
      const trade = tradeSize(duct.pathway.size);
      return trade ? remarks(duct, trade) : [];
    }),
};

const radiusOf = ({ inches, inside }: TradeSize): number =>
  inside * (inches > 2 ? TIMES_LARGE : TIMES);

/** The first piece that is shorter than its bends take. */
function remarks({ pathway }: Duct, trade: TradeSize): Remark[] {
  const radius = radiusOf(trade);
  const bends = bendsOf(pathway.points);
  const places = [pathway.points[0]!, ...bends.map((b) => b.at), pathway.points.at(-1)!];
  const takes = [0, ...bends.map((b) => radius * Math.tan((b.degrees * Math.PI) / 360)), 0];
  const short = places
    .slice(1)
    .findIndex((at, i) => distance(places[i]!, at) < takes[i]! + takes[i + 1]!);
  if (short < 0) return [];
  return [
    {
      subjects: [{ table: 'pathways', id: pathway.id }],
      at: { level: pathway.level, point: middle(places[short]!, places[short + 1]!) },
      message: msg(
        'In {name} a piece of {drawn} stands where bends of {size} conduit take {taken}, at a radius of {radius}.',
        {
          name: pathwayName(pathway),
          size: trade.name,
          drawn: { mm: distance(places[short]!, places[short + 1]!) },
          taken: { mm: takes[short]! + takes[short + 1]! },
          radius: { mm: radius },
        },
      ),
      remedy: msg(
        'Draw it straighter, or as a gentle offset, or with a pull box between two parts.',
      ),
      fix: null,
    },
  ];
}

const middle = (a: Point, b: Point): Point => [
  Math.round((a[0] + b[0]) / 2),
  Math.round((a[1] + b[1]) / 2),
];
