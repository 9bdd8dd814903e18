/** A box: the indices of its pieces in the list of sizes. */
type Box = readonly number[];

/** A box with the sum of its sizes, which is asked for in every round. */
interface Filled {
  readonly box: Box;
  readonly sum: number;
}

/** Rounds of repacking, boxes repacked at once, and choices looked at for one box: bounds on work, not on a clock. */
const ROUNDS = 2000;
const REPACKED = 10;
const CHOICES = 200;

/**
 * Packs whole pieces into boxes: best-fit decreasing, then, until the bound is met or the rounds are used up, the
 * emptiest box and some others are emptied and filled anew, each as tightly as a short search can. The choice of
 * boxes comes from a fixed sequence of numbers, so the same pieces always give the same boxes.
 *
 * Source of the tight filling: J. Gupta and J. Ho, A new heuristic algorithm for the one-dimensional bin-packing
 * problem (1999), minimum bin slack; K. Fleszar and K. Hindi (2002), MBS'.
 *
 * @param sizes positive integers, none above `capacity`
 * @param bound no packing has fewer boxes; the search stops there
 * @param first the packing that it starts from
 */
export function packBoxes(
  sizes: readonly number[],
  capacity: number,
  bound: number,
  first: Box[] = bestFitDecreasing(sizes, capacity),
): Box[] {
  const chance = sequence();
  const withSum = (box: Box): Filled => ({ box, sum: filled(box, sizes) });
  let boxes = first.map(withSum);
  for (let round = 0; round < ROUNDS && boxes.length > bound; round += 1) {
    const picked = choose(boxes, chance);
    const chosen = [...picked].map((i) => boxes[i]!);
    const pieces = chosen.flatMap(({ box }) => box);
    // By length every other time: long pieces first packs well, and any other order finds what that misses.
    if (round % 2 === 0) pieces.sort((a, b) => sizes[b]! - sizes[a]! || a - b);
    else shuffle(pieces, chance);
    const refilled = fillTightly(pieces, sizes, capacity).map(withSum);
    if (isNoWorse(refilled, chosen))
      boxes = [...boxes.filter((_, i) => !picked.has(i)), ...refilled];
  }
  return boxes.map(({ box }) => box);
}

/**
 * Best-fit decreasing: the longest piece first, each into the fullest box that still takes it. Equal sizes keep
 * their order, so the outcome is fixed.
 */
export function bestFitDecreasing(sizes: readonly number[], capacity: number): Box[] {
  const boxes: { pieces: number[]; left: number }[] = [];
  const longestFirst = sizes.map((_, i) => i).sort((a, b) => sizes[b]! - sizes[a]! || a - b);
  for (const piece of longestFirst) {
    const size = sizes[piece]!;
    let best: (typeof boxes)[number] | undefined;
    for (const box of boxes)
      if (box.left >= size && (best === undefined || box.left < best.left)) best = box;
    if (best === undefined) {
      best = { pieces: [], left: capacity };
      boxes.push(best);
    }
    best.pieces.push(piece);
    best.left -= size;
  }
  return boxes.map((box) => box.pieces);
}

const filled = (box: Box, sizes: readonly number[]): number =>
  box.reduce((sum, piece) => sum + sizes[piece]!, 0);

/** The emptiest box and some others by chance. */
function choose(boxes: readonly Filled[], chance: (below: number) => number): Set<number> {
  let emptiest = 0;
  for (let i = 1; i < boxes.length; i += 1) if (boxes[i]!.sum < boxes[emptiest]!.sum) emptiest = i;
  const picked = new Set([emptiest]);
  while (picked.size < Math.min(REPACKED, boxes.length)) picked.add(chance(boxes.length));
  return picked;
}

/** Fewer boxes, or as many with their room gathered in fewer of them. */
function isNoWorse(next: readonly Filled[], last: readonly Filled[]): boolean {
  if (next.length !== last.length) return next.length < last.length;
  const gathered = (boxes: readonly Filled[]) =>
    boxes.reduce((total, { sum }) => total + sum ** 2, 0);
  return gathered(next) >= gathered(last);
}

/** Fills one box after another: each takes the first piece that is left, and the others that fill it best. */
function fillTightly(pieces: readonly number[], sizes: readonly number[], capacity: number): Box[] {
  const boxes: Box[] = [];
  let rest = pieces;
  while (rest.length > 0) {
    const box = tightest(rest, sizes, capacity);
    const taken = new Set(box);
    rest = rest.filter((piece) => !taken.has(piece));
    boxes.push(box);
  }
  return boxes;
}

/** The first piece with those of the others that leave least room, as far as so many choices show. */
function tightest(pieces: readonly number[], sizes: readonly number[], capacity: number): Box {
  const box = [pieces[0]!];
  let best: Box = box;
  let least = Number.POSITIVE_INFINITY;
  let choices = 0;
  const extend = (from: number, left: number): void => {
    if (left < least) {
      least = left;
      best = [...box];
    }
    let refused = 0;
    for (let i = from; i < pieces.length && least > 0 && choices < CHOICES; i += 1) {
      const size = sizes[pieces[i]!]!;
      if (size > left || size === refused) continue;
      refused = size;
      choices += 1;
      box.push(pieces[i]!);
      extend(i + 1, left - size);
      box.pop();
    }
  };
  extend(1, capacity - sizes[pieces[0]!]!);
  return best;
}

function shuffle(pieces: number[], chance: (below: number) => number): void {
  for (let i = pieces.length - 1; i > 0; i -= 1) {
    const j = chance(i + 1);
    [pieces[i], pieces[j]] = [pieces[j]!, pieces[i]!];
  }
}

/** A fixed sequence of whole numbers below a given one (linear congruential, constants of Numerical Recipes). */
function sequence(): (below: number) => number {
  let state = 1;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}
