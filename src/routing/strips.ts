import { lowerBound } from './lines.ts';
import type { Media } from './medium.ts';
import type { Profile } from './profile.ts';
import { profileOf, type Wishes } from './wishes.ts';

/**
 * An axis cut where anything begins or ends, and at some coordinates more. Between two of them the same lies beside
 * every coordinate, so it is looked at once for all: outlets that are dragged, or many in a row, mostly share it.
 */
export class Strips {
  readonly #media: Media;
  readonly #wishes: Wishes;
  readonly #axis: 0 | 1;
  /** What lies beside the coordinates before each cut and after the last, once somebody has asked. */
  readonly #between: (Profile | undefined)[] = [];

  constructor(media: Media, wishes: Wishes, axis: 0 | 1) {
    this.#media = media;
    this.#wishes = wishes;
    this.#axis = axis;
  }

  /** What lies just below a coordinate and just above it. */
  beside(c: number): readonly [below: Profile, above: Profile] {
    const axis = this.#axis;
    const cuts = this.#wishes.coordinates(axis);
    const i = lowerBound(cuts, c);
    if (cuts[i] === c) {
      const wish = this.#wishes.axes[axis].get(c)!;
      return [profileOf(this.#media, axis, c, wish, 0), profileOf(this.#media, axis, c, wish, 1)];
    }
    this.#between[i] ??= this.#media.beside(axis, c, 0);
    return [this.#between[i], this.#between[i]];
  }
}
