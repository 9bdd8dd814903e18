import type { Point } from './point.ts';

/** The four corners of a shape, round it with the clock from the upper left. */
export type Corners = readonly [Point, Point, Point, Point];

/** [a b c d e f g h] of x' = (a x + b y + c) / (g x + h y + 1), y' = (d x + e y + f) / (g x + h y + 1). */
export type Homography = readonly number[];

/** The map between planes that takes four corners to four others; null where three of them lie in a line. */
export function homography(from: Corners, to: Corners): Homography | null {
  const rows = from.flatMap(([x, y], i) => {
    const [u, v] = to[i]!;
    return [
      [x, y, 1, 0, 0, 0, -u * x, -u * y, u],
      [0, 0, 0, x, y, 1, -v * x, -v * y, v],
    ];
  });
  return isConvex(from) && isConvex(to) ? solved(rows) : null;
}

/** Solves linear equations by elimination with the largest pivot; null where they do not have one answer. */
function solved(rows: number[][]): number[] | null {
  const n = rows.length;
  for (let i = 0; i < n; i++) {
    let best = i;
    for (let r = i + 1; r < n; r++)
      if (Math.abs(rows[r]![i]!) > Math.abs(rows[best]![i]!)) best = r;
    [rows[i], rows[best]] = [rows[best]!, rows[i]!];
    const pivot = rows[i]![i]!;
    if (Math.abs(pivot) < 1e-12) return null;
    for (let r = 0; r < n; r++) {
      if (r === i) continue;
      const share = rows[r]![i]! / pivot;
      for (let c = i; c <= n; c++) rows[r]![c]! -= share * rows[i]![c]!;
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!);
}

/** Where a map takes a place; not a finite place where that lies on the map's horizon. */
export function mapped(h: Homography, [x, y]: Point): Point {
  const w = h[6]! * x + h[7]! * y + 1;
  return [(h[0]! * x + h[1]! * y + h[2]!) / w, (h[3]! * x + h[4]! * y + h[5]!) / w];
}

/** Whether four corners go round with the clock (y down) without a dent or a crossing, none of them on a side. */
export function isConvex(corners: Corners): boolean {
  return corners.every((b, i) => {
    const a = corners[(i + 3) % 4]!;
    const c = corners[(i + 1) % 4]!;
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) > 0;
  });
}

type Triple = readonly [number, number, number];

const cross = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Focal lengths of lenses as shares of the picture's diagonal: the widest, a phone's (26 mm on 43 mm film), a long one. */
const FOCAL = { least: 0.4, usual: 0.6, most: 8 } as const;

/**
 * Width over height of a rectangle that a camera saw with these corners. By Zhang and He, "Whiteboard scanning and
 * image enhancement" (Digital Signal Processing 17, 2007), equations 11 to 21: square pixels, the lens over the middle
 * of the picture. Where the corners do not tell the focal length, that of a usual phone is taken.
 *
 * @returns more than 0, or 1 for corners that are no convex shape
 */
export function aspectOf(
  corners: Corners,
  picture: { readonly width: number; readonly height: number },
): number {
  if (!isConvex(corners)) return 1;
  const [cx, cy] = [picture.width / 2, picture.height / 2];
  // In diagonals, so that the numbers are near 1.
  const d = Math.hypot(picture.width, picture.height);
  const [m1, m2, m4, m3] = corners.map(([x, y]): Triple => [(x - cx) / d, (y - cy) / d, 1]) as [
    Triple,
    Triple,
    Triple,
    Triple,
  ];
  const k2 = dot(cross(m1, m4), m3) / dot(cross(m2, m4), m3);
  const k3 = dot(cross(m1, m4), m2) / dot(cross(m3, m4), m2);
  const n2 = [k2 * m2[0] - m1[0], k2 * m2[1] - m1[1], k2 - 1] as const;
  const n3 = [k3 * m3[0] - m1[0], k3 * m3[1] - m1[1], k3 - 1] as const;
  const square = -(n2[0] * n3[0] + n2[1] * n3[1]) / (n2[2] * n3[2]);
  const focal =
    square > 0 && Number.isFinite(square)
      ? Math.min(FOCAL.most, Math.max(FOCAL.least, Math.sqrt(square)))
      : FOCAL.usual;
  const size = (n: Triple): number => Math.hypot(n[0] / focal, n[1] / focal, n[2]);
  return size(n2) / size(n3);
}

/**
 * The size of the upright picture that corners in a photo become: of the shape that the camera saw, and as fine as the
 * photo is on its longer sides. Whole pixels.
 */
export function straightSize(
  corners: Corners,
  picture: { readonly width: number; readonly height: number },
): { readonly width: number; readonly height: number } {
  const side = (i: number): number => {
    const [a, b] = [corners[i]!, corners[(i + 1) % 4]!];
    return Math.hypot(b[0] - a[0], b[1] - a[1]);
  };
  const aspect = aspectOf(corners, picture);
  const width = Math.max(side(0), side(2), Math.max(side(1), side(3)) * aspect);
  return { width: Math.max(1, Math.round(width)), height: Math.max(1, Math.round(width / aspect)) };
}
