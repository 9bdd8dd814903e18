import type { Point } from '../../geometry/point.ts';

/** A straight line that a page draws, in page units: from its upper left corner, y down. */
export interface PageLine {
  readonly a: Point;
  readonly b: Point;
  /** Breadth of the stroke in page units; 0 for a hairline. */
  readonly width: number;
  /** Its colour as `#rrggbb`, or the format's own word where it is not a plain colour. */
  readonly ink: string;
  readonly dashed: boolean;
}

/** A filled shape of a page, in page units: one ring, or several where it has holes or parts. */
export interface PageFill {
  readonly rings: readonly (readonly Point[])[];
  readonly ink: string;
  /** Whether part of its outline was a curve, which stands here as chords. */
  readonly curved: boolean;
}

/** What a page draws with straight lines and filled shapes. Text, images and curved strokes are left out. */
export interface PageLines {
  /** Size of the page in its units: points of a PDF, pixels of an SVG. */
  readonly width: number;
  readonly height: number;
  readonly lines: readonly PageLine[];
  readonly fills: readonly PageFill[];
}

/** [a b c d e f] of x' = a x + c y + e, y' = b x + d y + f, as PDF and SVG write it. */
export type Matrix = readonly [number, number, number, number, number, number];

export const IDENTITY: Matrix = [1, 0, 0, 1, 0, 0];

/** The matrix that does `inner` first, `outer` after it. */
export function times(outer: Matrix, inner: Matrix): Matrix {
  const [a, b, c, d, e, f] = outer;
  const [g, h, i, j, k, l] = inner;
  return [
    a * g + c * h,
    b * g + d * h,
    a * i + c * j,
    b * i + d * j,
    a * k + c * l + e,
    b * k + d * l + f,
  ];
}

/** Where a matrix takes a place. */
export const through = ([a, b, c, d, e, f]: Matrix, [x, y]: Point): Point => [
  a * x + c * y + e,
  b * x + d * y + f,
];

/** By how much a matrix makes lengths longer, in the mean of all directions. */
export const growth = ([a, b, c, d]: Matrix): number => Math.sqrt(Math.abs(a * d - b * c));

/** Chords that stand for one curve in the outline of a filled shape. */
const CHORDS = 8;

interface Subpath {
  readonly points: Point[];
  /** Whether the way to the point of the same place in the list was straight. */
  readonly straight: boolean[];
  closed: boolean;
}

/** How a stroke looks. */
export interface Stroke {
  readonly width: number;
  readonly ink: string;
  readonly dashed: boolean;
}

/** Gathers paths, and keeps their straight lines and filled shapes. */
export class LinePen {
  readonly lines: PageLine[] = [];
  readonly fills: PageFill[] = [];
  #paths: Subpath[] = [];

  /** Where the path has come to; the origin before it began. */
  get at(): Point {
    return this.#paths.at(-1)?.points.at(-1) ?? [0, 0];
  }

  moveTo(to: Point): void {
    this.#paths.push({ points: [to], straight: [false], closed: false });
  }

  lineTo(to: Point): void {
    this.#to(to, true);
  }

  /** A cubic curve. */
  curveTo(c1: Point, c2: Point, to: Point): void {
    const from = this.at;
    for (let i = 1; i <= CHORDS; i++) {
      const t = i / CHORDS;
      const u = 1 - t;
      const along = (k: 0 | 1): number =>
        u * u * u * from[k] + 3 * u * u * t * c1[k] + 3 * u * t * t * c2[k] + t * t * t * to[k];
      this.#to(i === CHORDS ? to : [along(0), along(1)], false);
    }
  }

  /** A quadratic curve, as the cubic that it is. */
  quadTo(c: Point, to: Point): void {
    const from = this.at;
    const third = (p: Point): Point => [
      p[0] + ((c[0] - p[0]) * 2) / 3,
      p[1] + ((c[1] - p[1]) * 2) / 3,
    ];
    this.curveTo(third(from), third(to), to);
  }

  close(): void {
    const path = this.#paths.at(-1);
    if (!path) return;
    path.closed = true;
    // What is drawn after a close without a move begins where the closed part began (ISO 32000-1, 8.5.2.1).
    this.moveTo(path.points[0]!);
  }

  /** Keeps the straight lines of the path. */
  stroke(matrix: Matrix, { width, ink, dashed }: Stroke): void {
    const broad = width * growth(matrix);
    for (const { points, straight, closed } of this.#paths) {
      const line = (from: Point, to: Point) => {
        const a = through(matrix, from);
        const b = through(matrix, to);
        if (a[0] !== b[0] || a[1] !== b[1]) this.lines.push({ a, b, width: broad, ink, dashed });
      };
      for (let i = 1; i < points.length; i++) if (straight[i]) line(points[i - 1]!, points[i]!);
      if (closed && points.length > 1) line(points.at(-1)!, points[0]!);
    }
  }

  /** Keeps the path as a filled shape; parts that hold no area are dropped. */
  fill(matrix: Matrix, ink: string): void {
    const rings = this.#paths.filter(({ points }) => points.length > 2);
    if (rings.length === 0) return;
    this.fills.push({
      rings: rings.map(({ points }) => ring(points).map((p) => through(matrix, p))),
      ink,
      curved: rings.some(({ straight }) => straight.slice(1).includes(false)),
    });
  }

  /** Forgets the path. */
  clear(): void {
    this.#paths = [];
  }

  #to(to: Point, straight: boolean): void {
    // A path that does not begin with a move has no beginning; readers take its first point as one.
    const path = this.#paths.at(-1);
    if (!path) this.moveTo(to);
    else {
      path.points.push(to);
      path.straight.push(straight);
    }
  }
}

/** The corners of a ring; a last point on the first says nothing more. */
function ring(points: readonly Point[]): readonly Point[] {
  const [first, last] = [points[0]!, points.at(-1)!];
  return first[0] === last[0] && first[1] === last[1] ? points.slice(0, -1) : points;
}
