import { type Media, type Medium, UNITS } from './medium.ts';
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
  /** Number of the stretch that it is in, what that lies in, and where it ends. */
  #stretch: number;
  #medium: Medium;
  #border: number;

  /** @param stretch of the profile, at that position and on that side of it */
  constructor(media: Media, profile: Profile, from: number, forward: 0 | 1, stretch: number) {
    this.#media = media;
    this.#profile = profile;
    this.#forward = forward;
    this.#at = from;
    this.#stretch = stretch;
    this.#medium = media.list[profile.media[stretch]!]!;
    this.#border = this.#end();
  }

  /** The medium at the place where it is. */
  medium(): number {
    return this.#profile.media[this.#stretch]!;
  }

  /** Goes on to a position and a side of it, not before where it is; false where there is no passage. */
  to(end: number, side: 0 | 1): boolean {
    const beyond = this.#forward ? end > this.#border : end < this.#border;
    if (beyond || (end === this.#border && side === this.#forward)) return this.#leave(end, side);
    const length = this.#go(end);
    this.second += Math.round(2 * length);
    return length >= 0;
  }

  /** Goes on by as many stretches as it takes. */
  #leave(end: number, side: 0 | 1): boolean {
    const { media } = this.#profile;
    const way = this.#forward ? 1 : -1;
    let length = 0;
    while (way * (end - this.#border) > 0 || (end === this.#border && side === this.#forward)) {
      const going = this.#go(this.#border);
      if (going < 0) return false;
      const [a, b] = [media[this.#stretch]!, media[this.#stretch + way]!];
      const step = this.#media.step(a, b);
      length += going + step;
      this.cost += step * UNITS + this.#media.price(a, b);
      this.#stretch += way;
      this.#medium = this.#media.list[b]!;
      this.#border = this.#end();
    }
    const last = this.#go(end);
    this.second += Math.round(2 * (length + last));
    return last >= 0;
  }

  /** Goes on within its stretch. How far; -1 where that is barred. */
  #go(to: number): number {
    const { barred, pass, factor } = this.#medium;
    const length = Math.abs(to - this.#at);
    if (barred || (length > 0 && !pass)) return -1;
    this.cost += Math.round(length * 2 * factor);
    this.#at = to;
    return length;
  }

  #end(): number {
    const { starts } = this.#profile;
    return this.#forward ? (starts[this.#stretch + 1] ?? Infinity) : starts[this.#stretch]!;
  }
}
