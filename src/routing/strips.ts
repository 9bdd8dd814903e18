import { type Beside, type Sides, sidesOf } from './beside.ts';
import { type LineSet, lowerBound } from './lines.ts';
import type { Media } from './medium.ts';
import { profileOf, type Wishes } from './wishes.ts';

/**
 * What lies beside coordinates where nothing lies at an angle. An axis is then cut where anything begins or ends, and at
 * some coordinates more; between two cuts the same lies beside every coordinate. So it is looked at once for all: outlets
 * that are dragged, or many in a row, mostly share it.
 */
export function stripsOf(media: Media, wishes: Wishes, lines: readonly [LineSet, LineSet]): Beside {
  const strips = [
    new Strips(media, wishes, 0, lines[0].c),
    new Strips(media, wishes, 1, lines[1].c),
  ] as const;
  return (axis, c) => strips[axis].beside(c);
}

class Strips {
  readonly #media: Media;
  readonly #wishes: Wishes;
  readonly #axis: 0 | 1;
  readonly #cuts: Float64Array;
  readonly #lines: Float64Array;
  /** What lies before each cut and beside it, cut by cut, and after the last; once somebody has asked. */
  readonly #known: (Sides | undefined)[];

  /** @param lines coordinates of the graph's lines, all of which are cuts */
  constructor(media: Media, wishes: Wishes, axis: 0 | 1, lines: Float64Array) {
    this.#media = media;
    this.#wishes = wishes;
    this.#axis = axis;
    this.#cuts = wishes.coordinates(axis);
    this.#lines = lines;
    // Of its full length at once: an array that is first written to far inside becomes a table, which is slow to read.
    this.#known = new Array(2 * this.#cuts.length + 1);
  }

  beside(c: number): Sides {
    const cut = lowerBound(this.#cuts, c);
    const at = 2 * cut + (cut < this.#cuts.length && this.#cuts[cut] === c ? 1 : 0);
    const known = this.#known[at];
    if (known) return known;
    const sides = (at & 1) === 1 ? this.#on(c) : this.#between(c);
    this.#known[at] = sides;
    return sides;
  }

  #on(c: number): Sides {
    const wish = this.#wishes.axes[this.#axis].get(c)!;
    return sidesOf(
      profileOf(this.#media, this.#axis, c, wish, 0),
      profileOf(this.#media, this.#axis, c, wish, 1),
      lowerBound(this.#lines, c),
    );
  }

  #between(c: number): Sides {
    const profile = this.#media.beside(this.#axis, c, 0);
    return sidesOf(profile, profile, lowerBound(this.#lines, c));
  }
}
