import type { Point } from '../point.ts';

/** A straight line as something drew it. */
export interface Line {
  readonly a: Point;
  readonly b: Point;
}

/** A direction in which much of a drawing runs, as a frame: x along it, y across. */
export interface Direction {
  readonly cos: number;
  readonly sin: number;
}

/** A line in the frame of its direction, taken as level there. */
export interface Level<L extends Line> {
  readonly of: L;
  readonly x0: number;
  readonly x1: number;
  readonly y: number;
}

/** Fineness with which directions are told apart at first: a tenth of a degree. */
const BINS = 1800;
/** The ends of a line may lie so far beside its direction, mm; a short line is out of true by more of an angle. */
const OUT = 2;
/** How many bins away a short line may lie and still run in a direction: a degree. */
const WIDE = 10;
/** More directions than these are a crowd of odds and ends, such as a curve made of chords. */
const MOST = 120;

/** A place in the frame of a direction, not rounded. */
export const into = ({ cos, sin }: Direction, [x, y]: Point): Point => [
  x * cos + y * sin,
  y * cos - x * sin,
];
/** Back out of the frame of a direction, not rounded. */
export const outOf = ({ cos, sin }: Direction, [x, y]: Point): Point => [
  x * cos - y * sin,
  x * sin + y * cos,
];

interface Told<L extends Line> {
  readonly line: L;
  readonly length: number;
  /** Half a turn is the same direction again: from 0 to below pi. */
  readonly angle: number;
}

/**
 * Sorts lines by the directions in which they run, the heaviest direction first.
 *
 * @param least the length that a direction must hold to count, mm
 */
export function byDirection<L extends Line>(
  lines: readonly L[],
  least: number,
): { readonly direction: Direction; readonly lines: readonly Level<L>[] }[] {
  const bins = Array.from({ length: BINS }, (): Told<L>[] => []);
  const weight = new Float64Array(BINS);
  for (const line of lines) {
    const [dx, dy] = [line.b[0] - line.a[0], line.b[1] - line.a[1]];
    const length = Math.hypot(dx, dy);
    if (length === 0) continue;
    const turned = Math.atan2(dy, dx);
    const angle = turned < 0 ? turned + Math.PI : turned >= Math.PI ? turned - Math.PI : turned;
    const bin = Math.round((angle / Math.PI) * BINS) % BINS;
    bins[bin]!.push({ line, length, angle });
    weight[bin]! += length;
  }
  const found: { direction: Direction; lines: Level<L>[] }[] = [];
  while (found.length < MOST) {
    const { at, held } = heaviest(weight);
    if (held < least) break;
    const angle = middleAngle(
      [-1, 0, 1].flatMap((by) => bins[wrapped(at + by)]!),
      (at * Math.PI) / BINS,
    );
    const direction = exact(angle);
    const taken: Level<L>[] = [];
    for (let by = -WIDE; by <= WIDE; by++) {
      const bin = wrapped(at + by);
      bins[bin] = bins[bin]!.filter((told) => {
        if (Math.abs(Math.sin(told.angle - angle)) * told.length > 2 * OUT) return true;
        taken.push(levelled(told.line, direction));
        weight[bin]! -= told.length;
        return false;
      });
    }
    found.push({ direction, lines: taken });
  }
  return found;
}

const wrapped = (bin: number): number => (bin + BINS) % BINS;

function heaviest(weight: Float64Array): { at: number; held: number } {
  let [at, held] = [0, -1];
  for (let i = 0; i < BINS; i++) {
    const sum = weight[wrapped(i - 1)]! + weight[i]! + weight[wrapped(i + 1)]!;
    if (sum > held + 1e-6) [at, held] = [i, sum];
  }
  return { at, held };
}

/** The angle in the middle of those of some lines by their lengths; a few that are out of true do not turn it. */
function middleAngle(told: readonly Told<Line>[], near: number): number {
  const sorted = told
    .map(({ angle, length }) => {
      const off = angle - near;
      return { off: off > 1 ? off - Math.PI : off < -1 ? off + Math.PI : off, length };
    })
    .sort((a, b) => a.off - b.off);
  let left = sorted.reduce((sum, { length }) => sum + length, 0) / 2;
  for (const { off, length } of sorted) {
    left -= length;
    if (left <= 0) return near + off;
  }
  return near;
}

/** The frame of an angle; along the axes its numbers are exact. */
function exact(angle: number): Direction {
  const tidy = (v: number) => (Math.abs(v) < 1e-9 ? 0 : Math.abs(v) > 1 - 1e-12 ? Math.sign(v) : v);
  return { cos: tidy(Math.cos(angle)), sin: tidy(Math.sin(angle)) };
}

function levelled<L extends Line>(line: L, direction: Direction): Level<L> {
  const [ax, ay] = into(direction, line.a);
  const [bx, by] = into(direction, line.b);
  return { of: line, x0: Math.min(ax, bx), x1: Math.max(ax, bx), y: (ay + by) / 2 };
}
