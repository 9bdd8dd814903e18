import type { Graph } from './graph.ts';
import { type Inside, insidesOf, type Passage, passageOf } from './insides.ts';
import type { Leg } from './leg.ts';
import type { Laid } from './segment-maker.ts';
import type { Stack } from './stack.ts';
import { elevationAtEnd, type Stretch, stretchesOf } from './stretches.ts';

/** A leg with all that lies along it. Runs that share the leg share this. */
export interface Piece {
  readonly leg: Leg;
  readonly length: number;
  /** Null on a pathway, where no wall costs anything. */
  readonly passage: Passage | null;
  readonly insides: readonly Inside[];
  readonly stretches: readonly Stretch[];
  /** Elevation of the cable where it begins and where it ends. */
  readonly zFrom: number;
  readonly zTo: number;
  /** How a cable was last laid along it. */
  laid: LaidPiece | null;
}

/** What was laid along a piece, and between what: between the same it is laid the same again. */
export interface LaidPiece {
  readonly before: number | undefined;
  readonly after: number | undefined;
  readonly laid: Laid;
  /** The last stretch of it. */
  readonly last: Stretch;
}

/** What lies along a leg on a level of a stack. */
export function pieceOf(stack: Stack, level: number, leg: Leg): Piece {
  const graph: Graph = stack.graphs[level]!;
  const { bodies, zones } = stack.finders[level]!;
  const passage = passageOf(graph, leg);
  return {
    leg,
    length: Math.abs(leg.to - leg.from),
    passage,
    insides: insidesOf(graph, bodies, leg, passage),
    stretches: stretchesOf(graph, zones, leg),
    zFrom: elevationAtEnd(graph, leg, 'from'),
    zTo: elevationAtEnd(graph, leg, 'to'),
    laid: null,
  };
}
