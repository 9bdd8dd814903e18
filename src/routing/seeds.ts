import type { Point } from '../geometry/point.ts';
import type { Graph } from './graph.ts';
import { sideAt } from './lines.ts';
import { mediumAt, UNITS } from './medium.ts';
import type { Seed } from './search.ts';
import { startsOf } from './starts.ts';
import { reachOf } from './tracks.ts';

const SIDES = [0, 1] as const;

/** States at which a closet is reached, with what the rest of the way costs. */
export function seedsOf(graph: Graph, at: Point, height: number): Seed[] {
  const { ground, media } = graph;
  const seeds: Seed[] = [];
  for (const start of startsOf(ground, media, at, null)) {
    for (let node = 0; node < graph.nodes; node++) {
      if (graph.x[node] !== start.x || graph.y[node] !== start.y) continue;
      for (const axis of SIDES) {
        const line = graph.lineOf[axis][node]!;
        if (line < 0) continue;
        const position = axis === 0 ? start.x : start.y;
        const number = mediumAt(
          graph.lines[axis].profiles[line]!,
          position,
          sideAt(graph, axis, node),
        );
        const medium = media.list[number]!;
        if (medium.barred) continue;
        const rise = Math.abs(medium.z - height);
        seeds.push({
          state: 2 * node + axis,
          cost: rise * UNITS + media.entry(number) + Math.round(start.lead * 2 * medium.factor),
          second: Math.round(2 * (rise + start.lead)),
          lead: start.lead,
        });
      }
    }
  }
  graph.tracks.forEach((track, index) => {
    for (const { p, lead } of reachOf(track, at, false))
      for (const stop of graph.stops[index]!) {
        if (stop.p !== p) continue;
        const rise = Math.abs(stop.z - height);
        seeds.push({
          state: stop.state,
          cost: rise * UNITS + Math.round(lead * 2 * graph.site.prices.pathwayFactor),
          second: Math.round(2 * (rise + lead)),
          lead,
        });
      }
  });
  return seeds;
}
