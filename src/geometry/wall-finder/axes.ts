import { type Face, gapsBetween } from './faces.ts';

/** Pieces that lie in one line within so much, mm, may be those of a broken line. */
const BESIDE = 2;
/** A broken line has at least so many pieces, none longer and none farther apart than these, mm. */
const LEAST_PIECES = 5;
const LONGEST = 3000;
const WIDEST = 600;
/** Its gaps are alike within this share, and this share of the longest dash at least, unless there are dots between. */
const LIKE = 0.2;
const OPEN = 0.25;
const DOTS = 0.3;

/** Faces without broken lines: programs write dashes as pieces of their own, and they stand for what is not cut. */
export function withoutDashes(faces: readonly Face[]): Face[] {
  const sorted = [...faces].sort((p, q) => p.y - q.y);
  const kept: Face[] = [];
  for (let i = 0; i < sorted.length; ) {
    let end = i + 1;
    while (end < sorted.length && sorted[end]!.y - sorted[end - 1]!.y <= BESIDE) end++;
    const line = sorted.slice(i, end).sort((p, q) => p.x0 - q.x0);
    for (const run of runsOf(line)) if (!isBroken(run)) kept.push(...run);
    i = end;
  }
  return kept;
}

/** Stretches of pieces with no wide gap. */
function runsOf(line: readonly Face[]): Face[][] {
  const runs: Face[][] = [];
  for (const face of line) {
    const last = runs.at(-1);
    if (last && face.x0 - last.at(-1)!.x1 <= WIDEST) last.push(face);
    else runs.push([face]);
  }
  return runs;
}

function isBroken(run: readonly Face[]): boolean {
  if (run.length < LEAST_PIECES) return false;
  const lengths = run.map(({ x0, x1 }) => x1 - x0);
  const longest = Math.max(...lengths);
  const gaps = run.slice(1).map(({ x0 }, i) => x0 - run[i]!.x1);
  const gap = [...gaps].sort((p, q) => p - q)[gaps.length >> 1]!;
  if (longest > LONGEST || gap <= 0) return false;
  const alike = gaps.filter((one) => Math.abs(one - gap) <= Math.max(2, LIKE * gap)).length;
  if (alike < 0.8 * gaps.length) return false;
  const dots = lengths.filter((length) => length <= 1.5 * gap).length;
  return gap >= OPEN * longest || dots >= DOTS * run.length;
}

/** An axis lies in the middle between two faces within this, mm, and runs out beyond both ends of both by this. */
const MIDDLE = 3;
const BEYOND = 600;

/** Faces without the lines that run along the middle of walls and out beyond them: the axes of a building. */
export function withoutAxes(faces: readonly Face[], thickest: number): Face[] {
  const below = new Map<Face, Face[]>();
  const axes = new Set<Face>();
  for (const { low, high } of gapsBetween(faces, thickest)) {
    const there = below.get(high);
    if (there) there.push(low);
    else below.set(high, [low]);
    for (const lower of below.get(low) ?? []) if (isAxis(low, lower, high)) axes.add(low);
  }
  return axes.size === 0 ? [...faces] : faces.filter((face) => !axes.has(face));
}

const isAxis = (axis: Face, low: Face, high: Face): boolean =>
  Math.abs(high.y + low.y - 2 * axis.y) <= 2 * MIDDLE &&
  Math.min(low.x0, high.x0) - axis.x0 >= BEYOND &&
  axis.x1 - Math.max(low.x1, high.x1) >= BEYOND &&
  Math.min(low.x1, high.x1) > Math.max(low.x0, high.x0);
