import type { Point } from '../geometry/point.ts';
import { type Arrival, arrivalAt } from './arrival.ts';
import { leastRate, type Toward } from './best.ts';
import type { Field, Seed } from './field.ts';
import { search } from './search.ts';
import type { Hop } from './sections.ts';
import { statesAtPin } from './seeds.ts';
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
  /** The ways in to the closet; null at a point of a pin, which the lines of its level run through. */
  readonly arrival: Arrival | null;
  /** The least that is left at the goal, and the longest length across that this may hold: for lower bounds. */
  readonly base: number;
  readonly lead: number;
  /** What ways do from where they turn, once somebody has asked; see `sectionsOf`. */
  readonly hops: Map<number, Hop>;
}

/** The course to a closet on a level of a stack; in the room of one that nobody follows any more, if that is given. */
export function courseTo(
  stack: Stack,
  level: number,
  at: Point,
  height: number,
  spare?: Course,
): Course {
  const graph = stack.graphs[level]!;
  const offset = stack.offsets[level]!;
  const arrival = arrivalAt(graph, graph.ground.frame.into(at), height);
  const { base, lead } = arrival;
  const seeds = arrival.seeds.map((seed) => ({ ...seed, state: seed.state + offset }));
  const field = search(stack.net, seeds, spare?.field);
  return { field, goal: at, level, after: null, arrival, base, lead, hops: new Map() };
}

/** The course by all points of a pin; the graph of its level has lines through them. */
export function courseBy(stack: Stack, level: number, pin: SitePin, home: Course): Course {
  const graph = stack.graphs[level]!;
  const offset = stack.offsets[level]!;
  return pin.points.reduceRight((after: Course, at): Course => {
    const seeds = statesAtPin(graph, graph.ground.frame.into(at)).flatMap((local): Seed[] => {
      const state = local + offset;
      const cost = after.field.cost(state);
      const second = after.field.second(state);
      return cost === Infinity ? [] : [{ state, cost, second }];
    });
    const base = seeds.reduce((least, { cost }) => Math.min(least, cost), Infinity);
    const field = search(stack.net, seeds);
    return {
      field,
      goal: at,
      level,
      after,
      arrival: null,
      base,
      lead: JOIN_REACH,
      hops: new Map(),
    };
  }, home);
}

/** A course as a terminal on one of its levels looks at it. */
export function towardOn(stack: Stack, course: Course, level: number): Toward {
  const [from, to] = [stack.offsets[level]!, stack.offsets[level + 1]!];
  const { field, goal, base, lead } = course;
  const { frame } = stack.graphs[level]!.ground;
  const { frameAngle } = stack.graphs[level]!.site;
  return {
    field: field.part(from, to),
    base,
    lead,
    goal: frame.into(goal),
    rate: Math.min(...stack.graphs.map(leastRate)),
    slanted: stack.graphs.some((g) => g.slanted || g.site.frameAngle !== frameAngle),
    arrival: level === course.level ? course.arrival : null,
  };
}
