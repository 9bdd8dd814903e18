import type { Point } from '../geometry/point.ts';
import type { Arrival } from './arrival.ts';
import type { Attachment } from './attach.ts';
import { byLine, byRays, byTrack } from './direct.ts';
import type { Field } from './field.ts';
import type { Graph } from './graph.ts';
import type { Leg } from './leg.ts';
import { UNITS } from './medium.ts';
import type { Ray } from './ray.ts';
import { ceilingFactor } from './site.ts';
import type { Start } from './starts.ts';

/** What a terminal on one level is to reach: what every state of that level is away from it. */
export interface Toward {
  readonly field: Field;
  /** The least cost of all, and the longest length across that this holds already: for lower bounds. */
  readonly base: number;
  readonly lead: number;
  /** Where it lies, in the frame of the level. */
  readonly goal: Point;
  /** Units per mm that any way costs at least. */
  readonly rate: number;
  /** Whether ways can be shorter than along the axes. */
  readonly slanted: boolean;
  /** The ways in to a closet on this level; null where something else is to be reached. */
  readonly arrival: Arrival | null;
}

/** Where a ray crosses a line. */
export interface LineMeeting {
  readonly ray: Ray;
  /** Position and side along the ray. */
  readonly d: number;
  readonly dSide: 0 | 1;
  /** The place of the line's list whose node is the last that does not lie after the ray. */
  readonly gap: number;
  /** Medium of the ray there. */
  readonly medium: number;
  /** By the ray to there. */
  readonly cost: number;
  readonly second: number;
}

/** Where a way comes to a track. */
export interface TrackMeeting {
  readonly p: number;
  readonly side: 0 | 1;
  /** The first stop of the track that does not lie before it. */
  readonly gap: number;
  readonly cost: number;
  readonly second: number;
  readonly own: number;
  /** Null when it joins from its own height. */
  readonly start: Start | null;
  readonly legs: readonly Leg[];
}

/**
 * What ways have to keep to if they are to be wanted. A class of its own, so that what is asked at every line that a ray
 * crosses is the same code whoever listens.
 */
export class Bound {
  /** What the best way costs so far. */
  cost = Infinity;
  readonly #field: Field | null;
  readonly #room: number;
  readonly #goalX: number;
  readonly #goalY: number;
  readonly #near: number;
  readonly #base: number;
  readonly #rate: number;
  readonly #slanted: boolean;

  /** @param toward null where every way is wanted */
  constructor(toward: Toward | null) {
    this.#field = toward?.field ?? null;
    this.#slanted = toward?.slanted ?? false;
    this.#room = this.#slanted ? SLACK * UNITS : 0;
    this.#goalX = toward?.goal[0] ?? 0;
    this.#goalY = toward?.goal[1] ?? 0;
    this.#near = (toward?.lead ?? 0) + SLACK;
    this.#base = toward?.base ?? 0;
    this.#rate = toward?.rate ?? 0;
  }

  /** What is left from a state. */
  left(state: number): number {
    return this.#field === null ? 0 : this.#field.cost(state);
  }

  /** The most that a whole way may cost if it is to be better; with room for rounding where that can be. */
  most(): number {
    return this.cost + this.#room;
  }

  /** The least that a length across can cost. */
  least(length: number): number {
    return length * this.#rate;
  }

  /** Whether no way that costs at least this much to a place can be better. */
  hopelessFrom(cost: number, x: number, y: number): boolean {
    const dx = Math.abs(x - this.#goalX);
    const dy = Math.abs(y - this.#goalY);
    const least = (this.#slanted ? Math.max(dx, dy) : dx + dy) - this.#near;
    return cost + this.#base + (least > 0 ? least * this.#rate : 0) > this.cost;
  }
}

/** Hears of every way to join the network; asks to keep the way when it is better than what it has. */
export interface Taker {
  better(cost: number, second: number, own: number, state: number): boolean;
  readonly bound: Bound;
  keep(start: Start | null, legs: readonly Leg[]): void;
  /** Hears of a ray that sets out. */
  sets(ray: Ray): void;
  /** The lines across a ray of which it wants to hear when the ray crosses them, as 1; null for none. */
  marks(ray: Ray): Uint8Array | null;
  /** Hears that a ray crosses a line. */
  crosses(line: number, meeting: LineMeeting): void;
  /** Whether it wants to hear of ways that come to a track. */
  minds(track: number): boolean;
  /** Hears of one. */
  comesTo(track: number, meeting: TrackMeeting): void;
}

/** Hears of ways that lead the whole way; asks to keep one when it is better. */
export type Whole = Pick<Taker, 'bound' | 'keep'> & {
  whole(cost: number, second: number, own: number): boolean;
};

/** Keeps the best way of all that it hears of. */
export class Best implements Taker, Whole {
  readonly #graph: Graph;
  readonly #toward: Toward;
  readonly bound: Bound;
  #second = Infinity;
  #own = Infinity;
  #state = WHOLE;
  #start: Start | null = null;
  #legs: readonly Leg[] = [];

  constructor(graph: Graph, toward: Toward) {
    this.#graph = graph;
    this.#toward = toward;
    this.bound = new Bound(toward);
  }

  /** Ties: fewest bends, shortest, then what shares most of its way, then the lowest state. */
  better(cost: number, second: number, own: number, state: number): boolean {
    const { field } = this.#toward;
    const c = cost + field.cost(state);
    if (c > this.bound.cost || c === Infinity) return false;
    return this.#take(c, second + field.second(state), own, state);
  }

  whole(cost: number, second: number, own: number): boolean {
    return cost <= this.bound.cost && this.#take(cost, second, own, WHOLE);
  }

  #take(c: number, s: number, own: number, state: number): boolean {
    if (c === this.bound.cost) {
      if (s > this.#second) return false;
      if (s === this.#second) {
        if (own > this.#own) return false;
        if (own === this.#own && state >= this.#state) return false;
      }
    }
    this.bound.cost = c;
    this.#second = s;
    this.#own = own;
    this.#state = state;
    return true;
  }

  keep(start: Start | null, legs: readonly Leg[]): void {
    this.#start = start;
    this.#legs = legs;
  }

  sets(ray: Ray): void {
    const { arrival } = this.#toward;
    if (arrival) byRays(this.#graph, ray, arrival, this);
  }

  marks({ axis, c }: Ray): Uint8Array | null {
    const { arrival } = this.#toward;
    if (!arrival) return null;
    const { lo, hi } = arrival.windows[axis];
    return c < lo || c > hi ? null : arrival.crossings[(1 - axis) as 0 | 1].marks;
  }

  crosses(line: number, meeting: LineMeeting): void {
    const axis = (1 - meeting.ray.axis) as 0 | 1;
    for (const theirs of this.#toward.arrival?.crossings[axis].of.get(line) ?? [])
      byLine(this.#graph, line, meeting, theirs, this);
  }

  minds(track: number): boolean {
    return this.#toward.arrival?.tracks.has(track) ?? false;
  }

  comesTo(track: number, meeting: TrackMeeting): void {
    for (const theirs of this.#toward.arrival?.tracks.get(track) ?? [])
      byTrack(this.#graph, track, meeting, theirs, this);
  }

  found(): Attachment | null {
    const { cost } = this.bound;
    if (cost === Infinity) return null;
    return {
      cost,
      second: this.#second,
      own: this.#own,
      state: this.#state,
      start: this.#start,
      legs: this.#legs,
    };
  }
}

/** The state of a way that needs none, since it leads to the closet itself. */
export const WHOLE = -1;

/** Room for the rounding of slanted stretches in a lower bound, mm. */
const SLACK = 10;

/** Units per mm that any way costs at least. */
export function leastRate({ site }: Graph): number {
  const { prices } = site;
  const factors = [site.ceiling, ...site.zones].map(({ kind }) => ceilingFactor(kind, prices));
  if (site.pathways.length > 0) factors.push(prices.pathwayFactor);
  return 2 * Math.min(...factors);
}
