import type { Point } from '../geometry/point.ts';
import { type Beside, besideIn } from './beside.ts';
import { Best, Bound, type Taker, type Toward } from './best.ts';
import type { Graph } from './graph.ts';
import type { Leg } from './leg.ts';
import { UNITS } from './medium.ts';
import { alongTrack } from './ray-tracks.ts';
import { castRays, type Via } from './rays.ts';
import { type Start, startsOf } from './starts.ts';
import { eachNear } from './track-bounds.ts';
import { placeOn, reachOf } from './track-places.ts';
import { elevationOn } from './track-tolls.ts';

/** How a terminal joins the network: the best way found so far. */
export interface Attachment {
  readonly cost: number;
  readonly second: number;
  /** Length that no line of the network shares. */
  readonly own: number;
  /** -1 when the legs lead to the closet itself. */
  readonly state: number;
  /** Where it enters the plane; null when it joins a pathway from its own height. */
  readonly start: Start | null;
  readonly legs: readonly Leg[];
}

export interface Place {
  readonly at: Point;
  readonly height: number;
  /** Index of its wall. */
  readonly wall: number | null;
  /** A floor outlet, which only an under-slab pathway serves. */
  readonly floor: boolean;
}

const SIDES = [0, 1] as const;
const NO_LEGS = (): readonly Leg[] => [];

/** The cheapest way from a terminal to what it is to reach, or null. */
export function attach(graph: Graph, toward: Toward, place: Place): Attachment | null {
  const best = new Best(graph, toward);
  tryAll(graph, place, toward.goal, best);
  return best.found();
}

/** Every state that a terminal can join, whether or not a closet can be reached from there. */
export function reachable(graph: Graph, place: Place): number[] {
  const states = new Set<number>();
  tryAll(graph, place, place.at, {
    better: (_cost, _second, _own, state) => {
      states.add(state);
      return false;
    },
    bound: new Bound(null),
    keep: () => {},
    sets: () => {},
    marks: () => null,
    crosses: () => {},
    minds: () => false,
    comesTo: () => {},
  });
  return [...states];
}

/** Tells of every way by which a terminal can join the network; first of those that lead towards a goal. */
export function tryAll(graph: Graph, place: Place, goal: Point, best: Taker): void {
  const beside = besideIn(graph);
  joinTracks(graph, beside, place, goal, best);
  if (place.floor) return;
  for (const start of startsOf(graph.ground, graph.media, beside, place.at, place.wall))
    setOut(graph, beside, place, goal, start, null, best);
}

/** By rays along both axes. */
function setOut(
  graph: Graph,
  beside: Beside,
  place: Place,
  goal: Point,
  start: Start,
  via: Via | null,
  best: Taker,
): void {
  const sides = [beside(0, start.y), beside(1, start.x)] as const;
  for (const axis of SIDES) castRays(graph, sides, place, goal, start, axis, via, best);
}

function joinTracks(graph: Graph, beside: Beside, place: Place, goal: Point, best: Taker): void {
  eachNear(graph.trackBounds, place.at, (index) => {
    const { line } = graph.tracks[index]!;
    if (line < 0) return;
    if (place.floor && graph.ground.lines[line]?.pathway.kind !== 'under-slab') return;
    joinTrack(graph, beside, place, goal, index, best);
  });
}

function joinTrack(
  graph: Graph,
  beside: Beside,
  place: Place,
  goal: Point,
  index: number,
  best: Taker,
): void {
  const { media, tracks } = graph;
  const track = tracks[index]!;
  for (const { p, lead } of reachOf(track, place.at, place.floor))
    for (const side of SIDES) {
      const z = elevationOn(media, track, p, side);
      const rise = Math.abs(z - place.height);
      const cost = rise * UNITS + Math.round(lead * 2 * graph.site.prices.pathwayFactor);
      alongTrack(graph, index, p, side, cost, 2 * (rise + lead), lead, null, NO_LEGS, best);
      if (!track.anywhere || track.axis === 2) continue;
      const leg: Leg = {
        on: 'track',
        track: index,
        from: p,
        to: p,
        fromSide: side,
        toSide: side,
      };
      const [x, y] = placeOn(track, p);
      setOut(graph, beside, place, goal, { x, y, lead }, { track, z, side, leg }, best);
    }
}
