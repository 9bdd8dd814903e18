import type { Part } from '../../drawing/display.ts';
import type { Point } from '../../geometry/point.ts';
import type { Drawn } from '../../geometry/wall-finder/find-walls.ts';
import { fromPicture } from '../../plan/picture-place.ts';
import type { Background } from '../../plan/plan.ts';
import { growth, type Matrix, type PageLines, through, times } from './page-lines.ts';

/** The lines of a page, packed so that they can be handed to a worker at once. */
export interface PackedPage {
  readonly width: number;
  /** ax, ay, bx, by and the breadth of each line, in page units. */
  readonly strokes: Float64Array;
  /** Which of them are dashed. */
  readonly dashed: Uint8Array;
  /** Rings of the filled shapes that are made of straight edges. */
  readonly fills: readonly (readonly (readonly Point[])[])[];
}

/** How a picture lies in the plan. */
export interface Placement {
  /** How many pixels wide all of it counts as. */
  readonly width: number;
  /** From its pixels to mm of the plan. */
  readonly matrix: Matrix;
  /** What is shown of it, in its pixels; null where all is. */
  readonly crop: Part | null;
}

/** What a page draws where it lies in the plan, mm: its lines for the eye, and what walls are looked for in. */
export interface PlacedPage {
  /** ax, ay, bx, by of each straight line and of each edge of a filled shape. */
  readonly lines: Float64Array;
  readonly drawn: Drawn;
}

/** Each part of a white is at least this: colour profiles turn it a little. */
const WHITE = 0xf8;

/** White on white shows nothing: it covers what lies beneath. */
function isSeen(ink: string): boolean {
  const parts = /^#(..)(..)(..)$/.exec(ink)?.slice(1);
  return !parts?.every((part) => Number.parseInt(part, 16) >= WHITE);
}

/** Packs what a page draws; what is white, and filled shapes with curved edges, are left out. */
export function packPage({ width, lines, fills }: PageLines): PackedPage {
  const seen = lines.filter(({ ink }) => isSeen(ink));
  const strokes = new Float64Array(seen.length * 5);
  seen.forEach(({ a, b, width: breadth }, i) => {
    strokes.set([a[0], a[1], b[0], b[1], breadth], i * 5);
  });
  return {
    width,
    strokes,
    dashed: Uint8Array.from(seen, ({ dashed }) => (dashed ? 1 : 0)),
    fills: fills.filter(({ ink, curved }) => isSeen(ink) && !curved).map(({ rings }) => rings),
  };
}

/** How a background lies in the plan. */
export function placementOf(picture: Background): Placement {
  const [origin, right, down] = (
    [
      [0, 0],
      [1, 0],
      [0, 1],
    ] as const
  ).map((pixel) => fromPicture(picture, pixel)) as [Point, Point, Point];
  const matrix: Matrix = [
    right[0] - origin[0],
    right[1] - origin[1],
    down[0] - origin[0],
    down[1] - origin[1],
    origin[0],
    origin[1],
  ];
  return { width: picture.width, matrix, crop: picture.crop };
}

/**
 * Lays a packed page into the plan. Dashed lines are there for the eye alone: they stand for what is hidden, overhead
 * or to come.
 */
export function placePage(page: PackedPage, place: Placement): PlacedPage {
  const pixels = place.width / page.width;
  const matrix = times(place.matrix, [pixels, 0, 0, pixels, 0, 0]);
  const crop = place.crop && {
    x0: place.crop.x0 / pixels,
    y0: place.crop.y0 / pixels,
    x1: place.crop.x1 / pixels,
    y1: place.crop.y1 / pixels,
  };
  const { strokes, dashed } = page;
  const seen: number[] = [];
  const drawn: { a: Point; b: Point; width: number }[] = [];
  const scale = growth(matrix);
  const see = (p: Point, q: Point): readonly [Point, Point] | null => {
    const kept = clipped(p, q, crop);
    if (!kept) return null;
    const [a, b] = [through(matrix, kept[0]), through(matrix, kept[1])];
    seen.push(a[0], a[1], b[0], b[1]);
    return [a, b];
  };
  for (let i = 0; i < strokes.length; i += 5) {
    const ends = see([strokes[i]!, strokes[i + 1]!], [strokes[i + 2]!, strokes[i + 3]!]);
    if (ends && !dashed[i / 5])
      drawn.push({ a: ends[0], b: ends[1], width: strokes[i + 4]! * scale });
  }
  const fills: Point[][][] = [];
  for (const rings of page.fills) {
    let whole = true;
    for (const ring of rings)
      ring.forEach((p, i) => {
        see(p, ring[(i + 1) % ring.length]!);
        whole &&= inCrop(p, crop);
      });
    // Part of a shape may be any shape.
    if (whole) fills.push(rings.map((ring) => ring.map((p) => through(matrix, p))));
  }
  return { lines: Float64Array.from(seen), drawn: { lines: drawn, fills } };
}

const inCrop = ([x, y]: Point, crop: Part | null): boolean =>
  !crop || (x >= crop.x0 && x <= crop.x1 && y >= crop.y0 && y <= crop.y1);

/** The part of a straight piece within a box; null where none is. */
function clipped(a: Point, b: Point, crop: Part | null): readonly [Point, Point] | null {
  if (!crop) return [a, b];
  let [from, to] = [0, 1];
  for (const [p, d, low, high] of [
    [a[0], b[0] - a[0], crop.x0, crop.x1],
    [a[1], b[1] - a[1], crop.y0, crop.y1],
  ] as const) {
    if (d === 0 && (p < low || p > high)) return null;
    if (d === 0) continue;
    const [s, t] = [(low - p) / d, (high - p) / d];
    from = Math.max(from, Math.min(s, t));
    to = Math.min(to, Math.max(s, t));
  }
  if (from >= to) return null;
  const at = (k: number): Point => [a[0] + (b[0] - a[0]) * k, a[1] + (b[1] - a[1]) * k];
  return [from === 0 ? a : at(from), to === 1 ? b : at(to)];
}
