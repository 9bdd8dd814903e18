import { msg } from '../base/message.ts';
import { FOOT } from '../base/units.ts';
import { chainLength, distance } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { pathwayName } from '../plan/names.ts';
import { bendsOf, type Duct, degreesOf, ducts } from './ducts.ts';
import type { Remark, Rule } from './rule.ts';
import { PATHWAYS } from './sources.ts';
import { labelsOf } from './words.ts';

/** Bends between two pull points, and the length, mm. */
const MOST_DEGREES = 180;
const MOST_LENGTH = 100 * FOOT;

/** Whole coordinates turn a slanted bend by a little more or less than was meant. */
const SLIP = 1;

/** A conduit that carries cables bends too much, or is too long, to pull them through in one go. */
export const conduitPull: Rule = {
  id: 'conduit-pull',
  title: msg('A conduit wants a pull point'),
  severity: 'warning',
  source: { document: PATHWAYS, clause: 'pull points in conduit' },
  limits: [
    {
      name: 'bends between pull points, added up',
      value: '180°',
      clause: 'no more than two 90° bends; as drawn, turns up or down at the ends left aside',
    },
    {
      name: 'length between pull points',
      value: '30 m (100 ft)',
      clause: 'compared with 100 ft, 30.48 m; pull points are the ends of the conduit',
    },
  ],
  check: ({ plan, runs }) =>
    ducts(plan, runs).flatMap((duct) => [...tooManyBends(duct), ...tooLong(duct)]),
};

function tooManyBends(duct: Duct): Remark[] {
  const bends = bendsOf(duct.pathway.points);
  const over = bends.findIndex((_, i) => degreesOf(bends.slice(0, i + 1)) > MOST_DEGREES + SLIP);
  if (over < 0) return [];
  return [
    {
      ...placed(duct, bends[over]!.at),
      message: msg(
        'In {name} the bends come to {degrees}°; cables ({labels}) are pulled round {most}° at most.',
        {
          name: pathwayName(duct.pathway),
          degrees: Math.round(degreesOf(bends)),
          labels: labelsOf(duct.runs),
          most: MOST_DEGREES,
        },
      ),
      remedy: msg(
        'Put a pull box into a straight part before this bend, never in place of one, and draw the conduit as two that meet there.',
      ),
    },
  ];
}

function tooLong(duct: Duct): Remark[] {
  const { points } = duct.pathway;
  const length = chainLength(points);
  if (length <= MOST_LENGTH) return [];
  return [
    {
      ...placed(duct, along(points, MOST_LENGTH)),
      message: msg(
        'Between its ends {name} is {length} long; cables ({labels}) are pulled through {most} at most.',
        {
          name: pathwayName(duct.pathway),
          length: { mm: length },
          labels: labelsOf(duct.runs),
          most: { mm: MOST_LENGTH },
        },
      ),
      remedy: msg(
        'Put a pull box into a straight part before this place, and draw the conduit as two that meet there.',
      ),
    },
  ];
}

const placed = ({ pathway }: Duct, point: Point): Pick<Remark, 'subjects' | 'at' | 'fix'> => ({
  subjects: [{ table: 'pathways', id: pathway.id }],
  at: { level: pathway.level, point },
  fix: null,
});

/** The place at a length along a chain, in whole mm. */
function along(points: readonly Point[], length: number): Point {
  let left = length;
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!];
    const piece = distance(a, b);
    if (left <= piece) {
      const t = piece === 0 ? 0 : left / piece;
      return [Math.round(a[0] + (b[0] - a[0]) * t), Math.round(a[1] + (b[1] - a[1]) * t)];
    }
    left -= piece;
  }
  return points[points.length - 1]!;
}
