import type { Id } from '../base/ids.ts';
import type { Point } from '../geometry/point.ts';
import type { Shape } from '../geometry/shape.ts';
import type { Plan } from '../plan/plan.ts';
import type {
  CeilingPlane,
  PlaneCeiling,
  PlaneWall,
  PlaneWallReason,
} from '../results/ceiling-plane.ts';
import { type Body, type Ground, groundOf } from './ground.ts';
import { Media } from './medium.ts';
import { siteOf } from './plan-site.ts';
import type { Profile } from './profile.ts';
import { ceilingFactor, type SiteCeiling, type SitePrices } from './site.ts';
import { placeOn } from './track-places.ts';
import { tracksOf } from './tracks.ts';

/**
 * What a cable may do overhead on a level, read from what the search itself is made of. Null for a level that is not
 * there.
 */
export function ceilingPlane(plan: Plan, level: Id): CeilingPlane | null {
  const row = plan.tables.levels.get(level);
  if (!row) return null;
  const site = siteOf(plan, row);
  const ground = groundOf(site, { risers: [], pins: [] });
  const { prices } = site;
  return {
    level,
    ceilings: [
      ceilingOf(site.ceiling, prices, null, []),
      ...site.zones.map((zone) => ceilingOf(zone, prices, zone.id, zone.outline)),
    ],
    walls: ground.bodies.map((body) => wallOf(ground, body)),
    keepouts: site.keepouts.map(({ id, outline, clearance }) => ({
      keepout: id,
      outline,
      clearance,
      kept: ground.barred
        .filter(({ bar }) => bar.table === 'keepouts' && bar.id === id)
        .map(({ shape }) => outlineOf(ground, shape)),
    })),
    pathways: ground.lines.map(({ pathway, elevation, anywhere }) => ({
      pathway: pathway.id,
      kind: pathway.kind,
      points: pathway.points,
      elevation,
      factor: prices.pathwayFactor,
      joins: anywhere ? 'anywhere' : 'ends',
    })),
    faces: facesOf(ground),
    bend: prices.bend,
  };
}

const ceilingOf = (
  { kind, elevation }: SiteCeiling,
  prices: SitePrices,
  zone: Id | null,
  outline: readonly Point[],
): PlaneCeiling => ({
  zone,
  outline,
  kind,
  travel: kind === 'hard' ? 'faces' : 'free',
  elevation,
  factor: ceilingFactor(kind, prices),
});

function wallOf(ground: Ground, { shape, walls, passing }: Body): PlaneWall {
  const { site } = ground;
  const { work, firestop, price, barred } = passing;
  const first = site.walls[walls[0]!]!;
  const reason: PlaneWallReason = first.exterior
    ? 'exterior'
    : work === 'none'
      ? 'grid'
      : first.construction;
  return {
    walls: walls.map((index) => site.walls[index]!.id),
    outline: outlineOf(ground, shape),
    passage: barred ? 'barred' : price > 0 ? 'priced' : 'free',
    reason,
    work,
    firestop: firestop && work !== 'none',
    price,
  };
}

/** An area of the frame in the building. */
function outlineOf({ frame }: Ground, { flat }: Shape): Point[] {
  const points: Point[] = [];
  for (let i = 0; i < flat.length; i += 2) points.push(frame.back(flat[i]!, flat[i + 1]!));
  return points;
}

/** The faces of walls under hard ceilings, less what keep-outs and walls that nobody passes take of them. */
function facesOf(ground: Ground): (readonly [Point, Point])[] {
  const { frame } = ground;
  const bodies = ground.bodies.filter(hardOver(ground));
  if (bodies.length === 0) return [];
  const media = new Media(ground);
  const faces: (readonly [Point, Point])[] = [];
  const put = (a: Point, b: Point): void => {
    faces.push([frame.back(...a), frame.back(...b)]);
  };
  for (const { shape: s, axis } of bodies) {
    if (axis === 2) continue;
    for (const [y, side] of [
      [s.y0, 0],
      [s.y1, 1],
    ] as const)
      for (const [from, to] of openUnder(media, media.beside(0, y, side), s.x0, s.x1))
        put([from, y], [to, y]);
    for (const [x, side] of [
      [s.x0, 0],
      [s.x1, 1],
    ] as const)
      for (const [from, to] of openUnder(media, media.beside(1, x, side), s.y0, s.y1))
        put([x, from], [x, to]);
  }
  const slanted = bodies.some(({ axis }) => axis === 2);
  for (const track of slanted ? tracksOf(ground, media) : [])
    if (track.line < 0)
      for (const [from, to] of openUnder(media, track.profile, track.pa, track.pb))
        put(placeOn(track, from), placeOn(track, to));
  return faces;
}

/** Whether a hard ceiling may lie over a wall or beside it, as far as bounds say. */
function hardOver({ site, zones }: Ground): (body: Body) => boolean {
  if (site.ceiling.kind === 'hard') return () => true;
  const hard = zones.filter(({ index }) => site.zones[index]!.kind === 'hard');
  return ({ shape: a }) =>
    hard.some(({ shape: b }) => a.x0 <= b.x1 && a.x1 >= b.x0 && a.y0 <= b.y1 && a.y1 >= b.y0);
}

/** The stretches of a line between two positions where a cable may go under a hard ceiling. */
function openUnder(media: Media, { row, first, end }: Profile, lo: number, hi: number) {
  const open: [from: number, to: number][] = [];
  for (let k = first; k < end; k++) {
    const { kind, pass } = media.list[row.media[k]!]!;
    const from = Math.max(lo, row.starts[k]!);
    const to = Math.min(hi, row.starts[k + 1]!);
    if (kind !== 'hard' || !pass || from >= to) continue;
    const last = open[open.length - 1];
    if (last && last[1] === from) last[1] = to;
    else open.push([from, to]);
  }
  return open;
}
