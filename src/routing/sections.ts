import type { Course } from './course.ts';
import type { Graph } from './graph.ts';
import { backwards, type Leg } from './leg.ts';
import { sideAt } from './lines.ts';
import type { SiteRiser } from './site.ts';
import { bothStates, levelOfState, type Stack } from './stack.ts';

/** The part of a way on one level, and the riser by which it came there. */
export interface Section {
  readonly level: number;
  readonly riser: SiteRiser | null;
  readonly legs: Leg[];
}

/** The way from a state to the end of a course, as legs on each level that it passes. */
export function sectionsOf(stack: Stack, course: Course, state: number): Section[] {
  const sections: Section[] = [{ level: levelOfState(stack, state), riser: null, legs: [] }];
  for (let part: Course | null = course, at = state; part; part = part.after) {
    const { next } = part.field;
    // One line or track at a time; a pin ends it, since the way may turn back there.
    for (;;) {
      const section = sections[sections.length - 1]!;
      const graph = stack.graphs[section.level]!;
      const offset = stack.offsets[section.level]!;
      let to = at;
      let after = next[to]!;
      let riser = riserBetween(stack, to, after);
      while (after >= 0 && !riser && keepsTo(graph, to - offset, after - offset)) {
        to = after;
        after = next[to]!;
        riser = riserBetween(stack, to, after);
      }
      section.legs.push(legBetween(graph, at - offset, to - offset));
      at = after < 0 ? to : after;
      if (riser) sections.push({ level: levelOfState(stack, after), riser, legs: [] });
      if (after < 0) {
        const legs = part.arrival?.legs.get(to - offset);
        if (legs) section.legs.push(...backwards(legs));
        break;
      }
    }
  }
  return sections;
}

const riserBetween = (stack: Stack, a: number, b: number): SiteRiser | null =>
  (stack.risers.size > 0 && b >= 0 && stack.risers.get(bothStates(a, b))) || null;

/** Whether two neighbouring states lie on one line of the plane, or on one track. */
function keepsTo(graph: Graph, a: number, b: number): boolean {
  const plane = 2 * graph.nodes;
  if (a >= plane && b >= plane)
    return graph.stopOf[a - plane]!.track === graph.stopOf[b - plane]!.track;
  return a < plane && b < plane && a >> 1 !== b >> 1;
}

/** The way along one line or track between two of its states; of no length when they are one. */
function legBetween(graph: Graph, a: number, b: number): Leg {
  const plane = 2 * graph.nodes;
  if (a >= plane) {
    const { track, index } = graph.stopOf[a - plane]!;
    const stops = graph.stops[track]!;
    const [p, q] = [stops[index]!, stops[graph.stopOf[b - plane]!.index]!];
    return { on: 'track', track, from: p.p, to: q.p, fromSide: p.side, toSide: q.side };
  }
  const axis = (a & 1) as 0 | 1;
  const line = graph.lineOf[axis][a >> 1]!;
  const position = axis === 0 ? graph.x : graph.y;
  return {
    on: 'line',
    axis,
    c: graph.lines[axis].c[line]!,
    side: graph.lines[axis].side[line] as 0 | 1,
    profile: graph.lines[axis].profiles[line]!,
    from: position[a >> 1]!,
    to: position[b >> 1]!,
    fromSide: sideAt(graph, axis, a >> 1),
    toSide: sideAt(graph, axis, b >> 1),
  };
}
