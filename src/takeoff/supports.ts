import type { Plan } from '../plan/plan.ts';
import type { Place, Run, Segment, Way } from '../results/types.ts';

/**
 * Length of ceiling travel that hangs on supports, mm; a way that several cables share counts once.
 *
 * Counted are drawn hook lines that are not there already, and free travel over tile and open ceilings. Tray, conduit, raceway, sleeve and
 * under-slab pathways carry the cable themselves, a hard ceiling is passed in raceway, and verticals hang.
 */
export function supportedLength(plan: Plan, runs: readonly Run[], ways: readonly Way[]): number {
  const byJack = new Map(runs.map((run) => [run.jack, run]));
  return ways
    .filter((way) => isSupported(plan, way, byJack.get(way.jacks[0] ?? '')))
    .reduce((sum, way) => sum + Math.hypot(way.to[0] - way.from[0], way.to[1] - way.from[1]), 0);
}

/**
 * Length of ceiling travel along closed ceilings without a drawn pathway, mm, which takes surface raceway; a way that
 * several cables share counts once.
 */
export function racewayLength(runs: readonly Run[], ways: readonly Way[]): number {
  const byJack = new Map(runs.map((run) => [run.jack, run]));
  return ways
    .filter(
      (way) => way.pathway === null && ceilingOver(way, byJack.get(way.jacks[0] ?? '')) === 'hard',
    )
    .reduce((sum, way) => sum + Math.hypot(way.to[0] - way.from[0], way.to[1] - way.from[1]), 0);
}

function isSupported(plan: Plan, way: Way, run: Run | undefined): boolean {
  if (way.pathway !== null) {
    const pathway = plan.tables.pathways.get(way.pathway);
    return pathway?.kind === 'hook-line' && !pathway.existing;
  }
  // Where the ceiling over a way is not known, a support too many is better than one too few.
  return ceilingOver(way, run) !== 'hard';
}

function ceilingOver(way: Way, run: Run | undefined): Segment['ceiling'] {
  const middle: Place = [
    (way.from[0] + way.to[0]) / 2,
    (way.from[1] + way.to[1]) / 2,
    (way.from[2] + way.to[2]) / 2,
  ];
  return run?.segments.find((segment) => holds(segment, middle))?.ceiling ?? null;
}

/** Whether a place lies on a segment, to the millimetre. */
function holds(segment: Segment, place: Place): boolean {
  const whole = distance(segment.from, segment.to);
  return distance(segment.from, place) + distance(place, segment.to) - whole < 1;
}

const distance = (a: Place, b: Place): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
