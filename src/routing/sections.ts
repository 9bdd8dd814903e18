import { WHOLE } from './best.ts';
import type { Course } from './course.ts';
import type { Graph } from './graph.ts';
import { backwards, type Leg } from './leg.ts';
import { sideAt } from './lines.ts';
import { type Piece, pieceOf } from './piece.ts';
import type { SiteRiser } from './site.ts';
import { bothStates, levelOfState, type Stack } from './stack.ts';

/** The part of a way on one level, and the riser by which it came there. */
export interface Section {
  readonly level: number;
  readonly riser: SiteRiser | null;
  readonly pieces: Piece[];
}

/** What a way does from a state on until it turns, and where it goes on from there. */
export interface Hop {
  /** One leg, and at a closet those from the network to it. */
  readonly legs: readonly Leg[];
  /** Only of hops that begin where others turn, since many ways share those. */
  readonly pieces: readonly Piece[] | null;
  readonly riser: SiteRiser | null;
  /** The state that it ends at, and the next one; -1 where the course ends. */
  readonly end: number;
  readonly next: number;
}

/**
 * The way of a terminal that joins the network by some legs at a state, to the end of a course, on each level that it
 * passes.
 *
 * @param state `WHOLE` when the legs lead to the end already
 */
export function sectionsOf(
  stack: Stack,
  course: Course,
  level: number,
  legs: readonly Leg[],
  state: number,
): Section[] {
  const sections = [{ level, riser: null as SiteRiser | null, parts: legs.map(loose) }];
  if (state !== WHOLE)
    for (let part: Course | null = course, at = state; part; part = part.after) {
      // One line or track at a time; a pin ends it, since the way may turn back there.
      for (let hop = hopFrom(stack, part, at, false); ; hop = hopOf(stack, part, hop.next)) {
        const { parts } = sections[sections.length - 1]!;
        if (hop.pieces) for (const piece of hop.pieces) parts.push({ leg: piece.leg, piece });
        else for (const leg of hop.legs) parts.push(loose(leg));
        if (hop.riser)
          sections.push({ level: levelOfState(stack, hop.next), riser: hop.riser, parts: [] });
        if (hop.next >= 0) continue;
        at = hop.end;
        break;
      }
    }
  return sections.map(({ level: on, riser, parts }) => ({
    level: on,
    riser,
    pieces: joined(parts).map(({ leg, piece }) => piece ?? pieceOf(stack, on, leg)),
  }));
}

/** A leg, with all that lies along it where that is known. */
interface Part {
  readonly leg: Leg;
  readonly piece: Piece | null;
}

const loose = (leg: Leg): Part => ({ leg, piece: null });

/** Puts legs on the same line together. */
function joined(parts: readonly Part[]): Part[] {
  const out: Part[] = [];
  for (const part of parts) {
    const { leg } = part;
    const last = out[out.length - 1]?.leg;
    if (last && sameLine(last, leg) && last.to === leg.from && goesOn(last, leg))
      out[out.length - 1] = loose({ ...last, to: leg.to, toSide: leg.toSide });
    else out.push(part);
  }
  return out;
}

/** Whether the second does not turn back. */
const goesOn = (a: Leg, b: Leg): boolean => (a.to - a.from) * (b.to - b.from) >= 0;

function sameLine(a: Leg, b: Leg): boolean {
  if (a.on === 'track') return b.on === 'track' && a.track === b.track;
  return b.on === 'line' && a.axis === b.axis && a.c === b.c && a.side === b.side;
}

/** The hop from a state where ways turn; looked at once for each course. */
function hopOf(stack: Stack, part: Course, at: number): Hop {
  const known = part.hops.get(at);
  if (known) return known;
  const fresh = hopFrom(stack, part, at, true);
  part.hops.set(at, fresh);
  return fresh;
}

function hopFrom(stack: Stack, part: Course, at: number, whole: boolean): Hop {
  const { field } = part;
  const level = levelOfState(stack, at);
  const graph = stack.graphs[level]!;
  const offset = stack.offsets[level]!;
  let end = at;
  let after = field.next(end);
  let riser = riserBetween(stack, end, after);
  while (after >= 0 && !riser && keepsTo(graph, end - offset, after - offset)) {
    end = after;
    after = field.next(end);
    riser = riserBetween(stack, end, after);
  }
  const leg = legBetween(graph, at - offset, end - offset);
  const last = after < 0 ? part.arrival?.legs.get(end - offset) : undefined;
  const legs = last ? [leg, ...backwards(last)] : [leg];
  const pieces = whole
    ? joined(legs.map(loose)).map((one) => pieceOf(stack, level, one.leg))
    : null;
  return { legs, pieces, riser, next: after, end };
}

const riserBetween = (stack: Stack, a: number, b: number): SiteRiser | null =>
  (stack.risers.size > 0 && b >= 0 && stack.risers.get(bothStates(a, b))) || null;

/** Whether two neighbouring states lie on one line of the plane, or on one track. */
function keepsTo(graph: Graph, a: number, b: number): boolean {
  const plane = 2 * graph.nodes;
  if (a >= plane && b >= plane)
    return graph.stopOf[a - plane]!.track === graph.stopOf[b - plane]!.track;
  return a < plane && b < plane && a >> 1 !== b >> 1;
}

/** The way along one line or track between two of its states; of no length when they are one. */
function legBetween(graph: Graph, a: number, b: number): Leg {
  const plane = 2 * graph.nodes;
  if (a >= plane) {
    const { track, index } = graph.stopOf[a - plane]!;
    const stops = graph.stops[track]!;
    const [p, q] = [stops[index]!, stops[graph.stopOf[b - plane]!.index]!];
    return { on: 'track', track, from: p.p, to: q.p, fromSide: p.side, toSide: q.side };
  }
  const axis = (a & 1) as 0 | 1;
  const line = graph.lineOf[axis][a >> 1]!;
  const position = axis === 0 ? graph.x : graph.y;
  return {
    on: 'line',
    axis,
    c: graph.lines[axis].c[line]!,
    side: graph.lines[axis].side[line] as 0 | 1,
    profile: graph.lines[axis].profiles[line]!,
    from: position[a >> 1]!,
    to: position[b >> 1]!,
    fromSide: sideAt(graph, axis, a >> 1),
    toSide: sideAt(graph, axis, b >> 1),
  };
}
