import type { Point } from '../geometry/point.ts';
import { leastRate, type Toward } from './best.ts';
import { type Field, type Seed, search } from './search.ts';
import { seedsOf, statesAtPin } from './seeds.ts';
import { JOIN_REACH, type SitePin } from './site.ts';
import type { Stack } from './stack.ts';

/**
 * The way home from everywhere: to a closet, or to a point of a pin and from there on by the course behind it.
 *
 * A chain of searches is exact: each starts in the states that pass the point, at what is left from there, so that a
 * turn at the point is paid like any other.
 */
export interface Course {
  readonly field: Field;
  /** Where it ends on the plan, and on which level of the stack. */
  readonly goal: Point;
  readonly level: number;
  /** What comes after the goal; null at a closet. */
  readonly after: Course | null;
}

/** The course to a closet on a level of a stack. */
export function courseTo(stack: Stack, level: number, at: Point, height: number): Course {
  const graph = stack.graphs[level]!;
  const offset = stack.offsets[level]!;
  const seeds = seedsOf(graph, graph.ground.frame.into(at), height).map((seed) => ({
    ...seed,
    state: seed.state + offset,
  }));
  return { field: search(stack.net, seeds), goal: at, level, after: null };
}

/** The course by all points of a pin; the graph of its level has lines through them. */
export function courseBy(stack: Stack, level: number, pin: SitePin, home: Course): Course {
  const graph = stack.graphs[level]!;
  const offset = stack.offsets[level]!;
  return pin.points.reduceRight((after: Course, at): Course => {
    const seeds = statesAtPin(graph, graph.ground.frame.into(at)).flatMap((local): Seed[] => {
      const state = local + offset;
      const cost = after.field.cost[state]!;
      const second = after.field.second[state]!;
      return cost === Infinity ? [] : [{ state, cost, second, lead: JOIN_REACH }];
    });
    return { field: search(stack.net, seeds), goal: at, level, after };
  }, home);
}

/** A course as a terminal on one of its levels looks at it. */
export function towardOn(stack: Stack, course: Course, level: number): Toward {
  const [from, to] = [stack.offsets[level]!, stack.offsets[level + 1]!];
  const { field, goal } = course;
  const { frame } = stack.graphs[level]!.ground;
  const { frameAngle } = stack.graphs[level]!.site;
  return {
    cost: field.cost.subarray(from, to),
    second: field.second.subarray(from, to),
    base: field.base,
    lead: field.lead,
    goal: frame.into(goal),
    rate: Math.min(...stack.graphs.map(leastRate)),
    slanted: stack.graphs.some((g) => g.slanted || g.site.frameAngle !== frameAngle),
  };
}
