/** A straight face in the frame of a direction: what lies in one line and touches, put together. */
export interface Face {
  readonly x0: number;
  readonly x1: number;
  readonly y: number;
}

/** Two faces, one over the other with nothing between them, along a stretch. */
export interface Gap {
  readonly low: Face;
  readonly high: Face;
  readonly x0: number;
  readonly x1: number;
}

/** Lines so near beside one another are one, mm, and all that are put together lie in so narrow a band. */
const BESIDE = 2;
const BAND = 4;
/** Pieces with no more between them are one, mm. */
const TOUCH = 5;

/** Puts together what lies in one line and touches. */
export function facesOf(levels: readonly Face[]): Face[] {
  const sorted = [...levels].sort((p, q) => p.y - q.y || p.x0 - q.x0);
  const faces: Face[] = [];
  for (let i = 0; i < sorted.length; ) {
    const first = sorted[i]!.y;
    let end = i + 1;
    while (
      end < sorted.length &&
      sorted[end]!.y - sorted[end - 1]!.y <= BESIDE &&
      sorted[end]!.y - first <= BAND
    )
      end++;
    joinInto(
      faces,
      sorted.slice(i, end).sort((p, q) => p.x0 - q.x0),
    );
    i = end;
  }
  return faces;
}

function joinInto(faces: Face[], line: readonly Face[]): void {
  let [x0, x1] = [line[0]!.x0, Number.NEGATIVE_INFINITY];
  let [sum, weight] = [0, 0];
  const flush = () => {
    if (weight > 0) faces.push({ x0, x1, y: sum / weight });
  };
  for (const piece of line) {
    if (piece.x0 > x1 + TOUCH) {
      flush();
      [x0, x1, sum, weight] = [piece.x0, piece.x0, 0, 0];
    }
    const length = piece.x1 - piece.x0;
    x1 = Math.max(x1, piece.x1);
    sum += piece.y * length;
    weight += length;
  }
  flush();
}

/**
 * Every stretch along which one face lies over another with no third between, by one sweep across the direction.
 *
 * @param most pairs farther apart than this are left out, mm
 */
export function gapsBetween(faces: readonly Face[], most: number): Gap[] {
  const sorted = [...faces].sort((p, q) => p.y - q.y || p.x0 - q.x0);
  // What was met last, along the direction: from each place on, up to the next.
  let from: number[] = [Number.NEGATIVE_INFINITY];
  let last: (Face | null)[] = [null];
  const gaps: Gap[] = [];
  for (const high of sorted) {
    const first = placeOf(from, high.x0);
    let i = first;
    for (; i < from.length && from[i]! < high.x1; i++) {
      const low = last[i];
      const x0 = Math.max(high.x0, from[i]!);
      const x1 = Math.min(high.x1, from[i + 1] ?? Number.POSITIVE_INFINITY);
      if (low && x1 > x0 && high.y - low.y <= most) gaps.push({ low, high, x0, x1 });
    }
    const [heads, owners]: [number[], (Face | null)[]] = [[], []];
    if (from[first]! < high.x0) {
      heads.push(from[first]!);
      owners.push(last[first]!);
    }
    heads.push(high.x0);
    owners.push(high);
    if ((from[i] ?? Number.POSITIVE_INFINITY) > high.x1) {
      heads.push(high.x1);
      owners.push(last[i - 1]!);
    }
    from = spliced(from, first, i, heads);
    last = spliced(last, first, i, owners);
  }
  return gaps;
}

function spliced<T>(list: T[], start: number, end: number, by: readonly T[]): T[] {
  list.splice(start, end - start, ...by);
  return list;
}

/** The last entry of a sorted list that is no more than a value. */
function placeOf(list: readonly number[], value: number): number {
  let [low, high] = [0, list.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (list[middle]! <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}
