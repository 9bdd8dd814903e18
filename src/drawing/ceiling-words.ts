import { type Message, msg } from '../base/message.ts';
import type {
  PlaneCeiling,
  PlaneKeepout,
  PlanePathway,
  PlaneWall,
} from '../results/ceiling-plane.ts';

/** A factor as it is multiplied with: `1`, `1.2`. */
const times = (percent: number): number => percent / 100;

const TRAVEL: Readonly<Record<PlaneCeiling['kind'], Message>> = {
  tile: msg('Lay-in tiles: free'),
  open: msg('Open: free'),
  hard: msg('Hard: along walls only'),
};

/** What a cable may do under a ceiling, where it lies there and what that counts for, shortest first. */
export const ceilingWords = ({ kind, elevation, factor }: PlaneCeiling): Message[] => [
  TRAVEL[kind],
  msg('cable at {elevation}', { elevation: { mm: elevation } }),
  msg('length × {factor}', { factor: times(factor) }),
];

const WORK: Readonly<Record<PlaneWall['work'], string>> = {
  none: 'no hole',
  sleeve: 'sleeve',
  core: 'core',
  seal: 'sealed hole',
};

const BARRED: Partial<Record<PlaneWall['reason'], Message>> = {
  exterior: msg('exterior wall: blocked'),
  insulated: msg('insulated panel: blocked'),
};

/** What passing a wall takes and counts for: `sleeve +3'-3"`. */
export function wallWords({ passage, reason, work, firestop, price }: PlaneWall): Message {
  if (passage === 'barred') return BARRED[reason] ?? msg('blocked');
  if (reason === 'grid') return msg('stops below the cable: free');
  const what = firestop ? `${WORK[work]}, firestop` : WORK[work];
  return msg('{what} +{price}', { what, price: { mm: price } });
}

/** Why a keep-out is one for cable, with its name. */
export const keepoutWords = ({ clearance }: PlaneKeepout, name: string): Message =>
  clearance > 0
    ? msg('{name}: blocked, {clearance} kept clear', { name, clearance: { mm: clearance } })
    : msg('{name}: blocked', { name });

/** Where a pathway lies and what it counts for, after its name. */
export const pathwayWords = ({ elevation, factor, joins }: PlanePathway, name: string): Message => {
  const at = elevation === null ? '{name} follows the ceiling' : '{name} at {elevation}';
  const ends = joins === 'ends' ? ', in and out at its ends' : '';
  return msg(`${at}, length × {factor}${ends}`, {
    name,
    factor: times(factor),
    ...(elevation === null ? {} : { elevation: { mm: elevation } }),
  });
};
