import { attach, type Place } from './attach.ts';
import type { Toward } from './best.ts';
import { whyBlockedIn } from './blocked.ts';
import { type Course, courseBy, courseTo, towardOn } from './course.ts';
import { buildGraph, type Graph } from './graph.ts';
import type { Through } from './ground.ts';
import type { Building, NoRoute, Route, Site, SitePin, SiteRiser, Terminal } from './site.ts';
import { type Stack, stackOf } from './stack.ts';
import { trace } from './trace.ts';

/** Levels made ready: their graphs, and one search for each closet, made when it is first asked for. */
export interface Network {
  /** False when the level has more lines than the bound allows: routes hold, but may not be the cheapest. */
  exact(level?: string): boolean;
  /** Size of the graph. */
  readonly nodes: number;
  readonly arcs: number;
  /**
   * The cheapest way from a terminal to a closet, or what bars it.
   *
   * @param terminal on the level that it names, or on the only one
   * @param pin places that it passes; the network was made with it
   * @throws when there is no such closet, level or pin
   */
  route(
    terminal: Terminal & { readonly level?: string },
    closet: string,
    pin?: SitePin,
  ): Route | NoRoute;
}

/** Builds the network of one level. Bad geometry never throws: it gives no routes. */
export const prepare = (site: Site, pins: readonly SitePin[] = []): Network =>
  prepareBuilding({ levels: [site], risers: [] }, pins);

/** Builds the network of levels with risers between them; ways that no riser joins stay apart. */
export function prepareBuilding(building: Building, pins: readonly SitePin[] = []): Network {
  const graphs = building.levels.map((site) =>
    buildGraph(site, throughOf(site.id, building.risers, pins)),
  );
  return networkOver(graphs, building.risers);
}

/** What lines of a level have to run through, beside its closets. */
export const throughOf = (
  level: string,
  risers: readonly SiteRiser[],
  pins: readonly SitePin[],
): Through => ({
  risers: risers.filter((riser) => riser.levels.includes(level)).map((riser) => riser.at),
  pins: pins.filter((pin) => pin.level === level).flatMap((pin) => pin.points),
});

interface Aim {
  readonly course: Course;
  /** As seen from each level. */
  readonly toward: Toward[];
}

/** The network of graphs that were built before, for these risers and for the pins that are asked about. */
export function networkOver(graphs: readonly Graph[], risers: readonly SiteRiser[]): Network {
  const stack = stackOf(graphs, risers);
  const whyBlocked = whyBlockedIn(stack);
  const levels = new Map(graphs.map(({ site }, index) => [site.id, index]));
  const walls = graphs.map(({ site }) => new Map(site.walls.map((wall, i) => [wall.id, i])));
  const homes = new Map<string, Aim>();
  const byPins = new Map<SitePin, Map<string, Aim>>();
  const closets = new Map(
    graphs.flatMap(({ site }, level) => site.closets.map((c) => [c.id, { ...c, level }] as const)),
  );
  const closetOf = (id: string) => must(closets.get(id), `no closet ${id} on these levels`);
  const levelOf = (id: string) => must(levels.get(id), `no level ${id} in this network`);
  const aimAt = (course: Course): Aim => ({
    course,
    toward: graphs.map((_, level) => towardOn(stack, course, level)),
  });
  const home = (id: string): Aim => {
    const { level, at, height } = closetOf(id);
    return known(homes, id, () => aimAt(courseTo(stack, level, at, height)));
  };
  const aim = (id: string, pin: SitePin | undefined): Aim => {
    if (!pin) return home(id);
    const same = known(byPins, pin, () => new Map<string, Aim>());
    return known(same, id, () => aimAt(courseBy(stack, levelOf(pin.level), pin, home(id).course)));
  };
  return {
    exact: (level) =>
      level === undefined ? graphs.every((g) => g.exact) : graphs[levelOf(level)]!.exact,
    nodes: graphs.reduce((sum, graph) => sum + graph.nodes, 0),
    arcs: stack.net.to.length,
    route: (terminal, closet, pin) => {
      const level = terminal.level === undefined ? 0 : levelOf(terminal.level);
      const { ground } = graphs[level]!;
      const place: Place = {
        at: ground.frame.into(terminal.at),
        height: terminal.height,
        wall: terminal.wall === null ? null : (walls[level]!.get(terminal.wall) ?? null),
        floor: terminal.mount === 'floor',
      };
      const to = closetOf(closet);
      const found = routeIn(stack, aim(closet, pin), level, place, to);
      if (found) return found;
      if (pin && routeIn(stack, home(closet), level, place, to))
        return { ok: false, reason: 'pin', by: null, reached: null };
      return whyBlocked(level, place, to);
    },
  };
}

/** A closet with the level of the stack that it stands on. */
export type Home = Building['levels'][number]['closets'][number] & { readonly level: number };

function routeIn(stack: Stack, aim: Aim, level: number, place: Place, closet: Home): Route | null {
  const found = attach(stack.graphs[level]!, aim.toward[level]!, place);
  return found && trace(stack, aim.course, found, level, place, closet);
}

function known<K, V>(map: Map<K, V>, key: K, make: () => V): V {
  const old = map.get(key);
  if (old !== undefined) return old;
  const fresh = make();
  map.set(key, fresh);
  return fresh;
}

function must<T>(value: T | undefined, words: string): T {
  if (value === undefined) throw new Error(words);
  return value;
}
