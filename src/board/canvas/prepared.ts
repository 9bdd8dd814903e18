import Flatbush from 'flatbush';
import { atOnce, type Steps } from '../../base/steps.ts';
import type { Ink, Mark, Style } from '../../drawing/display.ts';
import { fontMeasure } from '../../drawing/measure.ts';
import type { Point } from '../../geometry/point.ts';
import type { SceneLayer } from '../scene.ts';

type Of<Op extends Mark['op']> = Extract<Mark, { op: Op }>;

/** A mark made ready to be painted among thousands: where it is, and how it can be painted with its neighbours. */
export type Item = {
  readonly layer: number;
  /** The row that it stands for or hangs on, by its key: it is left out while that is elsewhere. */
  readonly row: string | null;
} & (
  | {
      /** An upright filled box whose outline is of the same ink, mm; `grow` is half the outline, paper mm. */
      readonly as: 'box';
      readonly x0: number;
      readonly y0: number;
      readonly x1: number;
      readonly y1: number;
      readonly ink: Ink;
      readonly grow: number;
    }
  /** A plain line, painted in one stroke with neighbours of the same look. */
  | {
      readonly as: 'line';
      readonly points: readonly Point[];
      readonly closed: boolean;
      readonly style: Style;
      readonly look: string;
    }
  /** A small filled dot, mm; painted as a box, since it is no larger than a pixel or two. */
  | { readonly as: 'dot'; readonly at: Point; readonly radius: number; readonly ink: Ink }
  /** A symbol that many share: painted once, and stamped. */
  | {
      readonly as: 'stamp';
      readonly at: Point;
      readonly stamp: number;
    }
  | { readonly as: 'mark'; readonly mark: Mark }
);

/** A symbol that is stamped: its marks round its place, and how far they reach, paper mm. */
export interface Stamp {
  readonly marks: readonly Mark[];
  readonly turn: number;
  readonly reach: number;
}

export interface Prepared {
  /** In drawing order. */
  readonly items: readonly Item[];
  readonly strengths: readonly number[];
  readonly stamps: readonly Stamp[];
  /** Items by their place, mm; what reaches further from it than `REACH` is in `wide` and always looked at. */
  readonly index: Flatbush | null;
  readonly placed: readonly number[];
  readonly wide: readonly number[];
}

/** Symbols and labels mostly reach no further from their place than this, paper mm. */
export const REACH = 14;
/** So many marks are made ready in one step. */
const AT_ONCE = 1000;
/** So often a symbol must be there to be worth a stamp. */
const OFTEN = 4;

/** Makes layers ready to be painted often, whole or in parts. */
export const prepare = (layers: readonly SceneLayer[]): Prepared => atOnce(prepareSteps(layers));

/** The same, step by step. */
export function* prepareSteps(layers: readonly SceneLayer[]): Steps<Prepared> {
  const items: Item[] = [];
  const maker = yield* stampMaker(layers);
  for (const [layer, { marks }] of layers.entries()) {
    yield;
    const flat = marks.map(flattened);
    for (const run of runsOf(flat))
      for (const mark of run) {
        items.push(itemOf(mark, layer, maker.of));
        if (items.length % AT_ONCE === 0) yield;
      }
  }
  yield;
  const placed: number[] = [];
  const wide: number[] = [];
  items.forEach((item, i) => {
    (reachOf(item, maker.stamps) > REACH ? wide : placed).push(i);
  });
  yield;
  return {
    items,
    strengths: layers.map(({ strength }) => strength),
    stamps: maker.stamps,
    index: yield* indexOf(items, placed),
    placed,
    wide,
  };
}

/** A leader's or another group's own marks in mm of the building; a clipped group stays whole. */
function flattened(mark: Mark): readonly Mark[] {
  if (mark.op !== 'group' || mark.clip) return [mark];
  const { at, scale } = mark;
  const of = mark.of === undefined ? {} : { of: mark.of };
  const out = ([x, y]: Point): Point => [at[0] + x * scale, at[1] + y * scale];
  const inner: Mark[] = [];
  for (const part of mark.marks) {
    if (part.op === 'line') inner.push({ ...part, ...of, points: part.points.map(out) });
    else if (part.op === 'circle')
      inner.push({ ...part, ...of, at: out(part.at), radius: part.radius * scale });
    else return [mark];
  }
  return inner;
}

/** Neighbouring groups are painted dots first and then lines, so that equal looks come together. */
function* runsOf(flat: readonly (readonly Mark[])[]): Iterable<readonly Mark[]> {
  for (let i = 0; i < flat.length; ) {
    if (flat[i]!.length === 1) {
      yield flat[i++]!;
      continue;
    }
    const dots: Mark[] = [];
    const lines = new Map<string, Mark[]>();
    for (; i < flat.length && flat[i]!.length > 1; i++)
      for (const mark of flat[i]!) {
        if (mark.op !== 'line') dots.push(mark);
        else listOf(lines, JSON.stringify(mark.style)).push(mark);
      }
    yield dots;
    yield* lines.values();
  }
}

function listOf<K, V>(lists: Map<K, V[]>, key: K): V[] {
  const list = lists.get(key) ?? [];
  lists.set(key, list);
  return list;
}

/** Tells which symbols are stamped, and keeps their stamps. */
function* stampMaker(layers: readonly SceneLayer[]) {
  const keys = new Map<Mark, string>();
  const uses = new Map<string, number>();
  for (const { marks, strength } of layers)
    for (const [i, mark] of marks.entries()) {
      if (i % AT_ONCE === 0) yield;
      if (mark.op !== 'symbol') continue;
      const key = `${strength} ${mark.turn ?? 0} ${JSON.stringify(mark.marks)}`;
      keys.set(mark, key);
      uses.set(key, (uses.get(key) ?? 0) + 1);
    }
  const stamps: Stamp[] = [];
  const made = new Map<string, number>();
  const of = (mark: Of<'symbol'>): number | null => {
    const key = keys.get(mark)!;
    if (uses.get(key)! < OFTEN) return null;
    const there = made.get(key);
    if (there !== undefined) return there;
    const { marks, turn = 0 } = mark;
    stamps.push({ marks, turn, reach: marksReach(marks) });
    made.set(key, stamps.length - 1);
    return stamps.length - 1;
  };
  return { stamps, of };
}

function itemOf(mark: Mark, layer: number, stampOf: (mark: Of<'symbol'>) => number | null): Item {
  const row = (mark.op === 'symbol' ? mark.row : undefined) ?? mark.of ?? null;
  if (mark.op === 'symbol') {
    const stamp = stampOf(mark);
    return stamp === null
      ? { as: 'mark', layer, mark, row }
      : { as: 'stamp', layer, at: mark.at, stamp, row };
  }
  if (mark.op === 'circle' && isDot(mark))
    return { as: 'dot', layer, row, at: mark.at, radius: mark.radius, ink: mark.style.fill! };
  if (mark.op === 'line') {
    const box = boxOf(mark);
    if (box) return { ...box, layer, row };
    const { points, closed = false, style } = mark;
    if (style.fill === undefined && !style.hatch && style.opacity === undefined && style.stroke)
      return { as: 'line', layer, row, points, closed, style, look: JSON.stringify(style) };
  }
  return { as: 'mark', layer, row, mark };
}

const isDot = ({ style }: Of<'circle'>): boolean =>
  style.fill !== undefined && style.stroke === undefined && style.opacity === undefined;

/** The upright box that a mark is, where fill and outline are of one ink. */
function boxOf({ points, closed, style }: Of<'line'>) {
  const { fill, stroke, hatch, dash, opacity, width = 0.25 } = style;
  if (!closed || points.length !== 4 || !fill || (stroke && stroke !== fill)) return null;
  if (hatch || dash || opacity !== undefined) return null;
  const [a, b, c, d] = points as [Point, Point, Point, Point];
  const upright =
    (a[0] === b[0] && b[1] === c[1] && c[0] === d[0] && d[1] === a[1]) ||
    (a[1] === b[1] && b[0] === c[0] && c[1] === d[1] && d[0] === a[0]);
  if (!upright) return null;
  return {
    as: 'box' as const,
    x0: Math.min(a[0], c[0]),
    y0: Math.min(a[1], c[1]),
    x1: Math.max(a[0], c[0]),
    y1: Math.max(a[1], c[1]),
    ink: fill,
    grow: stroke ? width / 2 : 0,
  };
}

/** How far marks in paper mm reach from their origin. */
function marksReach(marks: readonly Mark[]): number {
  let reach = 0;
  const at = ([x, y]: Point, more: number) => {
    reach = Math.max(reach, Math.hypot(x, y) + more);
  };
  for (const mark of marks) {
    if (mark.op === 'line') for (const p of mark.points) at(p, mark.style.width ?? 0.25);
    else if (mark.op === 'circle') at(mark.at, mark.radius + (mark.style.width ?? 0.25));
    else if (mark.op === 'text') at(mark.at, textReach(mark));
    else if (mark.op === 'symbol') at(mark.at, marksReach(mark.marks));
    else return Number.POSITIVE_INFINITY;
  }
  return reach;
}

const textReach = ({ text, size, face = 'sans', bold = false, align }: Of<'text'>): number =>
  fontMeasure.width(text, size, face, bold) / (align === 'centre' ? 2 : 1) + size;

function reachOf(item: Item, stamps: readonly Stamp[]): number {
  if (item.as === 'stamp') return stamps[item.stamp]!.reach;
  if (item.as !== 'mark') return 0;
  const { mark } = item;
  if (mark.op === 'symbol') return marksReach(mark.marks);
  if (mark.op === 'text') return textReach(mark);
  return mark.op === 'line' || mark.op === 'circle' ? 0 : Number.POSITIVE_INFINITY;
}

function* indexOf(items: readonly Item[], placed: readonly number[]): Steps<Flatbush | null> {
  if (placed.length === 0) return null;
  const index = new Flatbush(placed.length);
  for (const i of placed) {
    const { x0, y0, x1, y1 } = boundsOf(items[i]!);
    index.add(x0, y0, x1, y1);
  }
  yield;
  index.finish();
  return index;
}

interface Bounds {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

function boundsOf(item: Item): Bounds {
  if (item.as === 'box') return item;
  if (item.as === 'line') return around(item.points);
  if (item.as !== 'mark') return around([item.at]);
  const { mark } = item;
  if (mark.op === 'line') return around(mark.points);
  if (mark.op === 'circle') {
    const [[x, y], r] = [mark.at, mark.radius];
    return { x0: x - r, y0: y - r, x1: x + r, y1: y + r };
  }
  return around([mark.at]);
}

function around(points: readonly Point[]): Bounds {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    if (x < x0) x0 = x;
    if (y < y0) y0 = y;
    if (x > x1) x1 = x;
    if (y > y1) y1 = y;
  }
  return { x0, y0, x1, y1 };
}
