import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxBound } from '../../../src/takeoff/box-bound.ts';
import { boxPlan, estimates } from '../../../src/takeoff/box-plan.ts';
import { bestFitDecreasing, packBoxes } from '../../../src/takeoff/packing.ts';
import { makeRun, noWay } from './make-run.ts';

interface Problem {
  readonly name: string;
  readonly capacity: number;
  readonly printed: number;
  readonly sizes: readonly number[];
}

/** OR-Library format; see the note beside the file. */
function readProblems(): Problem[] {
  const words = readFileSync('tests/fixtures/binpack/binpack1.txt', 'utf8').trim().split(/\s+/);
  const problems: Problem[] = [];
  for (let i = 1; i < words.length; ) {
    const [name, capacity, items, printed] = words.slice(i, i + 4) as [string, ...string[]];
    const sizes = words.slice(i + 4, i + 4 + Number(items)).map(Number);
    problems.push({ name, capacity: Number(capacity), printed: Number(printed), sizes });
    i += 4 + Number(items);
  }
  return problems;
}

/** First-fit decreasing, written apart: each piece into the first box with room. */
function firstFitDecreasing(sizes: readonly number[], capacity: number): number {
  const left: number[] = [];
  for (const size of [...sizes].sort((a, b) => b - a)) {
    const at = left.findIndex((room) => room >= size);
    if (at < 0) left.push(capacity - size);
    else left[at]! -= size;
  }
  return left.length;
}

/** The fewest boxes, by trying every way; for a handful of pieces. */
function fewest(sizes: readonly number[], capacity: number): number {
  let best = sizes.length;
  const place = (i: number, left: number[]): void => {
    if (left.length >= best) return;
    if (i === sizes.length) {
      best = left.length;
      return;
    }
    for (let b = 0; b < left.length; b += 1) {
      if (left[b]! < sizes[i]!) continue;
      left[b]! -= sizes[i]!;
      place(i + 1, left);
      left[b]! += sizes[i]!;
    }
    place(i + 1, [...left, capacity - sizes[i]!]);
  };
  place(0, []);
  return best;
}

const pack = (sizes: readonly number[], capacity: number) =>
  packBoxes(sizes, capacity, boxBound(sizes, capacity));

// Computed for the OR-Library class u120 (Falkenauer 1996); optimum = lower bound, so proven.
const OPTIMUM = [48, 49, 46, 49, 50, 48, 48, 49, 50, 46, 52, 49, 48, 49, 50, 48, 52, 52, 49, 49];
const DECREASING = [49, 49, 47, 50, 50, 49, 49, 50, 51, 47, 52, 50, 49, 49, 50, 49, 52, 53, 50, 50];

describe('on the published problems u120', () => {
  const problems = readProblems();

  it('reads twenty problems of 120 pieces', () => {
    expect(problems.map((p) => p.sizes.length)).toEqual(Array(20).fill(120));
  });

  it('best-fit decreasing gives the published row, as first-fit decreasing does', () => {
    const best = problems.map((p) => bestFitDecreasing(p.sizes, p.capacity).length);
    expect(best).toEqual(DECREASING);
    expect(problems.map((p) => firstFitDecreasing(p.sizes, p.capacity))).toEqual(DECREASING);
  });

  it('the bound is the optimum, one below the printed value where that is wrong', () => {
    expect(problems.map((p) => boxBound(p.sizes, p.capacity))).toEqual(OPTIMUM);
    const wrong = problems.filter((p, i) => p.printed !== OPTIMUM[i]).map((p) => p.name);
    expect(wrong).toEqual(['u120_08', 'u120_19']);
  });

  it('the search finds the optimum of every one', () => {
    expect(problems.map((p) => pack(p.sizes, p.capacity).length)).toEqual(OPTIMUM);
  });
});

describe('on few pieces', () => {
  const handful = fc
    .integer({ min: 6, max: 40 })
    .chain((capacity) =>
      fc.tuple(
        fc.constant(capacity),
        fc.array(fc.integer({ min: 1, max: capacity }), { minLength: 1, maxLength: 9 }),
      ),
    );

  it('the bound is never above what trying every way finds, and the search finds that', () => {
    fc.assert(
      fc.property(handful, ([capacity, sizes]) => {
        const best = fewest(sizes, capacity);
        const bound = boxBound(sizes, capacity);
        expect(bound).toBeLessThanOrEqual(best);
        expect(boxBound(sizes, capacity, best)).toBe(bound);
        expect(pack(sizes, capacity).length).toBe(best);
      }),
      { seed: 11, numRuns: 400 },
    );
  });

  it('searching on below what can be done never takes more boxes than decreasing order', () => {
    fc.assert(
      fc.property(handful, ([capacity, sizes]) => {
        const searched = packBoxes(sizes, capacity, 0).length;
        expect(searched).toBeLessThanOrEqual(bestFitDecreasing(sizes, capacity).length);
      }),
      { seed: 13, numRuns: 60 },
    );
  });

  it('no box holds more than fits and every piece is in exactly one', () => {
    fc.assert(
      fc.property(handful, ([capacity, sizes]) => {
        const boxes = pack(sizes, capacity);
        for (const box of boxes)
          expect(box.reduce((sum, i) => sum + sizes[i]!, 0)).toBeLessThanOrEqual(capacity);
        expect(boxes.flat().sort((a, b) => a - b)).toEqual(sizes.map((_, i) => i));
      }),
      { seed: 12, numRuns: 200 },
    );
  });
});

describe('the bound', () => {
  it('is the total length over the box where that decides', () => {
    expect(boxBound([50, 50, 50, 50, 50], 100)).toBe(3);
  });

  it('knows that pieces longer than half a box stand alone', () => {
    expect(boxBound([51, 51, 51, 51], 100)).toBe(4);
  });

  it('knows how many equal pieces a box holds', () => {
    expect(boxBound(Array(12).fill(26), 100)).toBe(4);
  });

  // Found by search; each needs one family of dual feasible functions, without which the bound is one lower.
  it.each([
    { by: 'L2', sizes: [9, 42, 35, 2, 14, 23], capacity: 43, boxes: 4 },
    { by: 'u(k)', sizes: [47, 50, 64], capacity: 83, boxes: 3 },
    { by: 'f2', sizes: [24, 30, 37, 7, 14], capacity: 57, boxes: 3 },
  ])('reaches the fewest boxes by $by where nothing else does', ({ sizes, capacity, boxes }) => {
    expect(fewest(sizes, capacity)).toBe(boxes);
    expect(boxBound(sizes, capacity)).toBe(boxes);
  });

  it('is zero for nothing', () => {
    expect(boxBound([], 100)).toBe(0);
  });
});

/** Runs of 12 to 91 m in ordering steps, from a fixed sequence. */
function realisticRuns(count: number, step: number, seed: number): number[] {
  let state = seed;
  return Array.from({ length: count }, () => {
    state = (Math.imul(state, 1103515245) + 12345) >>> 0;
    return Math.ceil((12_000 + (state / 2 ** 32) * 79_000) / step) * step;
  });
}

describe('on runs as they are in buildings', () => {
  const cases = [50, 200, 500].flatMap((count) =>
    [100, 305, 1000].flatMap((step) => [1, 2, 3, 4].map((seed) => ({ count, step, seed }))),
  );

  it.each(cases)('$count runs in steps of $step mm need no box above the bound ($seed)', (c) => {
    const sizes = realisticRuns(c.count, c.step, c.seed);
    const bound = boxBound(sizes, 304_800);
    expect(packBoxes(sizes, 304_800, bound).length).toBe(bound);
  });

  it('decreasing order alone would need more boxes in some of them', () => {
    const needsMore = cases.filter((c) => {
      const sizes = realisticRuns(c.count, c.step, c.seed);
      return bestFitDecreasing(sizes, 304_800).length > boxBound(sizes, 304_800);
    });
    expect(needsMore.length).toBeGreaterThan(0);
  });
});

describe('the box plan', () => {
  const runsOf = (orders: readonly number[]) =>
    orders.map((order, i) => makeRun({ label: `A${i + 1}`, order, cable: order }));

  it('never splices: 120 runs of 44.5 m need 20 boxes of 305 m, where the total says 18', () => {
    // Determined by the numbers of a published exercise on averaging (5340 m for 120 points).
    const plan = boxPlan(runsOf(Array(120).fill(44_500)), 305_000);
    expect(plan.byLength).toBe(18);
    expect(plan.byAverage).toBe(20);
    expect(plan.boxes.length).toBe(20);
    expect(plan.bound).toBe(20);
  });

  it('40 points of 41.75 m: 6 boxes by length, 7 runs in a box, 6 boxes by whole runs', () => {
    // Network-planner exam exercise: 1670 m, 1670/305 = 5.475; whole runs follow from its numbers.
    expect(estimates(Array(40).fill(41_750), 305_000)).toEqual({ byLength: 6, byAverage: 6 });
    expect(Math.floor(305_000 / 41_750)).toBe(7);
  });

  it('lists which runs are cut from which box, with what is used and left', () => {
    const plan = boxPlan(runsOf([100, 60, 40]), 100);
    expect(plan.boxes).toEqual([
      { number: 1, jacks: ['J-A1'], used: 100, left: 0 },
      { number: 2, jacks: ['J-A2', 'J-A3'], used: 100, left: 0 },
    ]);
  });

  it('numbers boxes and lists jacks in the natural order of the labels', () => {
    const runs = ['A10', 'A2', 'A1'].map((label) => makeRun({ label, order: 30, cable: 30 }));
    expect(boxPlan(runs, 100).boxes.map((box) => box.jacks)).toEqual([['J-A1', 'J-A2', 'J-A10']]);
  });

  it('sets runs longer than a box apart and leaves out runs without a way', () => {
    const runs = [
      makeRun({ label: 'A1', order: 101 }),
      makeRun({ label: 'A2', order: 100 }),
      noWay({ label: 'A3' }),
    ];
    const plan = boxPlan(runs, 100);
    expect(plan.oversize).toEqual(['J-A1']);
    expect(plan.boxes.map((box) => box.jacks)).toEqual([['J-A2']]);
    expect(plan.bound).toBe(1);
  });

  it('is empty for no runs', () => {
    expect(boxPlan([], 304_800)).toEqual({
      boxes: [],
      bound: 0,
      oversize: [],
      byLength: 0,
      byAverage: 0,
    });
  });

  it('says the same by average as by length where the average run is longer than a box', () => {
    expect(estimates([250, 250], 100)).toEqual({ byLength: 5, byAverage: 5 });
  });

  it('does not depend on the order in which the runs come', () => {
    const runs = runsOf(realisticRuns(40, 305, 9));
    expect(boxPlan([...runs].reverse(), 304_800)).toEqual(boxPlan(runs, 304_800));
  });
});
