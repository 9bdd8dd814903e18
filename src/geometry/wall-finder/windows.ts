import Flatbush from 'flatbush';
import type { Body } from './bodies.ts';
import type { Face } from './faces.ts';
import type { Jambs } from './jambs.ts';

/** A stretch along a direction. */
export type Stretch = readonly [from: number, to: number];

/** A window is no narrower and no wider than this, mm. */
const LEAST = 300;
const MOST = 12_000;
/** Panes and frames run along so much of a window at least. */
const ALONG = 0.9;
/** Two bodies have so much of the thicker before one another, and one ends where another hides so much of it. */
const BEFORE = 0.5;
const HIDDEN = 0.9;
/** A face of a window may stand out from those of the wall by so much, mm. */
const OUT = 5;
/** The faces of a window lie so much of the wall's thickness apart at least. */
const DEEP = 0.5;
/** Bodies with no more between them touch, mm. */
const TOUCH = 60;

/** The stretches of a pair of faces between which something lies, by those at which nothing does. */
export function stretchesBetween(clear: readonly Stretch[], x0: number, x1: number): Stretch[] {
  const out: Stretch[] = [];
  let from = x0;
  for (const [start, end] of [...clear].sort((p, q) => p[0] - q[0])) {
    if (start > from) out.push([from, start]);
    from = Math.max(from, end);
  }
  if (x1 > from) out.push([from, x1]);
  return out;
}

/**
 * Which of some stretches of a pair of faces, between which lines run along, are windows: where they end, a jamb stands
 * across from face to face. One end may lie where the faces end.
 */
export function windowsIn(
  stretches: readonly Stretch[],
  { low, high, x0, x1 }: Pick<Body, 'low' | 'high' | 'x0' | 'x1'>,
  jambs: Jambs,
): Stretch[] {
  return stretches.filter(([from, to]) => {
    if (to - from < LEAST) return false;
    const ends = [from, to].map((x) => jambs(x, low.y, high.y));
    return ends.some((end) => end) && (ends[0] || from <= x0) && (ends[1] || to >= x1);
  });
}

/**
 * Windows that stand between two bodies in one line, where lines run from the one to the other within the depth of
 * both: each is a body of its own, from the outermost of its lines to the other, measured.
 *
 * @param faces all lines of the direction
 */
export function windowsBetween(bodies: readonly Body[], faces: readonly Face[]): Body[] {
  const standing = finderOf(bodies, ({ x0, x1, low, high }) => [x0, low.y, x1, high.y]);
  const drawn = finderOf(faces, ({ x0, x1, y }) => [x0, y, x1, y]);
  return bodies.flatMap((left) => {
    const { low, high, x1: from } = left;
    if (standing(from - TOUCH, low.y, from + TOUCH, high.y).some((other) => hides(other, left)))
      return [];
    const [right] = standing(from + LEAST, low.y, from + MOST, high.y)
      .filter((other) => other.x0 - from >= LEAST && before(left, other))
      .sort((p, q) => p.x0 - q.x0);
    const window = right && windowFrom(left, right, drawn);
    return window ? [window] : [];
  });
}

type Finder<T> = (x0: number, y0: number, x1: number, y1: number) => T[];

/** Finds things by their boxes. */
function finderOf<T>(
  things: readonly T[],
  boxOf: (thing: T) => readonly [number, number, number, number],
): Finder<T> {
  if (things.length === 0) return () => [];
  const index = new Flatbush(things.length);
  for (const thing of things) index.add(...boxOf(thing));
  index.finish();
  return (...box) => index.search(...box).map((i) => things[i]!);
}

const thickness = ({ low, high }: Body): number => high.y - low.y;
const common = (p: Body, q: Body): number =>
  Math.min(p.high.y, q.high.y) - Math.max(p.low.y, q.low.y);
const before = (p: Body, q: Body): boolean =>
  common(p, q) >= BEFORE * Math.max(thickness(p), thickness(q));

/** Whether a body goes on in another at its right end. */
const hides = (other: Body, body: Body): boolean =>
  other.x0 - body.x1 <= TOUCH &&
  other.x1 - body.x1 > TOUCH &&
  common(other, body) >= HIDDEN * thickness(body);

function windowFrom(left: Body, right: Body, drawn: Finder<Face>): Body | null {
  const [from, to] = [left.x1, right.x0];
  const [low, high] = [Math.max(left.low.y, right.low.y), Math.min(left.high.y, right.high.y)];
  const within = drawn(from, low - OUT, to, high + OUT).sort((p, q) => p.y - q.y || p.x0 - q.x0);
  const full = inLines(within).filter((line) => covered(line, from, to) >= ALONG * (to - from));
  const [first, last] = [full[0]?.[0], full.at(-1)?.[0]];
  if (full.length < 3 || !first || !last || last.y - first.y < DEEP * (high - low)) return null;
  return {
    x0: from,
    x1: to,
    low: first,
    high: last,
    clear: false,
    between: false,
    windows: [[from, to]],
  };
}

/** Lines that lie in one, whatever gaps they have. */
function inLines(levels: readonly Face[]): Face[][] {
  const lines: Face[][] = [];
  for (const face of levels) {
    const last = lines.at(-1);
    if (last && face.y - last[0]!.y <= OUT) last.push(face);
    else lines.push([face]);
  }
  return lines;
}

/** How much of a stretch some pieces cover. */
function covered(line: readonly Face[], from: number, to: number): number {
  const bare = stretchesBetween(
    line.map(({ x0, x1 }) => [Math.max(x0, from), Math.min(x1, to)] as const),
    from,
    to,
  );
  return to - from - bare.reduce((sum, [a, b]) => sum + b - a, 0);
}
