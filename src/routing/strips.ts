import { lowerBound } from './lines.ts';
import type { Media } from './medium.ts';
import type { Profile } from './profile.ts';
import { coordinatesOf, profileOf, type Wish, type Wishes } from './wishes.ts';

/**
 * An axis cut where anything begins or ends, and at some coordinates more. Between two of them the same lies beside
 * every coordinate, so it is looked at once for all: outlets that are dragged, or many in a row, mostly share it.
 */
export interface Strips {
  /** Ascending. */
  readonly at: Float64Array;
  readonly wishes: readonly Wish[];
  /** What lies beside the coordinates before each of them and after the last, once somebody has asked. */
  readonly between: (Profile | undefined)[];
}

/** The strips of one axis. */
export function stripsOf(wishes: Wishes, axis: 0 | 1): Strips {
  const coordinates = coordinatesOf(wishes, axis);
  return {
    at: Float64Array.from(coordinates),
    wishes: coordinates.map((c) => wishes.axes[axis].get(c)!),
    between: new Array<Profile | undefined>(coordinates.length + 1).fill(undefined),
  };
}

/** What lies just below a coordinate and just above it. */
export function besideStrips(
  media: Media,
  axis: 0 | 1,
  { at, wishes, between }: Strips,
  c: number,
): readonly [Profile, Profile] {
  const i = lowerBound(at, c);
  if (at[i] === c)
    return [profileOf(media, axis, c, wishes[i]!, 0), profileOf(media, axis, c, wishes[i]!, 1)];
  between[i] ??= media.beside(axis, c, 0);
  return [between[i], between[i]];
}
