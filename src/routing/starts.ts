import type { Point } from '../geometry/point.ts';
import { holdsQuadrant, type Shape } from '../geometry/shape.ts';
import type { Body, Ground } from './ground.ts';
import type { Media, Medium } from './medium.ts';
import { mediumAt, type Profile } from './profile.ts';
import { FACE_REACH } from './site.ts';

/** A place where a cable can enter the plane, and how far it goes inside or along the wall to get there. */
export interface Start {
  readonly x: number;
  readonly y: number;
  /** Length from the terminal's own place, along the axes; it counts as length, and turning off it is no bend. */
  readonly lead: number;
}

/** What lies just below a coordinate of an axis, and just above it. */
type LookBeside = (
  axis: 0 | 1,
  c: number,
) => {
  readonly below: Profile;
  readonly above: Profile;
};

/** A face of a slanted wall is entered this far outside it. */
const GAP = 0.5;
const SIDES = [0, 1] as const;

/**
 * Where a cable from a terminal can enter the ceiling plane.
 *
 * At its own place, unless that is inside a wall with a price or a barred one; to set out into a wall is to enter it. In a framed wall also at the nearest
 * point of either long face, since it rises inside the wall; on masonry, panel and exterior walls at the nearest
 * face alone (both where they are equally near). Under a hard ceiling without a drawn wall, at the nearest wall face
 * within reach.
 *
 * @param beside what lies beside a coordinate
 * @param wall index of the wall that it hangs on, or null: then any wall that it stands inside
 */
export function startsOf(
  ground: Ground,
  media: Media,
  beside: LookBeside,
  at: Point,
  wall: number | null,
): Start[] {
  const found: Start[] = [];
  const own = wall === null ? undefined : ground.bodyOf[wall];
  const over = quadrants(media, beside, at);
  // What holds it lies on all sides of it.
  const around = over.every((m) => m.barred || m.bodies.length > 0)
    ? ground.bodies.find((b) => (b.passing.barred || b.passing.price > 0) && holdsAll(b.shape, at))
    : undefined;
  const body = own && distanceTo(own.shape, at) <= FACE_REACH ? own : around;
  if (!around) found.push(start(at, at[0], at[1]));
  if (body) {
    // A body that costs nothing may be of walls of several kinds; with a price they are all of one.
    const hung = body === own ? wall! : body.walls[0]!;
    const masonry = ground.site.walls[hung]!.construction === 'masonry';
    for (const face of faceStarts(body, at, body.passing.barred || masonry)) add(found, face);
  } else if (over.every((m) => !m.pass)) {
    const near = nearestFace(ground, at);
    if (near) found.push(near);
  }
  return found;
}

/** One start for each place. */
function add(starts: Start[], { x, y, lead }: Start): void {
  for (const other of starts) if (other.x === x && other.y === y && other.lead <= lead) return;
  starts.push({ x, y, lead });
}

function holdsAll(shape: Shape, [x, y]: Point): boolean {
  if (x < shape.x0 || x > shape.x1 || y < shape.y0 || y > shape.y1) return false;
  return SIDES.every((sx) => SIDES.every((sy) => holdsQuadrant(shape, x, y, sx, sy)));
}

/** Along the axes, from a place to a box's bounds; 0 inside. */
function distanceTo(s: Shape, [x, y]: Point): number {
  return Math.max(s.x0 - x, 0, x - s.x1) + Math.max(s.y0 - y, 0, y - s.y1);
}

const clamp = (v: number, lo: number, hi: number): number => Math.min(hi, Math.max(lo, v));

function start(at: Point, x: number, y: number): Start {
  return { x, y, lead: Math.abs(x - at[0]) + Math.abs(y - at[1]) };
}

/** The nearest points of the long faces, of all four for a wall of no length: all of them, or only the nearest. */
function faceStarts(body: Body, at: Point, nearestOnly: boolean): Start[] {
  const { shape: s, axis } = body;
  const pair = body.spot
    ? [
        start(at, clamp(at[0], s.x0, s.x1), s.y0),
        start(at, clamp(at[0], s.x0, s.x1), s.y1),
        start(at, s.x0, clamp(at[1], s.y0, s.y1)),
        start(at, s.x1, clamp(at[1], s.y0, s.y1)),
      ]
    : axis === 0
      ? [s.y0, s.y1].map((y) => start(at, clamp(at[0], s.x0, s.x1), y))
      : axis === 1
        ? [s.x0, s.x1].map((x) => start(at, x, clamp(at[1], s.y0, s.y1)))
        : slantedFaces(s.flat, at);
  if (!nearestOnly) return pair;
  const least = Math.min(...pair.map((p) => p.lead));
  return pair.filter((p) => p.lead === least);
}

function slantedFaces(flat: Float64Array, at: Point): Start[] {
  const corner = (i: number): Point => [flat[2 * i]!, flat[2 * i + 1]!];
  const foot = (a: Point, b: Point, from: Point): Start => {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const ux = (b[0] - a[0]) / length;
    const uy = (b[1] - a[1]) / length;
    const t = clamp((at[0] - a[0]) * ux + (at[1] - a[1]) * uy, 0, length);
    const width = Math.hypot(a[0] - from[0], a[1] - from[1]);
    return start(
      at,
      a[0] + t * ux + ((a[0] - from[0]) / width) * GAP,
      a[1] + t * uy + ((a[1] - from[1]) / width) * GAP,
    );
  };
  return [foot(corner(0), corner(1), corner(3)), foot(corner(3), corner(2), corner(0))];
}

/** What lies round a place. */
function quadrants(media: Media, beside: LookBeside, [x, y]: Point): Medium[] {
  const { below, above } = beside(0, y);
  const found: Medium[] = [];
  for (const profile of below === above ? [below] : [below, above])
    for (const side of SIDES) found.push(media.list[mediumAt(profile, x, side)]!);
  return found;
}

/** The nearest point of any wall's faces within reach. */
function nearestFace(ground: Ground, at: Point): Start | null {
  let best: Start | null = null;
  for (const { shape: s, axis } of ground.bodies) {
    if (distanceTo(s, at) > FACE_REACH) continue;
    const near =
      axis === 2
        ? slantedFaces(s.flat, at)
        : [start(at, clamp(at[0], s.x0, s.x1), clamp(at[1], s.y0, s.y1))];
    for (const n of near)
      if (n.lead <= FACE_REACH && (best === null || n.lead < best.lead)) best = n;
  }
  return best;
}
