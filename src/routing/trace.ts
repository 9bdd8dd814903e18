import type { Point } from '../geometry/point.ts';
import type { Attachment, Place } from './attach.ts';
import { WHOLE } from './best.ts';
import type { Course } from './course.ts';
import { crossingsOf } from './crossings.ts';
import type { Leg } from './leg.ts';
import { UNITS } from './medium.ts';
import { BEND } from './search.ts';
import { sectionsOf } from './sections.ts';
import { SegmentMaker } from './segment-maker.ts';
import type { Route, RouteCrossing, RouteSegment, SiteCloset, SitePlace } from './site.ts';
import type { Stack } from './stack.ts';
import { stretchAtEnd, stretchesAlong } from './stretches.ts';

/** Reads a route back from a course, level by level. */
export function trace(
  stack: Stack,
  course: Course,
  found: Attachment,
  level: number,
  place: Place,
  closet: SiteCloset,
): Route {
  const sections =
    found.state === WHOLE
      ? [{ level, riser: null, legs: [] }]
      : sectionsOf(stack, course, found.state + stack.offsets[level]!);
  const maker = new SegmentMaker(stack.graphs[level]!, place.at, place.height);
  const crossings: RouteCrossing[] = [];
  sections.forEach((section, i) => {
    const graph = stack.graphs[section.level]!;
    const { bodies, zones } = stack.finders[section.level]!;
    const legs = joined([...(i === 0 ? found.legs : []), ...section.legs]);
    crossings.push(...crossingsOf(graph, bodies, legs));
    const stretches = stretchesAlong(graph, zones, legs);
    const { frame } = graph.ground;
    const first = stretches[0]!;
    const origin = section.riser ? frame.into(section.riser.at) : place.at;
    const enter = apart(origin, first.from) ? stretchAtEnd(graph, zones, legs[0]!, 'from') : first;
    if (section.riser) maker.climb(graph, enter.z, section.riser);
    else maker.rise(enter.z, enter.zone, true);
    maker.go(first.from, enter);
    for (const s of stretches) {
      maker.rise(s.z, s.zone, false);
      maker.go(s.to, s);
    }
    const last = stretches[stretches.length - 1]!;
    const next = sections[i + 1]?.riser;
    const goal = frame.into(next ? next.at : closet.at);
    const end = legs[legs.length - 1]!;
    const leave = apart(last.to, goal) ? stretchAtEnd(graph, zones, end, 'to') : last;
    maker.rise(leave.z, leave.zone, false);
    maker.go(goal, leave);
    if (!next) maker.rise(closet.height, leave.zone, true);
  });
  return routeOf(maker, found, closet.id, crossings);
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

/** Puts legs on the same line together. */
function joined(legs: readonly Leg[]): Leg[] {
  const out: Leg[] = [];
  for (const leg of legs) {
    const last = out[out.length - 1];
    if (last && sameLine(last, leg) && last.to === leg.from && goesOn(last, leg))
      out[out.length - 1] = { ...last, to: leg.to, toSide: leg.toSide };
    else out.push(leg);
  }
  return out;
}

/** Whether the second does not turn back. */
const goesOn = (a: Leg, b: Leg): boolean => (a.to - a.from) * (b.to - b.from) >= 0;

function sameLine(a: Leg, b: Leg): boolean {
  if (a.on === 'track') return b.on === 'track' && a.track === b.track;
  return b.on === 'line' && a.axis === b.axis && a.c === b.c && a.side === b.side;
}

function pointsOf(segments: readonly RouteSegment[], alone: SitePlace): SitePlace[] {
  const first = segments[0];
  return first ? [first.from, ...segments.map((s) => s.to)] : [alone];
}

const apart = (a: Point, b: Point): boolean =>
  Math.round(a[0]) !== Math.round(b[0]) || Math.round(a[1]) !== Math.round(b[1]);
