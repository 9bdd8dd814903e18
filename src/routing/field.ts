/** A graph in compressed rows, for searches. */
export interface Network {
  readonly states: number;
  /** Arcs of state s are first[s] to first[s + 1]. */
  readonly first: Int32Array;
  readonly to: Int32Array;
  /** Cost of each arc, and its second weight: see `weights`. */
  readonly cost: Weights;
  readonly second: Weights;
  readonly maxCost: number;
}

/** Whole numbers from 0: in 32 bits where they fit, which makes a search faster, else in doubles. */
export type Weights = Int32Array | Float64Array;

/** Whether a weight fits 32 bits. */
export const inWords = (weight: number): boolean => weight < 2 ** 31;

/** Room for so many weights of at most this size. */
export const weights = (count: number, most: number): Weights =>
  inWords(most) ? new Int32Array(count) : new Float64Array(count);

/**
 * What each state is away from the source: four numbers a state, side by side, since they are wanted together: cost, the
 * next state towards the source, bends, and real length in half millimetres.
 */
export class Field {
  readonly record: Weights;

  constructor(record: Weights) {
    this.record = record;
  }

  get states(): number {
    return this.record.length / 4;
  }

  /** Infinity where there is no way. */
  cost(state: number): number {
    const cost = this.record[4 * state]!;
    return cost === NONE && this.record[4 * state + 1] === NONE ? Infinity : cost;
  }

  /** Bends and length as one number, see `BEND`; Infinity where there is no way. */
  second(state: number): number {
    const at = 4 * state;
    return this.record[at + 1] === NONE
      ? Infinity
      : this.record[at + 2]! * BEND + this.record[at + 3]!;
  }

  /** The next state towards the source; -1 at the source and where there is no way. */
  next(state: number): number {
    const next = this.record[4 * state + 1]!;
    return next === NONE ? -1 : next;
  }

  /** The states from one to before another, numbered from 0; their next states keep their numbers. */
  part(from: number, to: number): Field {
    return new Field(this.record.subarray(4 * from, 4 * to));
  }
}

/** In the place of all four numbers of a state that has no way yet. */
export const NONE = 2 ** 31 - 1;

/**
 * One bend in the second weight; below it stands the real length in half millimetres. A bend and the step that goes
 * with it fit 32 bits, and a way may be 500 km long before its length counts as a bend.
 */
export const BEND = 2 ** 30;

/** A state that the source reaches at once, with its cost so far. */
export interface Seed {
  readonly state: number;
  readonly cost: number;
  readonly second: number;
}
