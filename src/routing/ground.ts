import { type Frame, frameAt } from '../geometry/frame.ts';
import { straighten } from '../geometry/outline.ts';
import type { Point } from '../geometry/point.ts';
import { boxShape, outlineShape, type Shape } from '../geometry/shape.ts';
import type { Bar, Site, SitePathway, SiteWall } from './site.ts';
import { UNDER_SLAB } from './site.ts';
import { type Passing, passing } from './wall-work.ts';

/** Corners nearer to an axis than this over their length lie along it. */
const HAIR = 2;

/** A wall as an area; collinear pieces that meet and take the same work are one body. */
export interface Body {
  readonly shape: Shape;
  /** Indices of its walls, ascending. */
  readonly walls: number[];
  readonly passing: Passing;
  /** Direction of its long faces: 0 along x, 1 along y, 2 at an angle. */
  readonly axis: 0 | 1 | 2;
  /** A wall of no length: a square, all of whose faces are alike. */
  readonly spot: boolean;
}

/** An area that free travel may not enter. */
export interface Barred {
  readonly shape: Shape;
  readonly bar: Bar;
}

export interface ZoneArea {
  readonly index: number;
  readonly shape: Shape;
}

/** A pathway in the frame; `anywhere` when it can be joined along its whole length. */
export interface Line {
  readonly pathway: SitePathway;
  readonly points: readonly Point[];
  readonly elevation: number | null;
  readonly anywhere: boolean;
}

/** A site turned into its frame, as areas. Positions are multiples of half a millimetre, off-frame corners apart. */
export interface Ground {
  readonly site: Site;
  readonly frame: Frame;
  readonly zones: readonly ZoneArea[];
  readonly bodies: readonly Body[];
  /** The body of each wall, by index. */
  readonly bodyOf: readonly Body[];
  readonly barred: readonly Barred[];
  readonly lines: readonly Line[];
  /** Where ways leave the level: at risers. */
  readonly landings: readonly Point[];
  /** Places that ways are made to pass. */
  readonly pins: readonly Point[];
}

/** Places of a level that lines have to run through. */
export interface Through {
  readonly risers: readonly Point[];
  readonly pins: readonly Point[];
}

/** A site turned into its frame: areas, wall boxes, barred places and pathways. */
export function groundOf(site: Site, through: Through): Ground {
  const frame = frameAt(site.frameAngle);
  const into = (points: readonly Point[], closed: boolean) =>
    straighten(points.map(frame.into), HAIR, closed);
  const zones = site.zones.map((zone, index) => ({
    index,
    shape: outlineShape(into(zone.outline, true)),
  }));
  const { bodies, bodyOf } = bodiesOf(site, (wall) => into([wall.a, wall.b], false));
  const barred: Barred[] = site.keepouts.flatMap((keepout) =>
    grown(into(keepout.outline, true), keepout.clearance).map((shape) => ({
      shape,
      bar: { table: 'keepouts' as const, id: keepout.id },
    })),
  );
  for (const body of bodies)
    if (body.passing.barred)
      barred.push({
        shape: body.shape,
        bar: { table: 'walls', id: site.walls[body.walls[0]!]!.id },
      });
  return {
    site,
    frame,
    zones,
    bodies,
    bodyOf,
    barred,
    lines: site.pathways.map((pathway) => lineOf(pathway, into(pathway.points, false))),
    landings: through.risers.map(frame.into),
    pins: through.pins.map(frame.into),
  };
}

function lineOf(pathway: SitePathway, points: readonly Point[]): Line {
  const { kind } = pathway;
  const elevation = pathway.elevation ?? (kind === 'under-slab' ? UNDER_SLAB : null);
  const distinct = points.filter(
    (p, i) => i === 0 || p[0] !== points[i - 1]![0] || p[1] !== points[i - 1]![1],
  );
  return {
    pathway,
    points: distinct,
    elevation,
    anywhere: kind === 'hook-line' || kind === 'tray' || kind === 'raceway',
  };
}

/** An outline grown by a clearance along both axes: the area itself and a hexagon round each edge. */
function grown(points: readonly Point[], clearance: number): Shape[] {
  const shape = outlineShape(points);
  if (clearance === 0) return [shape];
  if (shape.box)
    return [
      boxShape(
        shape.x0 - clearance,
        shape.y0 - clearance,
        shape.x1 + clearance,
        shape.y1 + clearance,
      ),
    ];
  return [shape, ...points.map((p, i) => swept(p, points[(i + 1) % points.length]!, clearance))];
}

/** What a square of half side `r` covers when its centre goes from p to q. */
function swept(p: Point, q: Point, r: number): Shape {
  const [a, b] = p[0] <= q[0] ? [p, q] : [q, p];
  if (a[0] === b[0] || a[1] === b[1])
    return boxShape(
      Math.min(a[0], b[0]) - r,
      Math.min(a[1], b[1]) - r,
      Math.max(a[0], b[0]) + r,
      Math.max(a[1], b[1]) + r,
    );
  const s = b[1] > a[1] ? 1 : -1;
  return outlineShape([
    [a[0] - r, a[1] + s * r],
    [a[0] - r, a[1] - s * r],
    [a[0] + r, a[1] - s * r],
    [b[0] + r, b[1] - s * r],
    [b[0] + r, b[1] + s * r],
    [b[0] - r, b[1] + s * r],
  ]);
}

/** A wall on its way to becoming a body: c is its coordinate across, lo and hi are its ends along its axis. */
interface WallRow {
  readonly index: number;
  readonly a: Point;
  readonly b: Point;
  readonly half: number;
  readonly work: Passing;
  readonly axis: 0 | 1 | 2;
  readonly point: boolean;
  readonly c: number;
  readonly lo: number;
  readonly hi: number;
}

function rowOf(wall: SiteWall, index: number, ends: readonly Point[], site: Site): WallRow {
  const [a, b] = ends as [Point, Point];
  const axis = a[1] === b[1] ? 0 : a[0] === b[0] ? 1 : 2;
  const point = a[0] === b[0] && a[1] === b[1];
  const along = axis === 1 ? 1 : 0;
  const half = wall.thickness / 2;
  const lo = Math.min(a[along], b[along]) - half;
  const hi = Math.max(a[along], b[along]) + half;
  const work = passing(wall, site.prices);
  return { index, a, b, half, work, axis, point, c: a[1 - along]!, lo, hi };
}

/** 0 for walls that are of one body where they meet; else an order of those that are not. */
const apart = (p: WallRow, q: WallRow): number =>
  p.axis - q.axis ||
  p.c - q.c ||
  Number(p.point) - Number(q.point) ||
  p.half - q.half ||
  p.work.price - q.work.price ||
  Number(p.work.firestop) - Number(q.work.firestop) ||
  (p.work.work < q.work.work ? -1 : p.work.work > q.work.work ? 1 : 0);

/** Those of one kind together, each group along its line. */
const inLine = (p: WallRow, q: WallRow): number => apart(p, q) || p.lo - q.lo || p.index - q.index;

function bodiesOf(
  site: Site,
  into: (wall: SiteWall) => readonly Point[],
): { bodies: Body[]; bodyOf: Body[] } {
  const rows = site.walls.map((wall, index) => rowOf(wall, index, into(wall), site));
  const bodies: Body[] = [];
  const bodyOf: Body[] = new Array(rows.length);
  for (const { axis, a, b, half, work, index } of rows)
    if (axis === 2)
      bodies.push({
        shape: turnedBox(a, b, half),
        walls: [index],
        passing: work,
        axis,
        spot: false,
      });
  const straight = rows.filter((row) => row.axis !== 2).sort(inLine);
  for (let i = 0; i < straight.length; ) {
    const row = straight[i]!;
    const { axis, half, work, point, c, lo: from } = row;
    let to = row.hi;
    const walls = [row.index];
    for (i++; i < straight.length; i++) {
      const next = straight[i]!;
      if (next.lo > to || apart(row, next) !== 0) break;
      to = Math.max(to, next.hi);
      walls.push(next.index);
    }
    walls.sort((p, q) => p - q);
    const shape =
      axis === 0 ? boxShape(from, c - half, to, c + half) : boxShape(c - half, from, c + half, to);
    bodies.push({ shape, walls, passing: work, axis, spot: point });
  }
  bodies.sort((p, q) => p.walls[0]! - q.walls[0]!);
  for (const body of bodies) for (const index of body.walls) bodyOf[index] = body;
  return { bodies, bodyOf };
}

/** A centreline grown by `half` on all sides, ends included. */
function turnedBox(a: Point, b: Point, half: number): Shape {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const ux = ((b[0] - a[0]) / length) * half;
  const uy = ((b[1] - a[1]) / length) * half;
  return outlineShape([
    [a[0] - ux + uy, a[1] - uy - ux],
    [b[0] + ux + uy, b[1] + uy - ux],
    [b[0] + ux - uy, b[1] + uy + ux],
    [a[0] - ux - uy, a[1] - uy + ux],
  ]);
}
