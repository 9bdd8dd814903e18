import { type Media, UNITS } from './medium.ts';
import type { Profile } from './profile.ts';

/** A way along a profile from one position, ever farther: what `toll` says of each stretch, added up as it goes. */
export class Walk {
  /** In units, and twice the real length, from where it began. */
  cost = 0;
  second = 0;
  readonly #media: Media;
  readonly #profile: Profile;
  readonly #forward: 0 | 1;
  #at: number;
  /** Number of the stretch that it is in. */
  #stretch: number;

  /** @param stretch of the profile, at that position and on that side of it */
  constructor(media: Media, profile: Profile, from: number, forward: 0 | 1, stretch: number) {
    this.#media = media;
    this.#profile = profile;
    this.#forward = forward;
    this.#at = from;
    this.#stretch = stretch;
  }

  /** The medium at the place where it is. */
  medium(): number {
    return this.#profile.media[this.#stretch]!;
  }

  /** Goes on to a position and a side of it, not before where it is; false where there is no passage. */
  to(end: number, side: 0 | 1): boolean {
    const { starts, media } = this.#profile;
    const list = this.#media.list;
    const way = this.#forward ? 1 : -1;
    let length = 0;
    for (;;) {
      const medium = list[media[this.#stretch]!]!;
      const border = this.#forward
        ? (starts[this.#stretch + 1] ?? Infinity)
        : starts[this.#stretch]!;
      const leaves = way * (end - border) > 0 || (end === border && side === this.#forward);
      const stop = leaves ? border : end;
      const going = Math.abs(stop - this.#at);
      if (medium.barred || (going > 0 && !medium.pass)) return false;
      if (going > 0) this.cost += Math.round(going * 2 * medium.factor);
      length += going;
      this.#at = stop;
      if (!leaves) break;
      const [a, b] = [media[this.#stretch]!, media[this.#stretch + way]!];
      const step = this.#media.step(a, b);
      length += step;
      this.cost += step * UNITS + this.#media.price(a, b);
      this.#stretch += way;
    }
    this.second += Math.round(2 * length);
    return true;
  }
}
