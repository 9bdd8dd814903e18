import type { Point } from '../geometry/point.ts';
import type { Attachment, Leg } from './attach.ts';
import type { Graph } from './graph.ts';
import { UNITS } from './medium.ts';
import { ceilingFactor } from './site.ts';
import type { Start } from './starts.ts';

/** What a terminal on one level is to reach: what every state of that level is away from it. */
export interface Toward {
  readonly cost: Float64Array;
  readonly second: Float64Array;
  /** The least cost of all, and the longest length across that this holds already: for lower bounds. */
  readonly base: number;
  readonly lead: number;
  /** Where it lies, in the frame of the level. */
  readonly goal: Point;
  /** Units per mm that any way costs at least. */
  readonly rate: number;
  /** Whether ways can be shorter than along the axes. */
  readonly slanted: boolean;
}

/** Hears of every way to join the network; asks to keep the way when it is better than what it has. */
export interface Taker {
  better(cost: number, second: number, own: number, state: number): boolean;
  /** What is left from a state. */
  left(state: number): number;
  /** The most that a whole way may cost if it is to be better; with room for rounding where that can be. */
  most(): number;
  /** The least that a length across can cost. */
  least(length: number): number;
  /** Whether no way that costs at least this much to a place can be better. */
  hopelessFrom(cost: number, x: number, y: number): boolean;
  keep(start: Start | null, legs: readonly Leg[]): void;
}

/** Keeps the best way of all that it hears of. */
export class Best implements Taker {
  readonly #toward: Toward;
  readonly #room: number;
  #cost = Infinity;
  #second = Infinity;
  #own = Infinity;
  #state = -1;
  #start: Start | null = null;
  #legs: readonly Leg[] = [];

  constructor(toward: Toward) {
    this.#toward = toward;
    this.#room = toward.slanted ? SLACK * UNITS : 0;
  }

  left(state: number): number {
    return this.#toward.cost[state]!;
  }

  most(): number {
    return this.#cost + this.#room;
  }

  least(length: number): number {
    return length * this.#toward.rate;
  }

  hopelessFrom(cost: number, x: number, y: number): boolean {
    const { goal, slanted, lead, base, rate } = this.#toward;
    const dx = Math.abs(x - goal[0]);
    const dy = Math.abs(y - goal[1]);
    const least = (slanted ? Math.max(dx, dy) : dx + dy) - lead - SLACK;
    return cost + base + Math.max(0, least) * rate > this.#cost;
  }

  /** Ties: fewest bends, shortest, then what shares most of its way, then the lowest state. */
  better(cost: number, second: number, own: number, state: number): boolean {
    const c = cost + this.#toward.cost[state]!;
    if (c > this.#cost || c === Infinity) return false;
    const s = second + this.#toward.second[state]!;
    if (c === this.#cost) {
      if (s > this.#second) return false;
      if (s === this.#second) {
        if (own > this.#own) return false;
        if (own === this.#own && state >= this.#state) return false;
      }
    }
    this.#cost = c;
    this.#second = s;
    this.#own = own;
    this.#state = state;
    return true;
  }

  keep(start: Start | null, legs: readonly Leg[]): void {
    this.#start = start;
    this.#legs = legs;
  }

  found(): Attachment | null {
    if (this.#state < 0) return null;
    return {
      cost: this.#cost,
      second: this.#second,
      own: this.#own,
      state: this.#state,
      start: this.#start,
      legs: this.#legs,
    };
  }
}

/** Room for the rounding of slanted stretches in a lower bound, mm. */
const SLACK = 10;

/** Units per mm that any way costs at least. */
export function leastRate({ site }: Graph): number {
  const { prices } = site;
  const factors = [site.ceiling, ...site.zones].map(({ kind }) => ceilingFactor(kind, prices));
  if (site.pathways.length > 0) factors.push(prices.pathwayFactor);
  return 2 * Math.min(...factors);
}
