import type Flatbush from 'flatbush';
import type { Id } from '../base/ids.ts';
import { type Message, msg } from '../base/message.ts';
import { distance, nearestOnSegment } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { bareStretches, barIndex, near } from '../geometry/wall-finder/covering.ts';
import type { WallOffer } from '../geometry/wall-finder/find-walls.ts';
import { hasScale, inLayers } from '../plan/picture-place.ts';
import { onLevel, type Plan, type Wall } from '../plan/plan.ts';
import type { Underlay } from '../results/underlay.ts';

/** The walls that the backgrounds of a level seem to show and that are not drawn yet. */
export interface Offers {
  readonly open: readonly WallOffer[];
  /** How many long lines were not understood. */
  readonly left: number;
  /** Why nothing is offered, and what to do; null where something is, or where all of it is drawn. */
  readonly trouble: Message | null;
  readonly index: Flatbush | null;
}

/** A stretch of an offer that no wall covers is offered by itself from this length on, mm. */
const LEAST = 300;

/** What is offered on a level now. */
export function offersOn(under: Underlay | null, plan: Plan, level: Id): Offers {
  const sheets = under?.level === level ? under.sheets : [];
  const walls = onLevel(plan, 'walls', level);
  const standing = barIndex(walls);
  const all = sheets.flatMap(({ found }) => found?.offers ?? []);
  const open = all.flatMap((offer) => bareParts(offer, walls, standing));
  return {
    open,
    left: sheets.reduce((sum, { found }) => sum + (found?.left ?? 0), 0),
    trouble: all.length > 0 ? null : troubleWith(sheets, plan, level),
    index: barIndex(open),
  };
}

/** An offer without the stretches along which a wall stands already. */
function bareParts(
  offer: WallOffer,
  walls: readonly Wall[],
  standing: Flatbush | null,
): WallOffer[] {
  const around = near(standing, offer, 0).map((i) => walls[i]!);
  if (around.length === 0) return [offer];
  const length = distance(offer.a, offer.b);
  const at = (far: number): Point => [
    Math.round(offer.a[0] + ((offer.b[0] - offer.a[0]) * far) / length) + 0,
    Math.round(offer.a[1] + ((offer.b[1] - offer.a[1]) * far) / length) + 0,
  ];
  return bareStretches(offer, around)
    .filter(([from, to]) => to - from >= Math.min(length, LEAST))
    .map(([from, to]) =>
      to - from >= length
        ? offer
        : { ...offer, a: at(from), b: at(to), windows: windowsWithin(offer, from, to) },
    );
}

/** The windows of a part of an offer that are whole, told from the end of that part. */
const windowsWithin = ({ windows }: WallOffer, from: number, to: number): WallOffer['windows'] =>
  windows
    .filter(({ along, width }) => along - width / 2 >= from && along + width / 2 <= to)
    .map(({ along, width }) => ({ along: Math.round(along - from), width }));

function troubleWith(sheets: Underlay['sheets'], plan: Plan, level: Id): Message {
  const pictures = inLayers(plan, level);
  if (pictures.length === 0)
    return msg('Bring a plan first: there is no background on this level.');
  if (sheets.length === 0) return msg('The background is hidden. Show it to take walls from it.');
  if (sheets.some(({ state }) => state === 'reading'))
    return msg('The lines of the plan are being read.');
  const read = sheets.filter(({ state }) => state === 'read');
  if (read.length === 0 && sheets.some(({ state }) => state === 'failed'))
    return msg('The file of the background cannot be read. Bring it again.');
  if (read.length === 0)
    return msg(
      'The background is a scan, a photo or another picture made of dots: it has no lines to take walls from. Trace it with the wall tool, or bring the plan as a vector PDF or SVG.',
    );
  const unscaled = pictures.some(
    (picture) => !hasScale(picture) && read.some(({ background }) => background === picture.id),
  );
  if (unscaled)
    return msg(
      'Set the scale of the background first: without it nobody can tell how thick a wall is.',
    );
  return msg('No walls were made out in the lines of this plan. Trace it with the wall tool.');
}

/** The offer under a place, the nearest first; null where none is in reach. */
export function offerAt({ open, index }: Offers, at: Point, reach: number): WallOffer | null {
  let best: WallOffer | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const i of near(index, { a: at, b: at, thickness: 0 }, reach)) {
    const offer = open[i]!;
    const off = distance(at, nearestOnSegment(offer.a, offer.b, at));
    if (off > offer.thickness / 2 + reach || off >= least) continue;
    least = off;
    best = offer;
  }
  return best;
}

/** The offers that lie wholly in a box, or all that it touches. */
export function offersIn(
  { open, index }: Offers,
  a: Point,
  b: Point,
  touching: boolean,
): WallOffer[] {
  const [x0, x1] = [Math.min(a[0], b[0]), Math.max(a[0], b[0])];
  const [y0, y1] = [Math.min(a[1], b[1]), Math.max(a[1], b[1])];
  const held = ([x, y]: Point) => x >= x0 && x <= x1 && y >= y0 && y <= y1;
  return (index?.search(x0, y0, x1, y1) ?? [])
    .sort((i, j) => i - j)
    .map((i) => open[i]!)
    .filter((offer) =>
      touching ? crosses(offer, x0, y0, x1, y1) : held(offer.a) && held(offer.b),
    );
}

/** Whether a straight piece enters a box. */
function crosses({ a, b }: WallOffer, x0: number, y0: number, x1: number, y1: number): boolean {
  let [from, to] = [0, 1];
  for (const [p, d, low, high] of [
    [a[0], b[0] - a[0], x0, x1],
    [a[1], b[1] - a[1], y0, y1],
  ] as const) {
    if (d === 0) {
      if (p < low || p > high) return false;
      continue;
    }
    const [s, t] = [(low - p) / d, (high - p) / d];
    from = Math.max(from, Math.min(s, t));
    to = Math.min(to, Math.max(s, t));
  }
  return from <= to;
}
