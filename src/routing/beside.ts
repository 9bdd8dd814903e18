import type { Graph } from './graph.ts';
import { lowerBound } from './lines.ts';
import { type Profile, Stretches, sameProfile } from './profile.ts';

/** Room for the stretches of the lines beside one coordinate. */
const ROOM = 64;

/** What lies beside a coordinate of an axis, below it and above it, and whether that is the same. */
export interface Sides {
  readonly below: Profile;
  readonly above: Profile;
  readonly alike: boolean;
  /** The first line of the graph along the axis that does not lie below the coordinate. */
  readonly line: number;
}

export type Beside = (axis: 0 | 1, c: number) => Sides;

/**
 * What lies beside coordinates of a graph, for one terminal: each is looked at once. Where a line of the graph runs it
 * is known; where nothing begins or ends, one look serves for both sides.
 */
export function besideIn(graph: Graph): Beside {
  if (graph.strips) return graph.strips;
  const known: { axis: 0 | 1; c: number; sides: Sides }[] = [];
  return (axis, c) => {
    for (const entry of known) if (entry.axis === axis && entry.c === c) return entry.sides;
    const line = lowerBound(graph.lines[axis].c, c);
    const sides = sidesOf(...pairAt(graph, axis, c, line), line);
    known.push({ axis, c, sides });
    return sides;
  };
}

/** Two profiles as what lies beside a coordinate, with its line. */
export const sidesOf = (below: Profile, above: Profile, line: number): Sides => ({
  below,
  above,
  alike: below === above || sameProfile(below, above),
  line,
});

function pairAt(graph: Graph, axis: 0 | 1, c: number, line: number): readonly [Profile, Profile] {
  const { lines, media } = graph;
  const on = lines[axis];
  const found: [Profile | null, Profile | null] = [null, null];
  for (let i = line; i < on.count && on.c[i] === c; i++)
    found[on.side[i] as 0 | 1] ??= on.profiles[i]!;
  // Where anything lies at an angle every coordinate has its own, which nobody asks for again.
  const row = new Stretches(ROOM);
  return [found[0] ?? media.beside(axis, c, 0, row), found[1] ?? media.beside(axis, c, 1, row)];
}
