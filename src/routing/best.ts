import type { Point } from '../geometry/point.ts';
import type { Attachment, Leg } from './attach.ts';
import type { Graph } from './graph.ts';
import type { Field } from './search.ts';
import type { Start } from './starts.ts';

/** Hears of every way to join the network; asks to keep the way when it is better than what it has. */
export interface Taker {
  better(cost: number, second: number, own: number, state: number): boolean;
  /** Whether no way that costs at least this much to a state, or to a place, can be better. */
  hopelessTo(cost: number, state: number): boolean;
  hopelessFrom(cost: number, x: number, y: number): boolean;
  keep(start: Start | null, legs: readonly Leg[]): void;
}

/** Keeps the best way of all that it hears of. */
export class Best implements Taker {
  readonly #field: Field;
  readonly #closet: Point;
  /** Units per mm that any way costs at least. */
  readonly #rate: number;
  /** Whether ways can be shorter than along the axes. */
  readonly #slanted: boolean;
  #cost = Infinity;
  #second = Infinity;
  #own = Infinity;
  #state = -1;
  #start: Start | null = null;
  #legs: readonly Leg[] = [];

  constructor(field: Field, closet: Point, rate: number, slanted: boolean) {
    this.#field = field;
    this.#slanted = slanted;
    this.#closet = closet;
    this.#rate = rate;
  }

  hopelessTo(cost: number, state: number): boolean {
    return cost + this.#field.cost[state]! > this.#cost;
  }

  hopelessFrom(cost: number, x: number, y: number): boolean {
    const dx = Math.abs(x - this.#closet[0]);
    const dy = Math.abs(y - this.#closet[1]);
    const least = (this.#slanted ? Math.max(dx, dy) : dx + dy) - this.#field.lead - SLACK;
    return cost + this.#field.base + Math.max(0, least) * this.#rate > this.#cost;
  }

  /** Ties: fewest bends, shortest, then what shares most of its way, then the lowest state. */
  better(cost: number, second: number, own: number, state: number): boolean {
    const c = cost + this.#field.cost[state]!;
    if (c > this.#cost || c === Infinity) return false;
    const s = second + this.#field.second[state]!;
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
  const factors = [site.ceiling, ...site.zones].map(({ kind }) =>
    kind === 'tile' ? prices.tileFactor : kind === 'open' ? prices.openFactor : prices.hardFactor,
  );
  if (site.pathways.length > 0) factors.push(prices.pathwayFactor);
  return 2 * Math.min(...factors);
}
