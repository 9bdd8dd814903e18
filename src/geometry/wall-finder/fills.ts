import Flatbush from 'flatbush';
import type { Point } from '../point.ts';
import { type Body, THICKEST, THINNEST } from './bodies.ts';
import { byDirection, type Direction, into, type Line } from './directions.ts';
import { gapsBetween } from './faces.ts';

/** Filled shapes smaller than this are letters and symbols, mm. */
const LEAST_SHAPE = 200;
/** A direction counts in a shape from this length of its edges on, mm. */
const LEAST_EDGES = 150;

/** The wall-like parts of a filled shape: where two of its edges run side by side with ink between. */
export function bodiesInside(
  rings: readonly (readonly Point[])[],
): { readonly direction: Direction; readonly bodies: readonly Body[] }[] {
  const edges: Line[] = rings.flatMap((ring) =>
    ring.map((a, i) => ({ a, b: ring[(i + 1) % ring.length]! })),
  );
  if (!large(edges)) return [];
  return byDirection(edges, LEAST_EDGES).map(({ direction, lines }) => {
    const inked = inkTest(edges, direction);
    const bodies = gapsBetween(lines, THICKEST)
      .filter(({ low, high }) => high.y - low.y >= THINNEST)
      .filter(({ low, high, x0, x1 }) => inked((x0 + x1) / 2, (low.y + high.y) / 2))
      .map((gap): Body => ({ ...gap, clear: true, between: false, windows: [] }));
    return { direction, bodies: joined(bodies) };
  });
}

function large(edges: readonly Line[]): boolean {
  for (const axis of [0, 1] as const) {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const { a } of edges) {
      low = Math.min(low, a[axis]);
      high = Math.max(high, a[axis]);
    }
    if (high - low >= LEAST_SHAPE) return true;
  }
  return false;
}

/** Puts together stretches of one pair of edges that a third, such as a window's, had parted. */
function joined(bodies: readonly Body[]): Body[] {
  const out: Body[] = [];
  for (const body of bodies) {
    const last = out.at(-1);
    if (last && last.low === body.low && last.high === body.high && body.x0 - last.x1 <= 1)
      out[out.length - 1] = { ...last, x1: body.x1 };
    else out.push(body);
  }
  return out;
}

/** Whether a place in the frame of a direction lies in the ink, by the even-odd rule. */
function inkTest(edges: readonly Line[], direction: Direction): (x: number, y: number) => boolean {
  const index = new Flatbush(edges.length);
  const turned = edges.map(({ a, b }) => [into(direction, a), into(direction, b)] as const);
  for (const [a, b] of turned)
    index.add(
      Math.min(a[0], b[0]),
      Math.min(a[1], b[1]),
      Math.max(a[0], b[0]),
      Math.max(a[1], b[1]),
    );
  index.finish();
  return (x, y) => {
    let over = 0;
    for (const i of index.search(x, y, x, Number.POSITIVE_INFINITY)) {
      const [a, b] = turned[i]!;
      if (a[0] > x === b[0] > x) continue;
      if (a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1]) > y) over++;
    }
    return over % 2 === 1;
  };
}
