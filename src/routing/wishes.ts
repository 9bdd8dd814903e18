import type { Shape } from '../geometry/shape.ts';
import type { Ground } from './ground.ts';
import type { Media } from './medium.ts';
import type { Profile } from './profile.ts';
import type { Track } from './track.ts';

/** Wishes for one coordinate: spans that a line must touch, for each side. */
export interface Wish {
  /** Something can only be joined here, so the line is thinned out apart from the others. */
  must: boolean;
  /** Ways leave the level here: the line is never thinned out. */
  always: boolean;
  readonly spans: [number[], number[]];
  /** Edges of zones: only wanted where the two sides differ. */
  readonly borders: number[];
  /** What lies beside the coordinate, once somebody has asked. */
  readonly profiles: [Profile | null, Profile | null];
}

export class Wishes {
  readonly axes: readonly [Map<number, Wish>, Map<number, Wish>] = [new Map(), new Map()];
  readonly #sorted: [Float64Array | null, Float64Array | null] = [null, null];

  at(axis: 0 | 1, c: number): Wish {
    const known = this.axes[axis].get(c);
    if (known) return known;
    const fresh: Wish = {
      must: false,
      always: false,
      spans: [[], []],
      borders: [],
      profiles: [null, null],
    };
    this.axes[axis].set(c, fresh);
    this.#sorted[axis] = null;
    return fresh;
  }

  /** The coordinates of an axis at which lines are wished for, ascending. */
  coordinates(axis: 0 | 1): Float64Array {
    this.#sorted[axis] ??= Float64Array.from(this.axes[axis].keys()).sort();
    return this.#sorted[axis];
  }

  both(axis: 0 | 1, c: number, lo: number, hi: number): void {
    const { spans } = this.at(axis, c);
    spans[0].push(lo, hi);
    spans[1].push(lo, hi);
  }

  /** Lines through a place, along both axes. */
  cross(x: number, y: number): void {
    this.both(0, y, x, x);
    this.both(1, x, y, y);
    this.at(0, y).must = true;
    this.at(1, x).must = true;
  }

  /** Lines through a place where ways leave the level or are made to pass. */
  land(x: number, y: number): void {
    this.cross(x, y);
    this.at(0, y).always = true;
    this.at(1, x).always = true;
  }

  /** Lines to either side of a place that is on no whole millimetre, or that must not be hit exactly. */
  near(x: number, y: number): void {
    for (const c of [Math.floor(y - 0.01), Math.ceil(y + 0.01)]) this.both(0, c, x - 2, x + 2);
    for (const c of [Math.floor(x - 0.01), Math.ceil(x + 0.01)]) this.both(1, c, y - 2, y + 2);
  }

  /** The four faces of a box, seen from outside, and if wanted from inside too. */
  faces(s: Shape, inside: boolean): void {
    const face = (axis: 0 | 1, c: number, lo: number, hi: number, out: 0 | 1) => {
      const wish = this.at(axis, c);
      wish.spans[out].push(lo, hi);
      if (inside) wish.spans[(1 - out) as 0 | 1].push(lo, hi);
    };
    face(0, s.y0, s.x0, s.x1, 0);
    face(0, s.y1, s.x0, s.x1, 1);
    face(1, s.x0, s.y0, s.y1, 0);
    face(1, s.x1, s.y0, s.y1, 1);
  }

  /** The axis-parallel edges of an outline, and lines round the corners of the others. */
  edges(s: Shape, put: (axis: 0 | 1, c: number, lo: number, hi: number) => void): void {
    const { flat } = s;
    const n = flat.length;
    for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
      const [ax, ay, bx, by] = [flat[j]!, flat[j + 1]!, flat[i]!, flat[i + 1]!];
      if (ax === bx && ay === by) continue;
      if (ay === by) put(0, ay, Math.min(ax, bx), Math.max(ax, bx));
      else if (ax === bx) put(1, ax, Math.min(ay, by), Math.max(ay, by));
      else {
        this.near(ax, ay);
        this.near(bx, by);
      }
    }
  }
}

/** Everything on the ground that a route may bend at. */
export function wishesOf(ground: Ground, media: Media, tracks: readonly Track[]): Wishes {
  const wishes = new Wishes();
  for (const { shape } of ground.zones)
    wishes.edges(shape, (axis, c, lo, hi) => wishes.at(axis, c).borders.push(lo, hi));
  for (const { shape } of ground.barred) {
    if (shape.box) wishes.faces(shape, false);
    else wishes.edges(shape, (axis, c, lo, hi) => wishes.both(axis, c, lo, hi));
  }
  const { tileFactor, openFactor, hardFactor, pathwayFactor } = ground.site.prices;
  // A segment inside a wall can be slid to its face, or to that of what lies beyond: outside is enough. But a pathway
  // dearer than free travel is only taken through a wall, so then it matters where the inside begins.
  const dear = pathwayFactor > Math.min(tileFactor, openFactor, hardFactor);
  const inside = dear && tracks.length > 0;
  ground.bodies.forEach(({ shape, passing }, index) => {
    if (passing.barred || !media.matters(index)) return;
    if (shape.box) wishes.faces(shape, inside);
    else wishes.edges(shape, (axis, c, lo, hi) => wishes.both(axis, c, lo, hi));
  });
  for (const track of tracks) {
    if (track.axis !== 2 && track.anywhere)
      wishes.both(
        track.axis,
        track.axis === 0 ? track.ay : track.ax,
        Math.min(track.axis === 0 ? track.ax : track.ay, track.axis === 0 ? track.bx : track.by),
        Math.max(track.axis === 0 ? track.ax : track.ay, track.axis === 0 ? track.bx : track.by),
      );
    for (const [x, y] of track.doors) {
      if (Number.isInteger(2 * x) && Number.isInteger(2 * y)) wishes.cross(x, y);
      else wishes.near(x, y);
    }
  }
  return wishes;
}

/** What lies beside a coordinate that is wished for; looked at once. */
export function profileOf(media: Media, axis: 0 | 1, at: number, wish: Wish, side: 0 | 1): Profile {
  wish.profiles[side] ??= media.beside(axis, at, side);
  return wish.profiles[side];
}

/** How many coordinates the axis has that is wished more of. */
export const mostCoordinates = ({ axes }: Wishes): number => Math.max(axes[0].size, axes[1].size);
