import type { Point } from '../geometry/point.ts';
import type { Pathway } from '../plan/plan.ts';
import type { Ink, Mark, Style } from './display.ts';

/**
 * Pathways by kind, each with its own pattern round a middle that stays free for the cables' line: hooks hang off a
 * hook line, a tray has rungs, conduit is a pipe with end caps, raceway a pipe with covers, a sleeve a short thick
 * pipe, and what lies under the slab is dashed.
 */
interface Pattern {
  /** Distance of the two side lines from the middle, paper mm; 0 for a single line. */
  readonly half: number;
  readonly side: Style;
  /** A mark that is repeated along the way, at this spacing in paper mm; drawn along +x, +y to the right. */
  readonly every: number;
  readonly tick: readonly Point[];
  readonly tickStyle: Style;
  /** A mark at each end. */
  readonly cap: readonly Point[];
}

function pattern(kind: Pathway['kind'], ink: Ink): Pattern {
  const thin: Style = { stroke: ink, width: 0.22 };
  const plain = { side: thin, every: 0, tick: [], tickStyle: thin, cap: [] };
  switch (kind) {
    case 'hook-line':
      return {
        ...plain,
        half: 0,
        every: 4,
        tick: [
          [0, -1.5],
          [0, 0.9],
          [0.3, 1.3],
          [0.8, 1.3],
          [1.1, 0.9],
        ],
      };
    case 'tray':
      return {
        ...plain,
        half: 1.2,
        every: 2.2,
        tick: [
          [0, -1.2],
          [0, 1.2],
        ],
      };
    case 'conduit':
      return {
        ...plain,
        half: 0.85,
        cap: [
          [0, -1.35],
          [0, 1.35],
        ],
      };
    case 'raceway':
      return {
        ...plain,
        half: 0.85,
        every: 6,
        tick: [
          [-0.8, -1.3],
          [0.8, -1.3],
          [0.8, 1.3],
          [-0.8, 1.3],
          [-0.8, -1.3],
        ],
      };
    case 'sleeve':
      return {
        ...plain,
        half: 1.3,
        side: { stroke: ink, width: 0.5 },
        cap: [
          [0, -1.8],
          [0, 1.8],
        ],
      };
    case 'under-slab':
      return { ...plain, half: 0.85, side: { stroke: ink, width: 0.22, dash: [2.4, 1.2] } };
  }
}

interface Stretch {
  readonly a: Point;
  readonly ux: number;
  readonly uy: number;
  readonly length: number;
}

function stretches(points: readonly Point[]): Stretch[] {
  const out: Stretch[] = [];
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1]!;
    const b = points[i]!;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (length > 0) out.push({ a, length, ux: (b[0] - a[0]) / length, uy: (b[1] - a[1]) / length });
  }
  return out;
}

/** The line at a distance to the right of a chain, mitred at its corners; sharp corners are cut short. */
export function offsetChain(points: readonly Point[], distance: number): Point[] {
  const parts = stretches(points);
  return parts.flatMap((part, i) => {
    const nx = -part.uy * distance;
    const ny = part.ux * distance;
    const next = parts[i + 1];
    const end: Point = [part.a[0] + part.ux * part.length, part.a[1] + part.uy * part.length];
    const here: Point[] = i === 0 ? [[part.a[0] + nx, part.a[1] + ny]] : [];
    if (!next) return [...here, [end[0] + nx, end[1] + ny] as Point];
    const dot = 1 + part.ux * next.ux + part.uy * next.uy;
    if (dot < 0.2) return [...here, [end[0] + nx, end[1] + ny] as Point];
    return [
      ...here,
      [
        end[0] + (distance * (-part.uy - next.uy)) / dot,
        end[1] + (distance * (part.ux + next.ux)) / dot,
      ] as Point,
    ];
  });
}

/** A way that is longer than any sheet is ticked less often than its pattern says. */
const MOST_TICKS = 20_000;

/**
 * The pattern of a pathway.
 *
 * @param points its chain, in list units
 * @param scale paper mm for one list unit
 */
export function pathwayLines(
  kind: Pathway['kind'],
  points: readonly Point[],
  scale: number,
  ink: Ink = 'pathway',
): Mark[] {
  const look = pattern(kind, ink);
  const sides = look.half === 0 ? [0] : [-look.half, look.half];
  const marks: Mark[] = sides.map((d) => ({
    op: 'line',
    points: offsetChain(points, d / scale),
    style: look.side,
  }));
  const parts = stretches(points);
  const put = (part: Stretch, along: number, shape: readonly Point[], style: Style): void => {
    const points = shape.map(
      ([x, y]): Point => [
        part.a[0] + part.ux * (along + x / scale) - (part.uy * y) / scale,
        part.a[1] + part.uy * (along + x / scale) + (part.ux * y) / scale,
      ],
    );
    marks.push({ op: 'line', points, style });
  };
  const whole = parts.reduce((sum, { length }) => sum + length * scale, 0);
  const every = Math.max(look.every, whole / MOST_TICKS);
  for (const part of parts) {
    if (look.every === 0) break;
    const count = Math.max(1, Math.floor((part.length * scale) / every));
    for (let i = 0; i < count; i++)
      put(part, ((i + 0.5) * part.length) / count, look.tick, look.tickStyle);
  }
  const first = parts[0];
  const last = parts[parts.length - 1];
  if (look.cap.length > 0 && first && last) {
    put(first, 0, look.cap, { stroke: ink, width: 0.4 });
    put(last, last.length, look.cap, { stroke: ink, width: 0.4 });
  }
  return marks;
}
