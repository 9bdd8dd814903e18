import type { Id } from '../base/ids.ts';
import type { Point } from '../geometry/point.ts';
import { insidePolygon, middleOf } from '../geometry/polygon.ts';
import { outlineShape, spansBeside } from '../geometry/shape.ts';
import { type Jack, type Outlet, onLevel, type Plan, type Zone } from '../plan/plan.ts';
import { type Unfit, unfitFor } from '../plan/unfit-rooms.ts';
import type { ClosetGain, ClosetStudy, PassedOver, Run } from '../results/types.ts';
import { attach, type Place } from './attach.ts';
import { courseTo, towardOn } from './course.ts';
import { BEND } from './field.ts';
import { buildGraph } from './graph.ts';
import { groupsOf, siteRiser } from './plan-networks.ts';
import { siteOf } from './plan-site.ts';
import { throughOf } from './router.ts';
import { type Stack, stackOf } from './stack.ts';

/** Most places that are looked at on levels that risers join. */
const MOST_PLACES = 48;
/** Places along each side of the outlets' bounds, on a level without rooms. */
const SPREAD = 5;
/** Termination height where no closet stands yet. */
const HEIGHT = 1500;

/** A place where one more closet might stand. */
interface Spot {
  readonly level: Id;
  readonly at: Point;
  readonly zone: Id | null;
}

/**
 * What one more closet would save, and which runs it would bring under their limit: each room of the levels that hold
 * jacks is tried at its middle (a level without rooms on a grid over its outlets), every run by its exact path.
 *
 * Runs with a closet or a pin of their own stay where they are. The best place is the one that brings most runs under
 * their limit, and of such the one that saves most cable; rooms that are cold, wet, hot or open to guests are passed
 * over, and the best of those is told where it would be better still.
 *
 * @param runs the home runs of the plan as it is
 */
export function studyClosets(plan: Plan, runs: readonly Run[]): ClosetStudy {
  const heights = [...plan.tables.closets.values()].map((closet) => closet.height);
  const height = heights[0] ?? HEIGHT;
  let places = 0;
  let best: ClosetGain | null = null;
  let passed: PassedOver | null = null;
  for (const { levels, risers } of groupsOf(plan)) {
    const movable = movableOn(plan, runs, levels);
    if (movable.length === 0) continue;
    const spots = thinned(levels.flatMap((level) => spotsOn(plan, level)));
    places += spots.length;
    const through = risers.map(siteRiser);
    const graphs = levels.map((id) =>
      buildGraph(siteOf(plan, plan.tables.levels.get(id)!), throughOf(id, through, [])),
    );
    const stack = stackOf(graphs, through);
    for (const spot of spots) {
      const gain = gainAt(plan, stack, levels, spot, height, movable);
      const unfit = unfitAt(plan, spot);
      if (!gain) continue;
      if (unfit === null) best = !best || isBetter(gain, best) ? gain : best;
      else if (!passed || isBetter(gain, passed.gain)) passed = { gain, unfit };
    }
  }
  if (passed && best && !isBetter(passed.gain, best)) passed = null;
  return { places, best, passed };
}

const unfitAt = (plan: Plan, { zone }: Spot): Unfit | null =>
  zone === null ? null : unfitFor(plan, plan.tables.zones.get(zone)!);

const isBetter = (a: ClosetGain, b: ClosetGain): boolean =>
  a.relieved.length > b.relieved.length ||
  (a.relieved.length === b.relieved.length && a.saves > b.saves);

interface Movable {
  readonly jack: Jack;
  readonly outlet: Outlet;
  readonly run: Run;
}

function movableOn(plan: Plan, runs: readonly Run[], levels: readonly Id[]): Movable[] {
  return runs.flatMap((run): Movable[] => {
    const jack = plan.tables.jacks.get(run.jack)!;
    const outlet = plan.tables.outlets.get(run.outlet);
    if (!outlet || !levels.includes(outlet.level)) return [];
    if (jack.closet !== null || jack.pin !== null || run.status === 'unroutable') return [];
    return [{ jack, outlet, run }];
  });
}

/** The middle of each room, or a grid over the outlets; places in a keep-out drop out, since no way leads there. */
function spotsOn(plan: Plan, level: Id): Spot[] {
  const zones = onLevel(plan, 'zones', level);
  if (zones.length > 0) return zones.map((zone: Zone) => spotIn(level, zone));
  const outlets = onLevel(plan, 'outlets', level);
  if (outlets.length === 0) return [];
  const xs = outlets.map(({ at }) => at[0]);
  const ys = outlets.map(({ at }) => at[1]);
  const ticks = (values: readonly number[]): number[] => {
    const [lo, hi] = [Math.min(...values), Math.max(...values)];
    return Array.from({ length: SPREAD }, (_, i) =>
      Math.round(lo + ((i + 0.5) * (hi - lo)) / SPREAD),
    );
  };
  return ticks(xs).flatMap((x) => ticks(ys).map((y): Spot => ({ level, at: [x, y], zone: null })));
}

/** The middle of a room, or of the longest stretch across it at that height where the middle lies outside. */
function spotIn(level: Id, zone: Zone): Spot {
  const [x, y] = middleOf(zone.outline);
  if (insidePolygon(zone.outline, x, y)) return { level, at: [x, y], zone: zone.id };
  const spans: number[] = [];
  spansBeside(outlineShape(zone.outline), 0, y, 0, spans);
  let best = [x, x];
  for (let i = 0; i + 1 < spans.length; i += 2)
    if (spans[i + 1]! - spans[i]! > best[1]! - best[0]!) best = [spans[i]!, spans[i + 1]!];
  return { level, at: [Math.round((best[0]! + best[1]!) / 2), y], zone: zone.id };
}

/** At most as many as are looked at, spread evenly over the list. */
function thinned(spots: readonly Spot[]): Spot[] {
  const keep = Math.ceil(spots.length / MOST_PLACES);
  return spots.filter((_, i) => i % keep === 0);
}

function gainAt(
  plan: Plan,
  stack: Stack,
  levels: readonly Id[],
  spot: Spot,
  height: number,
  movable: readonly Movable[],
): ClosetGain | null {
  const level = levels.indexOf(spot.level);
  const course = courseTo(stack, level, spot.at, height);
  const toward = levels.map((_, l) => towardOn(stack, course, l));
  const pathFrom = (outlet: Pick<Outlet, 'level' | 'at' | 'height' | 'mount' | 'wall'>) => {
    const l = levels.indexOf(outlet.level);
    const found = attach(stack.graphs[l]!, toward[l]!, placeOf(stack, l, outlet));
    // The second weight holds the real length of the way in half millimetres.
    return found ? Math.round((found.second % BEND) / 2) : null;
  };
  const nearer: Id[] = [];
  const relieved: Id[] = [];
  let saves = 0;
  for (const { jack, outlet, run } of movable) {
    const path = pathFrom(outlet);
    if (path === null || path >= run.path) continue;
    saves += run.path - path;
    nearer.push(jack.id);
    if (run.cable > run.limit && run.cable - run.path + path <= run.limit) relieved.push(jack.id);
  }
  if (saves === 0) return null;
  const links = [...plan.tables.closets.values()].flatMap((closet) => {
    if (!levels.includes(closet.level)) return [];
    const path = pathFrom({ ...closet, mount: 'pole', wall: null });
    return path === null ? [] : [path];
  });
  return {
    ...spot,
    height,
    saves,
    nearer,
    relieved,
    link: links.length > 0 ? Math.min(...links) : null,
  };
}

function placeOf(
  stack: Stack,
  level: number,
  outlet: Pick<Outlet, 'at' | 'height' | 'mount' | 'wall'>,
): Place {
  const { ground, site } = stack.graphs[level]!;
  const wall = site.walls.findIndex((w) => w.id === outlet.wall);
  return {
    at: ground.frame.into(outlet.at),
    height: outlet.height,
    wall: wall < 0 ? null : wall,
    floor: outlet.mount === 'floor',
  };
}
