import type { Profile } from './profile.ts';

/** A stretch of a line of the plane, or of a track; it may have no length and then only says where the cable is. */
export type Leg =
  | {
      readonly on: 'line';
      readonly axis: 0 | 1;
      readonly c: number;
      readonly side: 0 | 1;
      readonly profile: Profile;
      readonly from: number;
      readonly to: number;
      readonly fromSide: 0 | 1;
      readonly toSide: 0 | 1;
    }
  | {
      readonly on: 'track';
      readonly track: number;
      readonly from: number;
      readonly to: number;
      readonly fromSide: 0 | 1;
      readonly toSide: 0 | 1;
    };

/** The same way, walked from its other end. */
export const backwards = (legs: readonly Leg[]): Leg[] =>
  legs
    .map((leg) => ({
      ...leg,
      from: leg.to,
      to: leg.from,
      fromSide: leg.toSide,
      toSide: leg.fromSide,
    }))
    .reverse();
