import { spansBeside } from '../geometry/shape.ts';
import type { Graph } from './graph.ts';
import type { Body } from './ground.ts';
import { isPriced } from './insides.ts';
import type { Leg } from './leg.ts';
import type { Piece } from './piece.ts';
import type { RouteCrossing, SitePlace } from './site.ts';
import { passing } from './wall-work.ts';

/** A route's stay inside a body, by the distance travelled so far. */
interface Stay {
  readonly body: Body;
  readonly from: number;
  to: number;
  /** Halves of the price that the cost holds. */
  halves: number;
  pathway: number;
  place: SitePlace;
  reaches: boolean;
}

/**
 * The walls that a route passes, in order. Entering and leaving one body is one crossing, whether the way goes straight
 * through or turns inside it. A wall without a price that the route starts or ends inside is not crossed.
 *
 * The prices are those that the cost of the way holds: each half is found where the network charges it, at a change of
 * medium along a leg or from one leg to the next.
 */
export function crossingsOf(graph: Graph, pieces: readonly Piece[]): RouteCrossing[] {
  const stays: Stay[] = [];
  const last = new Map<Body, Stay>();
  let travelled = 0;
  pieces.forEach(({ length, insides }, i) => {
    for (const inside of insides) {
      const { body, opens, closes, pathway, place, reaches } = inside;
      const stay = {
        body,
        from: travelled + inside.from,
        to: travelled + inside.to,
        halves:
          inside.halves +
          Number(opens && paysBetween(graph, pieces, i, -1, body)) +
          Number(closes && paysBetween(graph, pieces, i, 1, body)),
        pathway,
        place,
        reaches,
      };
      const before = last.get(body);
      if (before && stay.from - before.to < 1e-6) merge(before, stay);
      else {
        last.set(body, stay);
        stays.push(stay);
      }
    }
    travelled += length;
  });
  const [first, end] = [pieces[0]!.leg, pieces[pieces.length - 1]!.leg];
  return stays
    .filter(
      (stay) =>
        (isPriced(stay.body) || !startsInside(first, end, stay, travelled)) &&
        // To be at a place inside, and no longer, is no crossing unless it costs.
        (stay.from !== stay.to || stay.halves > 0),
    )
    .map((stay) => ({ at: stay.from, crossing: crossing(graph, stay) }))
    .sort((a, b) => a.at - b.at || (a.crossing.wall < b.crossing.wall ? -1 : 1))
    .map(({ crossing: one }) => one);
}

/**
 * Whether half the price of a body that holds the start (-1) or the end (1) of a piece is paid there: where the way
 * begins or ends, where a pathway is left or joined in the plane, and where the piece before or after is not in it.
 */
function paysBetween(
  graph: Graph,
  pieces: readonly Piece[],
  index: number,
  way: -1 | 1,
  body: Body,
): boolean {
  const next = pieces[index + way];
  if (!next) return true;
  // Tracks pass a cable on for nothing.
  if (pieces[index]!.leg.on === 'track' && next.leg.on === 'track') return false;
  const { passage } = next;
  if (!passage) return true;
  const medium = passage.media[way > 0 ? 0 : passage.media.length - 1]!;
  return !graph.media.list[medium]!.bodies.some((number) => graph.ground.bodies[number] === body);
}

function merge(into: Stay, next: Stay): void {
  if (next.to - next.from > into.to - into.from) into.place = next.place;
  into.to = next.to;
  into.halves += next.halves;
  into.pathway = into.pathway >= 0 ? into.pathway : next.pathway;
  into.reaches ||= next.reaches;
}

/** Whether the route begins or ends inside the body, rather than at its face. */
function startsInside(first: Leg, last: Leg, stay: Stay, total: number): boolean {
  const holds = (leg: Leg, p: number): boolean => {
    if (leg.on === 'track') return false;
    const spans: number[] = [];
    spansBeside(stay.body.shape, leg.axis, leg.c, leg.side, spans);
    return spans.some((v, i) => i % 2 === 0 && p > v && p < spans[i + 1]!);
  };
  if (stay.from < 1e-6 && holds(first, first.from)) return true;
  return stay.to > total - 1e-6 && holds(last, last.to);
}

function crossing(graph: Graph, stay: Stay): RouteCrossing {
  const { site } = graph;
  const { body } = stay;
  const index = wallAt(graph, body, stay.place);
  const wall = site.walls[index]!;
  const work = passing(wall, site.prices, stay.reaches);
  return {
    level: site.id,
    wall: wall.id,
    construction: wall.construction,
    at: stay.place,
    work: work.work,
    firestop: work.firestop && work.work !== 'none',
    price: (body.passing.price * stay.halves) / 2,
    pathway: stay.pathway >= 0 ? site.pathways[stay.pathway]!.id : null,
  };
}

/** Which of a body's walls holds a place: the first whose centreline reaches it, else the nearest. */
function wallAt(graph: Graph, body: Body, [x, y]: SitePlace): number {
  let best = body.walls[0]!;
  let least = Infinity;
  for (const index of body.walls) {
    const { a, b } = graph.site.walls[index]!;
    const dx = Math.max(Math.min(a[0], b[0]) - x, 0, x - Math.max(a[0], b[0]));
    const dy = Math.max(Math.min(a[1], b[1]) - y, 0, y - Math.max(a[1], b[1]));
    if (dx + dy >= least) continue;
    least = dx + dy;
    best = index;
  }
  return best;
}
