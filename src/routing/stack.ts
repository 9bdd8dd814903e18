import type { Network } from './field.ts';
import { type Finder, finderOf } from './finder.ts';
import type { Graph } from './graph.ts';
import { UNITS } from './medium.ts';
import { networkFrom } from './rows.ts';
import { type Berth, berthsOf } from './seeds.ts';
import type { SiteRiser } from './site.ts';

/**
 * Levels that risers join, one over the other, as one network: the states of each level follow those of the one
 * before. What a riser costs is the difference of the two elevations; it turns nothing.
 */
export interface Stack {
  readonly graphs: readonly Graph[];
  /** The walls and the zones of each level, to be found by place. */
  readonly finders: readonly { readonly bodies: Finder; readonly zones: Finder }[];
  /** The first state of each level, and last the number of all. */
  readonly offsets: readonly number[];
  readonly net: Network;
  /** The riser between two states, by `bothStates`. */
  readonly risers: ReadonlyMap<number, SiteRiser>;
}

/** A key for two states, whichever comes first; below 2^53 for any network that fits in memory. */
export const bothStates = (a: number, b: number): number =>
  Math.min(a, b) * 2 ** 26 + Math.max(a, b);

interface Link {
  readonly a: number;
  readonly b: number;
  readonly cost: number;
  readonly second: number;
}

/** Joins the graphs of levels by risers; risers that lead to no level of these are passed over. */
export function stackOf(graphs: readonly Graph[], risers: readonly SiteRiser[]): Stack {
  const offsets = [0];
  for (const { net } of graphs) offsets.push(offsets[offsets.length - 1]! + net.states);
  const links: Link[] = [];
  const between = new Map<number, SiteRiser>();
  for (const riser of risers) {
    const ends = riser.levels.map((id) => graphs.findIndex(({ site }) => site.id === id));
    const [below, above] = ends as [number, number];
    if (below < 0 || above < 0) continue;
    for (const a of berthsAt(graphs, offsets, below, riser))
      for (const b of berthsAt(graphs, offsets, above, riser)) {
        const rise = Math.abs(a.z - b.z);
        const cost = a.cost + b.cost + rise * UNITS;
        links.push({
          a: a.state,
          b: b.state,
          cost,
          second: Math.round(2 * (rise + a.lead + b.lead)),
        });
        between.set(bothStates(a.state, b.state), riser);
      }
  }
  const finders = graphs.map(({ ground }) => ({
    bodies: finderOf(ground.bodies),
    zones: finderOf(ground.zones),
  }));
  return { graphs, finders, offsets, net: joined(graphs, offsets, links), risers: between };
}

/** The level that a state of a stack lies on. */
export function levelOfState({ offsets }: Stack, state: number): number {
  let level = 0;
  while (state >= offsets[level + 1]!) level++;
  return level;
}

/** Where a riser meets a level, with states and elevations of the whole building. */
function berthsAt(
  graphs: readonly Graph[],
  offsets: readonly number[],
  level: number,
  riser: SiteRiser,
): Berth[] {
  const graph = graphs[level]!;
  return berthsOf(graph, graph.ground.frame.into(riser.at)).map((berth) => ({
    ...berth,
    state: berth.state + offsets[level]!,
    z: berth.z + graph.site.elevation,
  }));
}

function joined(
  graphs: readonly Graph[],
  offsets: readonly number[],
  links: readonly Link[],
): Network {
  if (graphs.length === 1) return graphs[0]!.net;
  return networkFrom(offsets[graphs.length]!, (take) => {
    graphs.forEach(({ net }, g) => {
      const offset = offsets[g]!;
      for (let s = 0; s < net.states; s++)
        for (let e = net.first[s]!; e < net.first[s + 1]!; e++)
          take(offset + s, offset + net.to[e]!, net.cost[e]!, net.second[e]!);
    });
    for (const { a, b, cost, second } of links) {
      take(a, b, cost, second);
      take(b, a, cost, second);
    }
  });
}
