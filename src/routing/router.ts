import { attach, type Place } from './attach.ts';
import { whyBlocked } from './blocked.ts';
import { buildGraph, type Graph } from './graph.ts';
import { type Field, search } from './search.ts';
import { seedsOf } from './seeds.ts';
import type { NoRoute, Route, Site, Terminal } from './site.ts';
import { trace } from './trace.ts';

/** A site made ready: its graph, and one search for each closet, made when it is first asked for. */
export interface Network {
  /** False when the site has more lines than the bound allows: routes hold, but may not be the cheapest. */
  readonly exact: boolean;
  /** Size of the graph. */
  readonly nodes: number;
  readonly arcs: number;
  /**
   * The cheapest way from a terminal to a closet, or what bars it.
   *
   * @throws when the site has no closet of that id
   */
  route(terminal: Terminal, closet: string): Route | NoRoute;
}

/** Builds the network of a site. Bad geometry never throws: it gives no routes. */
export function prepare(site: Site): Network {
  const graph = buildGraph(site);
  const fields = new Map<string, Field>();
  const walls = new Map(site.walls.map((wall, index) => [wall.id, index]));
  const closets = new Map(graph.ground.closets.map((c) => [c.id, c]));
  const closetOf = (id: string) => {
    const closet = closets.get(id);
    if (!closet) throw new Error(`no closet ${id} on this site`);
    return closet;
  };
  const fieldOf = (id: string): Field => {
    const known = fields.get(id);
    if (known) return known;
    const { at, height } = closetOf(id);
    const field = search(graph.net, seedsOf(graph, at, height));
    fields.set(id, field);
    return field;
  };
  return {
    exact: graph.exact,
    nodes: graph.nodes,
    arcs: graph.net.to.length,
    route: (terminal, closet) => {
      const place: Place = {
        at: graph.ground.frame.into(terminal.at),
        height: terminal.height,
        wall: terminal.wall === null ? null : (walls.get(terminal.wall) ?? null),
        floor: terminal.mount === 'floor',
        closet: closetOf(closet).at,
      };
      return routeIn(graph, fieldOf(closet), place, closetOf(closet));
    },
  };
}

function routeIn(
  graph: Graph,
  field: Field,
  place: Place,
  closet: Graph['ground']['closets'][number],
): Route | NoRoute {
  const found = attach(graph, field, place);
  if (!found) return whyBlocked(graph, place, closet.at);
  return trace(graph, field, found, place, closet);
}
