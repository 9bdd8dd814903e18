/** Stretches of many lines in two columns, one line after another. The columns change when room runs out. */
export class Stretches {
  count = 0;
  starts: Float64Array;
  media: Int32Array;

  /** @param room for so many at first, ends counted */
  constructor(room: number) {
    this.starts = new Float64Array(room);
    this.media = new Int32Array(room);
  }

  /** Adds a stretch, or the end after the last of a line. */
  put(start: number, medium: number): void {
    if (this.count === this.starts.length) this.#grow();
    this.starts[this.count] = start;
    this.media[this.count++] = medium;
  }

  #grow(): void {
    const { starts, media } = this;
    this.starts = new Float64Array(2 * starts.length);
    this.media = new Int32Array(2 * media.length);
    this.starts.set(starts);
    this.media.set(media);
  }
}

/**
 * A line cut into stretches, which have the numbers from `first` to before `end` in a row. Stretch i goes from starts[i]
 * to starts[i + 1]; the first starts at -Infinity, and at `end` stands Infinity.
 */
export interface Profile {
  readonly row: Stretches;
  readonly first: number;
  readonly end: number;
}

/** Whether two profiles change at the same places to the same media. */
export function sameProfile(a: Profile, b: Profile): boolean {
  if (a.end - a.first !== b.end - b.first) return false;
  const { starts, media } = a.row;
  const { starts: others, media: theirs } = b.row;
  for (let i = a.first, j = b.first; i < a.end; i++, j++)
    if (starts[i] !== others[j] || media[i] !== theirs[j]) return false;
  return true;
}

/** The stretch of a profile that holds at a position: on a boundary the side decides. */
export function stretchAt(
  { row: { starts }, first, end }: Profile,
  at: number,
  side: 0 | 1,
): number {
  let lo = first;
  let hi = end - 1;
  while (lo < hi) {
    const mid = (lo + hi + 1) >> 1;
    const start = starts[mid]!;
    if (side === 0 ? start < at : start <= at) lo = mid;
    else hi = mid - 1;
  }
  return lo;
}

/** The same, for a position that is near to a stretch. */
export function stretchFrom({ starts }: Stretches, from: number, at: number, side: 0 | 1): number {
  let k = from;
  if (side === 0) {
    while (starts[k + 1]! < at) k++;
    while (starts[k]! >= at) k--;
  } else {
    while (starts[k + 1]! <= at) k++;
    while (starts[k]! > at) k--;
  }
  return k;
}

/** Whether a position lies inside a stretch, where none begins or ends. */
export const isInside = (profile: Profile, at: number): boolean =>
  profile.row.starts[stretchAt(profile, at, 1)] !== at;

/** The medium that holds at a position of a profile: on a boundary the side decides. */
export const mediumAt = (profile: Profile, at: number, side: 0 | 1): number =>
  profile.row.media[stretchAt(profile, at, side)]!;
