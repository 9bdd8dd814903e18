/** A line cut into stretches: stretch i goes from starts[i] to starts[i + 1]; the first starts at -Infinity. */
export interface Profile {
  readonly starts: number[];
  readonly media: number[];
}

/** Whether two profiles change at the same places to the same media. */
export function sameProfile(a: Profile, b: Profile): boolean {
  if (a.starts.length !== b.starts.length) return false;
  for (let i = 0; i < a.starts.length; i++)
    if (a.starts[i] !== b.starts[i] || a.media[i] !== b.media[i]) return false;
  return true;
}

/** The stretch of a profile that holds at a position: on a boundary the side decides. */
export function stretchAt(profile: Profile, at: number, side: 0 | 1): number {
  const { starts } = profile;
  let lo = 0;
  let hi = starts.length - 1;
  while (lo < hi) {
    const mid = (lo + hi + 1) >> 1;
    const start = starts[mid]!;
    if (side === 0 ? start < at : start <= at) lo = mid;
    else hi = mid - 1;
  }
  return lo;
}

/** The same, for a position that is near to a stretch. */
export function stretchFrom({ starts }: Profile, from: number, at: number, side: 0 | 1): number {
  let k = from;
  if (side === 0) {
    while (k + 1 < starts.length && starts[k + 1]! < at) k++;
    while (starts[k]! >= at) k--;
  } else {
    while (k + 1 < starts.length && starts[k + 1]! <= at) k++;
    while (starts[k]! > at) k--;
  }
  return k;
}

/** Whether a position lies inside a stretch, where none begins or ends. */
export function isInside(profile: Profile, at: number): boolean {
  return profile.starts[stretchAt(profile, at, 1)] !== at;
}

/** The medium that holds at a position of a profile: on a boundary the side decides. */
export const mediumAt = (profile: Profile, at: number, side: 0 | 1): number =>
  profile.media[stretchAt(profile, at, side)]!;
