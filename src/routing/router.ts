import { attach, type Place } from './attach.ts';
import type { Toward } from './best.ts';
import { whyBlockedIn } from './blocked.ts';
import { type Course, courseBy, courseTo, towardOn } from './course.ts';
import { buildGraph, type Graph } from './graph.ts';
import type { Through } from './ground.ts';
import type {
  Building,
  NoRoute,
  Route,
  Site,
  SiteCloset,
  SitePin,
  SiteRiser,
  Terminal,
} from './site.ts';
import { type Stack, stackOf } from './stack.ts';
import { trace } from './trace.ts';

/** A closet on one of the levels of a network. */
export type Home = SiteCloset & { readonly level: string };

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
   * @param closet the id of one of a site's, or any place that one may stand at
   * @param pin places that it passes; the network was made with it
   * @throws when there is no such closet, level or pin
   */
  route(
    terminal: Terminal & { readonly level?: string },
    closet: string | Home,
    pin?: SitePin,
  ): Route | NoRoute;
  /** Lets go of what it knows of closets that are not among these. */
  keepTo(closets: ReadonlyMap<string, unknown>): void;
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

/** What lines of a level have to run through. */
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

/** What is known of the ways to a closet while it stays where it is. */
interface Known {
  readonly closet: Home;
  readonly free: Aim;
  readonly byPin: Map<SitePin, Aim>;
}

/** The network of graphs that were built before, for these risers and for the pins that are asked about. */
export function networkOver(graphs: readonly Graph[], risers: readonly SiteRiser[]): Network {
  const stack = stackOf(graphs, risers);
  const whyBlocked = whyBlockedIn(stack);
  const levels = new Map(graphs.map(({ site }, index) => [site.id, index]));
  const walls = graphs.map(({ site }) => new Map(site.walls.map((wall, i) => [wall.id, i])));
  const homes = new Map<string, Known>();
  const closets = new Map(
    graphs.flatMap(({ site }) =>
      site.closets.map((c) => [c.id, { ...c, level: site.id }] as const),
    ),
  );
  const closetOf = (id: string) => must(closets.get(id), `no closet ${id} on these levels`);
  const levelOf = (id: string) => must(levels.get(id), `no level ${id} in this network`);
  const aimAt = (course: Course): Aim => ({
    course,
    toward: graphs.map((_, level) => towardOn(stack, course, level)),
  });
  const home = (closet: Home): Known => {
    const old = homes.get(closet.id);
    if (old && standsAs(old.closet, closet)) return old;
    const level = levelOf(closet.level);
    // Let go of first: its room is used again.
    homes.delete(closet.id);
    const spare = old?.free.course;
    const free = aimAt(courseTo(stack, level, closet.at, closet.height, spare));
    const fresh = { closet, free, byPin: new Map<SitePin, Aim>() };
    homes.set(closet.id, fresh);
    return fresh;
  };
  const aim = (closet: Home, pin: SitePin | undefined): Aim => {
    const { free, byPin } = home(closet);
    if (!pin) return free;
    const old = byPin.get(pin);
    if (old) return old;
    const fresh = aimAt(courseBy(stack, levelOf(pin.level), pin, free.course));
    byPin.set(pin, fresh);
    return fresh;
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
      const to = typeof closet === 'string' ? closetOf(closet) : closet;
      const found = routeIn(stack, aim(to, pin), level, place, to);
      if (found) return found;
      if (pin && routeIn(stack, home(to).free, level, place, to))
        return { ok: false, reason: 'pin', by: null, reached: null };
      return whyBlocked(level, place, levelOf(to.level), to);
    },
    keepTo: (kept) => {
      for (const id of homes.keys()) if (!kept.has(id)) homes.delete(id);
    },
  };
}

/** Whether a closet stands where it stood, so that the way there is the same from everywhere. */
const standsAs = (a: Home, b: Home): boolean =>
  a.level === b.level && a.height === b.height && a.at[0] === b.at[0] && a.at[1] === b.at[1];

function routeIn(
  stack: Stack,
  aim: Aim,
  level: number,
  place: Place,
  closet: SiteCloset,
): Route | null {
  const found = attach(stack.graphs[level]!, aim.toward[level]!, place);
  return found && trace(stack, aim.course, found, level, place, closet);
}

function must<T>(value: T | undefined, words: string): T {
  if (value === undefined) throw new Error(words);
  return value;
}
