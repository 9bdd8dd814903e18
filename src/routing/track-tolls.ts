import { type Media, UNITS } from './medium.ts';
import { mediumAt, stretchAt } from './profile.ts';
import { type Toll, toll } from './toll.ts';
import type { Track } from './track.ts';

/** Elevation of a cable on a track. On a border between two zones, the lower of the two. */
export function elevationOn(media: Media, track: Track, p: number, side: 0 | 1): number {
  if (track.elevation !== null) return track.elevation;
  const one = media.list[mediumAt(track.profile, p, side)]!.z;
  const two = media.list[mediumAt(track.other, p, side)]!.z;
  return Math.min(one, two);
}

/** Cost and length along a track from position a to b >= a; on a pathway no wall costs anything. */
export function trackToll(
  media: Media,
  track: Track,
  a: number,
  sideA: 0 | 1,
  b: number,
  sideB: 0 | 1,
  factor: number,
  out: Toll,
): void {
  if (track.line < 0) {
    toll(media, track.profile, a, sideA, b, sideB, out);
    return;
  }
  const steps = track.elevation === null ? stepsAlong(media, track, a, sideA, b, sideB) : 0;
  out.cost = Math.round((b - a) * 2 * factor) + steps * UNITS;
  out.length = b - a + steps;
}

/** Sum of the steps of a track that follows the ceiling, from a to b. */
function stepsAlong(
  media: Media,
  track: Track,
  a: number,
  sideA: 0 | 1,
  b: number,
  sideB: 0 | 1,
): number {
  const { profile, other } = track;
  const changes = stretchAt(profile, a, sideA) !== stretchAt(profile, b, sideB);
  if (!changes && (other === profile || stretchAt(other, a, sideA) === stretchAt(other, b, sideB)))
    return 0;
  let z = elevationOn(media, track, a, sideA);
  let steps = 0;
  for (const p of bordersOf(track, a, sideA, b, sideB)) {
    const next = elevationOn(media, track, p, 1);
    steps += Math.abs(next - z);
    z = next;
  }
  return steps + Math.abs(elevationOn(media, track, b, sideB) - z);
}

/** Positions between a and b where what the track runs in changes, ascending. */
export function bordersOf(
  track: Track,
  a: number,
  sideA: 0 | 1,
  b: number,
  sideB: 0 | 1,
): number[] {
  const found: number[] = [];
  for (const profile of [track.profile, track.other]) {
    const last = stretchAt(profile, b, sideB);
    for (let k = stretchAt(profile, a, sideA) + 1; k <= last; k++)
      found.push(profile.row.starts[k]!);
  }
  return [...new Set(found)].sort((p, q) => p - q);
}
