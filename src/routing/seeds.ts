import type { Point } from '../geometry/point.ts';
import { besideIn } from './beside.ts';
import { type Graph, nodesAt } from './graph.ts';
import { sideAt } from './lines.ts';
import { mediumAt } from './profile.ts';
import { JOIN_REACH } from './site.ts';
import { startsOf } from './starts.ts';
import { nearestOn, placeOn, reachOf } from './track-places.ts';

const SIDES = [0, 1] as const;

/** A state at which a riser meets the network of its level. */
export interface Berth {
  readonly state: number;
  /** Elevation of the cable there, above the floor of the level. */
  readonly z: number;
  /** From there to the riser's own place, without rising or falling: in units, and in half mm. */
  readonly cost: number;
  readonly lead: number;
}

/** Every state at which a riser can be reached; the lines of its level run through it. */
export function berthsOf(graph: Graph, at: Point): Berth[] {
  const { ground, media } = graph;
  const berths: Berth[] = [];
  for (const start of startsOf(ground, media, besideIn(graph), at, null))
    for (const node of nodesAt(graph, start.x, start.y))
      for (const axis of SIDES) {
        const line = graph.lineOf[axis][node]!;
        if (line < 0) continue;
        const position = axis === 0 ? start.x : start.y;
        const profile = graph.lines[axis].profiles[line]!;
        const number = mediumAt(profile, position, sideAt(graph, axis, node));
        const medium = media.list[number]!;
        if (medium.barred) continue;
        const cost = media.entry(number) + Math.round(start.lead * 2 * medium.factor);
        berths.push({ state: 2 * node + axis, z: medium.z, cost, lead: start.lead });
      }
  graph.tracks.forEach((track, index) => {
    for (const { p, lead } of reachOf(track, at, false))
      for (const stop of graph.stops[index]!) {
        if (stop.p !== p) continue;
        const cost = Math.round(lead * 2 * graph.site.prices.pathwayFactor);
        berths.push({ state: stop.state, z: stop.z, cost, lead });
      }
  });
  return berths;
}

/** The states in which a cable passes a pin: at its place in the plane, or on a pathway at most `JOIN_REACH` away. */
export function statesAtPin(graph: Graph, at: Point): number[] {
  const inPlane = nodesAt(graph, at[0], at[1]).flatMap((node) =>
    SIDES.filter((axis) => graph.lineOf[axis][node]! >= 0).map((axis) => 2 * node + axis),
  );
  const onPathways = graph.tracks.flatMap((track, index) => {
    if (track.line < 0) return [];
    const p = nearestOn(track, at);
    const [x, y] = placeOn(track, p);
    if (Math.abs(x - at[0]) + Math.abs(y - at[1]) > JOIN_REACH) return [];
    return graph.stops[index]!.filter((stop) => stop.p === p).map((stop) => stop.state);
  });
  return [...inPlane, ...onPathways];
}
