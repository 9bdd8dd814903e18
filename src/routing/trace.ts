import type { Point } from '../geometry/point.ts';
import type { Attachment, Place } from './attach.ts';
import { WHOLE } from './best.ts';
import type { Course } from './course.ts';
import { crossingsOf } from './crossings.ts';
import { BEND } from './field.ts';
import type { Finder } from './finder.ts';
import type { Graph } from './graph.ts';
import { UNITS } from './medium.ts';
import type { Piece } from './piece.ts';
import { sectionsOf } from './sections.ts';
import { SegmentMaker } from './segment-maker.ts';
import type { Route, RouteCrossing, RouteSegment, SiteCloset, SitePlace } from './site.ts';
import type { Stack } from './stack.ts';
import { type Stretch, stretchAtEnd, stretchesBetween } from './stretches.ts';

/** Reads a route back from a course, level by level. */
export function trace(
  stack: Stack,
  course: Course,
  found: Attachment,
  level: number,
  place: Place,
  closet: SiteCloset,
): Route {
  const joins = found.state === WHOLE ? WHOLE : found.state + stack.offsets[level]!;
  const sections = sectionsOf(stack, course, level, found.legs, joins);
  const maker = new SegmentMaker(stack.graphs[level]!, place.at, place.height);
  const crossings: RouteCrossing[] = [];
  sections.forEach((section, i) => {
    const graph = stack.graphs[section.level]!;
    const { zones } = stack.finders[section.level]!;
    const { pieces } = section;
    crossings.push(...crossingsOf(graph, pieces));
    const { frame } = graph.ground;
    const first = pieces[0]!.stretches[0]!;
    const origin = section.riser ? frame.into(section.riser.at) : place.at;
    const enter = apart(origin, first.from)
      ? stretchAtEnd(graph, zones, pieces[0]!.leg, 'from')
      : first;
    if (section.riser) maker.climb(graph, enter.z, section.riser);
    else maker.rise(enter.z, enter.zone, true);
    maker.go(first.from, enter);
    const last = layAlong(graph, zones, pieces, maker);
    const next = sections[i + 1]?.riser;
    const goal = frame.into(next ? next.at : closet.at);
    const end = pieces[pieces.length - 1]!.leg;
    const leave = apart(last.to, goal) ? stretchAtEnd(graph, zones, end, 'to') : last;
    maker.rise(leave.z, leave.zone, false);
    maker.go(goal, leave);
    if (!next) maker.rise(closet.height, leave.zone, true);
  });
  return routeOf(maker, found, closet.id, crossings);
}

/** Lays the cable along pieces; answers with the last stretch. */
function layAlong(
  graph: Graph,
  zones: Finder,
  pieces: readonly Piece[],
  maker: SegmentMaker,
): Stretch {
  let last: Stretch | undefined;
  pieces.forEach((piece, i) => {
    const before = last?.z;
    const after = pieces[i + 1]?.zFrom;
    const known = piece.laid;
    if (known && known.before === before && known.after === after && maker.again(known.laid)) {
      last = known.last;
      return;
    }
    const count = maker.segments.length;
    const from = maker.here();
    for (const s of stretchesBetween(graph, zones, before, piece, after)) {
      maker.rise(s.z, s.zone, false);
      maker.go(s.to, s);
      last = s;
    }
    piece.laid = { before, after, laid: maker.since(count, from), last: last! };
  });
  return last!;
}

function routeOf(
  maker: SegmentMaker,
  found: Attachment,
  closet: string,
  crossings: readonly RouteCrossing[],
): Route {
  const { segments } = maker;
  const sum = (vertical: boolean) =>
    segments.reduce((s, g) => s + ((g.kind !== 'across') === vertical ? g.length : 0), 0);
  const across = sum(false);
  const vertical = sum(true);
  return {
    ok: true,
    closet,
    cost: found.cost / UNITS,
    bends: Math.floor(found.second / BEND),
    across,
    vertical,
    path: across + vertical,
    segments,
    lies: maker.lies,
    points: pointsOf(segments, maker.place()),
    crossings,
    pathways: [...new Set(segments.flatMap((s) => (s.pathway === null ? [] : [s.pathway])))],
  };
}

function pointsOf(segments: readonly RouteSegment[], alone: SitePlace): SitePlace[] {
  const first = segments[0];
  return first ? [first.from, ...segments.map((s) => s.to)] : [alone];
}

const apart = (a: Point, b: Point): boolean =>
  Math.round(a[0]) !== Math.round(b[0]) || Math.round(a[1]) !== Math.round(b[1]);
