import type { Leg } from './leg.ts';
import type { Media } from './medium.ts';
import type { Profile } from './profile.ts';
import type { Start } from './starts.ts';
import { type Toll, tollWithin } from './toll.ts';

/** One way along a line through a start, on one side of it. */
export interface Ray {
  readonly axis: 0 | 1;
  readonly c: number;
  readonly side: 0 | 1;
  readonly profile: Profile;
  readonly from: number;
  /** 1 towards more, 0 towards less; also the side of the start. */
  readonly forward: 0 | 1;
  /** The stretch of the profile that it sets out in. */
  readonly stretch: number;
  readonly cost: number;
  readonly second: number;
  readonly start: Start;
  readonly legs: readonly Leg[];
}

/** The stretch of a ray up to a position. */
export const rayLeg = (ray: Ray, to: number, toSide: 0 | 1): Leg => ({
  on: 'line',
  axis: ray.axis,
  c: ray.c,
  side: ray.side,
  profile: ray.profile,
  from: ray.from,
  to,
  fromSide: ray.forward,
  toSide,
});

/** From a position of a ray along the line across it there, which has a profile, to a position of that line. */
export const turnLeg = (
  ray: Ray,
  d: number,
  dSide: 0 | 1,
  profile: Profile,
  to: number,
  toSide: 0 | 1,
): Leg => ({
  on: 'line',
  axis: (1 - ray.axis) as 0 | 1,
  c: d,
  side: dSide,
  profile,
  from: ray.c,
  to,
  fromSide: ray.side,
  toSide,
});

/** The toll from where a ray begins to a position that it leads to, which lies in a stretch of its profile. */
export function rayToll(
  media: Media,
  { profile: { row }, from, forward, stretch: first }: Ray,
  to: number,
  stretch: number,
  out: Toll,
): void {
  if (forward) tollWithin(media, row, first, from, stretch, to, out);
  else tollWithin(media, row, stretch, to, first, from, out);
}
