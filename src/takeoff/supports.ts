import type { Plan } from '../plan/plan.ts';
import type { Place, Run, Segment, Way } from '../results/types.ts';

/**
 * Length of ceiling travel that hangs on supports, mm; a way that several cables share counts once.
 *
 * Counted are drawn hook lines that are not there already, and free travel over tile and open ceilings. Tray, conduit,
 * raceway, sleeve and under-slab pathways carry the cable themselves, a hard ceiling is passed in raceway, and verticals
 * hang. Where the ceiling is not known, a support too many is better than one too few.
 *
 * @param raceway how much of the free travel lies in raceway, mm
 */
export function supportedLength(plan: Plan, ways: readonly Way[], raceway: number): number {
  return (
    sum(ways.filter((way) => isNewHookLine(plan, way)).map(lengthOf)) +
    sum(ways.filter(isFree).map(lengthOf)) -
    raceway
  );
}

/**
 * Length of ceiling travel along closed ceilings without a drawn pathway, mm, which takes surface raceway; a way that
 * several cables share counts once.
 */
export function racewayLength(runs: readonly Run[], ways: readonly Way[]): number {
  const hard = new Map(runs.map((run) => [run.jack, run.segments.filter(isUnderHard)]));
  return sum(
    ways.filter(isFree).map((way) => lengthUnderHard(way, hard.get(way.jacks[0] ?? '') ?? [])),
  );
}

const isUnderHard = ({ ceiling, pathway }: Segment): boolean =>
  ceiling === 'hard' && pathway === null;

const sum = (lengths: readonly number[]): number => lengths.reduce((a, b) => a + b, 0);

const lengthOf = ({ from, to }: Way): number => Math.hypot(to[0] - from[0], to[1] - from[1]);

const isFree = (way: Way): boolean => way.pathway === null;

function isNewHookLine(plan: Plan, way: Way): boolean {
  const pathway = way.pathway === null ? undefined : plan.tables.pathways.get(way.pathway);
  return pathway?.kind === 'hook-line' && !pathway.existing;
}

/** How much of a way lies under hard ceilings: it may pass from room to room at one elevation. */
function lengthUnderHard(way: Way, hard: readonly Segment[]): number {
  if (hard.length === 0) return 0;
  return Math.min(lengthOf(way), sum(hard.map((segment) => shared(segment, way))));
}

/** How far a place may lie beside a way that it is on, mm: both are rounded. */
const BESIDE = 2;

/** The length that a segment has in common with a way, mm; 0 where it lies elsewhere. */
function shared(segment: Segment, way: Way): number {
  const length = lengthOf(way);
  if (length === 0) return 0;
  const [x, y, z] = way.from;
  const [dx, dy] = [way.to[0] - x, way.to[1] - y];
  const along = (p: Place) => ((p[0] - x) * dx + (p[1] - y) * dy) / length;
  const beside = (p: Place) =>
    Math.hypot(((p[0] - x) * dy - (p[1] - y) * dx) / length, p[2] - z) > BESIDE;
  if (beside(segment.from) || beside(segment.to)) return 0;
  const within = (at: number) => Math.min(length, Math.max(0, at));
  return Math.abs(within(along(segment.to)) - within(along(segment.from)));
}
