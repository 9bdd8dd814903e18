/** Stretches the length of a piece so that whatever fits in a box still fits in one of size `full`. */
interface Stretch {
  readonly full: number;
  of(size: number): number;
}

/** Steps of u(k) that are tried; larger ones have not helped on the published test problems. */
const MOST_STEPS = 24;

/** Lengths of pieces that are tried as split or unit; beyond so many different ones, evenly spread. */
const MOST_UNITS = 256;

/**
 * Boxes that any cutting plan needs at least: the best of the total length and of dual feasible functions, which
 * count long pieces as longer and short ones as shorter than they are, such that whatever fits in a box still does.
 *
 * Sources: S. Martello and P. Toth, Lower bounds and reduction procedures for the bin packing problem (1990), bound
 * L2; S. Fekete and J. Schepers, New classes of fast lower bounds for bin packing problems (2001), functions u(k);
 * J. Carlier, F. Clautiaux and A. Moukrim, New reduction procedures and lower bounds for the two-dimensional bin
 * packing problem with fixed orientation (2007), function f2.
 *
 * @param sizes positive integers, none above `capacity`
 * @param enough boxes that some cutting plan needs: no bound can be higher, so the search for one stops there
 */
export function boxBound(
  sizes: readonly number[],
  capacity: number,
  enough = Number.POSITIVE_INFINITY,
): number {
  const counts = new Map<number, number>();
  for (const size of sizes) counts.set(size, (counts.get(size) ?? 0) + 1);
  const distinct = [...counts.keys()];
  const times = [...counts.values()];
  let best = 0;
  for (const stretch of stretches(distinct, reachable(sizes, capacity))) {
    let total = 0;
    for (let i = 0; i < distinct.length; i++) total += times[i]! * stretch.of(distinct[i]!);
    best = Math.max(best, Math.ceil(total / stretch.full));
    if (best >= enough) return best;
  }
  return best;
}

/** The most that pieces can fill of a box: they all are multiples of one length, so their sums are as well. */
function reachable(sizes: readonly number[], capacity: number): number {
  const step = sizes.reduce(commonDivisor, 0);
  return step === 0 ? capacity : capacity - (capacity % step);
}

const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b));

function* stretches(distinct: readonly number[], capacity: number): Generator<Stretch> {
  yield { full: capacity, of: (size) => size };
  for (let k = 1; k <= MOST_STEPS; k += 1) yield inSteps(capacity, k);
  const short = distinct.filter((size) => 2 * size <= capacity).sort((a, b) => a - b);
  const stride = Math.ceil(short.length / MOST_UNITS);
  for (let i = 0; i < short.length; i += stride) {
    yield bySplit(capacity, short[i]!);
    yield byUnit(capacity, short[i]!);
  }
}

/** L2: what leaves no room for a piece of length `split` fills a box, and pieces shorter than it are left out. */
const bySplit = (capacity: number, split: number): Stretch => ({
  full: capacity,
  of: (size) => (size > capacity - split ? capacity : size < split ? 0 : size),
});

/** u(k): lengths in steps of a k-th, rounded down from a (k + 1)-th; exact multiples stay as they are. */
const inSteps = (capacity: number, k: number): Stretch => ({
  full: capacity * k,
  of: (size) => {
    const steps = (k + 1) * size;
    return steps % capacity === 0 ? size * k : Math.floor(steps / capacity) * capacity;
  },
});

/** f2: how many pieces of length `unit` a piece costs the box, counted in halves so that it stays symmetric. */
function byUnit(capacity: number, unit: number): Stretch {
  const units = (length: number) => Math.floor(length / unit);
  return {
    full: 2 * units(capacity),
    of: (size) => {
      if (2 * size === capacity) return units(capacity);
      return 2 * size < capacity ? 2 * units(size) : 2 * (units(capacity) - units(capacity - size));
    },
  };
}
