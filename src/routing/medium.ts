import { type Shape, spansAlong, spansBeside } from '../geometry/shape.ts';
import type { Ground } from './ground.ts';
import { type CeilingKind, ceilingFactor, type SiteCeiling } from './site.ts';

/**
 * Cost units: 1/200 mm of equivalent length. Positions are multiples of half a millimetre and factors whole percent,
 * so every cost of an axis-parallel route is a whole number and ties are exact.
 */
export const UNITS = 200;

/** What a stretch of a line lies in, as far as cost goes. Stretches with equal cost have the same number. */
export interface Medium {
  /** Elevation of the cable. */
  readonly z: number;
  /** Percent. */
  readonly factor: number;
  readonly kind: CeilingKind;
  /** Free travel is possible here. */
  readonly pass: boolean;
  /** Inside a barred area. */
  readonly barred: boolean;
  /** Bodies with a price that it lies inside, ascending. */
  readonly bodies: readonly number[];
}

/** A line cut into stretches: stretch i goes from starts[i] to starts[i + 1]; the first starts at -Infinity. */
export interface Profile {
  readonly starts: number[];
  readonly media: number[];
}

interface Sky {
  readonly z: number;
  readonly factor: number;
  readonly kind: CeilingKind;
}

/** Numbers the media of a site and cuts lines into them. */
export class Media {
  readonly list: Medium[] = [];
  readonly #ground: Ground;
  /** Number of each medium: by sky, state and body where at most one holds it, else by all of them in words. */
  readonly #keys = new Map<number | string, number>();
  readonly #skies: Sky[] = [];
  /** Sky of each zone, and last that of the site. */
  readonly #skyOf: number[] = [];
  /** Bodies that matter: those with a price, and under a hard ceiling all. */
  readonly #bodies: number[] = [];
  readonly #mattering: ReadonlySet<number>;
  readonly #positions: number[] = [];
  readonly #codes: number[] = [];
  readonly #hard: boolean;
  /** Bounds across each axis of zones, bodies and barred areas, low and high in turn: a cheap refusal. */
  readonly #bounds: readonly (readonly [Float64Array, Float64Array])[];

  constructor(ground: Ground) {
    this.#ground = ground;
    const { site } = ground;
    for (const zone of site.zones) this.#skyOf.push(this.#sky(zone));
    this.#skyOf.push(this.#sky(site.ceiling));
    this.#hard = this.#skies.some((sky) => sky.kind === 'hard');
    ground.bodies.forEach((body, index) => {
      const hard = this.#hard && touchesHard(ground, index);
      if (hard || (body.passing.price > 0 && !body.passing.barred)) this.#bodies.push(index);
    });
    this.#mattering = new Set(this.#bodies);
    this.#bounds = [ground.zones, ground.bodies, ground.barred].map(boundsOf);
  }

  #sky(ceiling: SiteCeiling): number {
    const factor = ceilingFactor(ceiling.kind, this.#ground.site.prices);
    const known = this.#skies.findIndex(
      (s) => s.z === ceiling.elevation && s.kind === ceiling.kind,
    );
    if (known >= 0) return known;
    return this.#skies.push({ z: ceiling.elevation, factor, kind: ceiling.kind }) - 1;
  }

  /** Whether a body has a say in cost: it has a price, or it lies under a hard ceiling. */
  matters(body: number): boolean {
    return this.#mattering.has(body);
  }

  /** The stretches of the line along `axis` just beside coordinate `c`; see `spansBeside`. */
  beside(axis: 0 | 1, c: number, side: 0 | 1): Profile {
    const { zones, bodies, barred } = this.#ground;
    const spans: number[] = [];
    this.#positions.length = 0;
    this.#codes.length = 0;
    const at = {
      zones: this.#bounds[0]![axis],
      bodies: this.#bounds[1]![axis],
      barred: this.#bounds[2]![axis],
    };
    for (let i = 0; i < zones.length; i++) {
      if (c < at.zones[2 * i]! || c > at.zones[2 * i + 1]!) continue;
      if (spansBeside(zones[i]!.shape, axis, c, side, spans)) this.#events(spans, i, 0);
    }
    for (const i of this.#bodies) {
      if (c < at.bodies[2 * i]! || c > at.bodies[2 * i + 1]!) continue;
      const { shape } = bodies[i]!;
      if (spansBeside(shape, axis, c, side, spans)) this.#events(spans, i, 1);
      if (!this.#hard || !shape.box) continue;
      const face =
        axis === 0 ? (side === 0 ? shape.y0 : shape.y1) : side === 0 ? shape.x0 : shape.x1;
      if (face !== c) continue;
      if (axis === 0) spans.push(shape.x0, shape.x1);
      else spans.push(shape.y0, shape.y1);
      this.#events(spans, 0, 3);
    }
    for (let i = 0; i < barred.length; i++) {
      if (c < at.barred[2 * i]! || c > at.barred[2 * i + 1]!) continue;
      if (spansBeside(barred[i]!.shape, axis, c, side, spans)) this.#events(spans, 0, 2);
    }
    return this.#cut(false);
  }

  /** The stretches of the straight line from a to b; `face` when it runs along a wall's face. Positions from a. */
  along(ax: number, ay: number, bx: number, by: number, face: boolean): Profile {
    const { zones, bodies, barred } = this.#ground;
    const spans: number[] = [];
    this.#positions.length = 0;
    this.#codes.length = 0;
    for (let i = 0; i < zones.length; i++)
      if (spansAlong(zones[i]!.shape, ax, ay, bx, by, spans)) this.#events(spans, i, 0);
    for (const i of this.#bodies)
      if (spansAlong(bodies[i]!.shape, ax, ay, bx, by, spans)) this.#events(spans, i, 1);
    for (let i = 0; i < barred.length; i++)
      if (spansAlong(barred[i]!.shape, ax, ay, bx, by, spans)) this.#events(spans, 0, 2);
    return this.#cut(face);
  }

  /** Takes pairs of positions as entries and exits, in order: kind 0 zone, 1 body, 2 barred, 3 face. */
  #events(spans: number[], index: number, kind: number): void {
    const code = (index * 4 + kind) * 2;
    for (let i = 0; i + 1 < spans.length; i += 2) {
      if (spans[i]! >= spans[i + 1]!) continue;
      this.#event(spans[i]!, code);
      this.#event(spans[i + 1]!, code + 1);
    }
    spans.length = 0;
  }

  #event(at: number, code: number): void {
    const positions = this.#positions;
    const codes = this.#codes;
    let i = positions.length;
    positions.push(at);
    codes.push(code);
    for (; i > 0 && positions[i - 1]! > at; i--) {
      positions[i] = positions[i - 1]!;
      codes[i] = codes[i - 1]!;
    }
    positions[i] = at;
    codes[i] = code;
  }

  #cut(faced: boolean): Profile {
    const positions = this.#positions;
    const codes = this.#codes;
    const zones: number[] = [];
    const bodies: number[] = [];
    let barred = 0;
    let faces = faced ? 1 : 0;
    const starts = [-Infinity];
    const media = [this.#medium(zones, bodies, 0, faces)];
    for (let k = 0; k < positions.length; ) {
      const at = positions[k]!;
      for (; k < positions.length && positions[k]! === at; k++) {
        const code = codes[k]!;
        const leave = (code & 1) === 1;
        const kind = (code >> 1) & 3;
        const index = code >> 3;
        if (kind === 2) barred += leave ? -1 : 1;
        else if (kind === 3) faces += leave ? -1 : 1;
        else if (leave) remove(kind === 0 ? zones : bodies, index);
        else insert(kind === 0 ? zones : bodies, index);
      }
      const medium = this.#medium(zones, bodies, barred, faces);
      if (medium === media[media.length - 1]) continue;
      starts.push(at);
      media.push(medium);
    }
    return { starts, media };
  }

  #medium(zones: number[], bodies: number[], barred: number, faces: number): number {
    const zone = zones.length ? zones[zones.length - 1]! : this.#skyOf.length - 1;
    const sky = this.#skyOf[zone]!;
    const pass =
      barred === 0 && (this.#skies[sky]!.kind !== 'hard' || faces > 0 || bodies.length > 0);
    const state = sky * 3 + (barred > 0 ? 2 : pass ? 1 : 0);
    let priced = 0;
    let one = -1;
    for (const i of bodies)
      if (this.#ground.bodies[i]!.passing.price > 0) {
        priced++;
        one = i;
      }
    const held =
      priced > 1 ? bodies.filter((i) => this.#ground.bodies[i]!.passing.price > 0) : null;
    const key = held
      ? `${state} ${held.join(' ')}`
      : state * (this.#ground.bodies.length + 1) + one + 1;
    const known = this.#keys.get(key);
    if (known !== undefined) return known;
    const { kind, z, factor } = this.#skies[sky]!;
    const list = held ?? (one >= 0 ? [one] : []);
    const number = this.list.push({ z, factor, kind, pass, barred: barred > 0, bodies: list }) - 1;
    this.#keys.set(key, number);
    return number;
  }

  /** Price of changing medium at a point, in units: the elevation apart, half a passage for each wall entered or left. */
  price(a: number, b: number): number {
    const p = this.list[a]!.bodies;
    const q = this.list[b]!.bodies;
    if (p === q) return 0;
    let sum = 0;
    for (const i of p) if (!q.includes(i)) sum += this.#ground.bodies[i]!.passing.price;
    for (const i of q) if (!p.includes(i)) sum += this.#ground.bodies[i]!.passing.price;
    return sum * (UNITS / 2);
  }

  /** Price of starting in a medium, in units: half a passage for each wall that it lies inside. */
  entry(a: number): number {
    let sum = 0;
    for (const i of this.list[a]!.bodies) sum += this.#ground.bodies[i]!.passing.price;
    return sum * (UNITS / 2);
  }

  /** Length of the step between two media. */
  step(a: number, b: number): number {
    return Math.abs(this.list[a]!.z - this.list[b]!.z);
  }
}

function boundsOf(
  areas: readonly { readonly shape: Shape }[],
): readonly [Float64Array, Float64Array] {
  return [
    Float64Array.from(areas.flatMap(({ shape }) => [shape.y0, shape.y1])),
    Float64Array.from(areas.flatMap(({ shape }) => [shape.x0, shape.x1])),
  ];
}

function insert(list: number[], value: number): void {
  let i = list.length;
  while (i > 0 && list[i - 1]! > value) i--;
  list.splice(i, 0, value);
}

function remove(list: number[], value: number): void {
  const i = list.indexOf(value);
  if (i >= 0) list.splice(i, 1);
}

function touchesHard(ground: Ground, body: number): boolean {
  const { site, zones, bodies } = ground;
  if (site.ceiling.kind === 'hard') return true;
  const b = bodies[body]!.shape;
  return zones.some(({ index, shape: s }) => {
    if (site.zones[index]!.kind !== 'hard') return false;
    return s.x0 <= b.x1 && s.x1 >= b.x0 && s.y0 <= b.y1 && s.y1 >= b.y0;
  });
}

/** Whether two profiles change at the same places to the same media. */
export function sameProfile(a: Profile, b: Profile): boolean {
  if (a.starts.length !== b.starts.length) return false;
  for (let i = 0; i < a.starts.length; i++)
    if (a.starts[i] !== b.starts[i] || a.media[i] !== b.media[i]) return false;
  return true;
}

/** The stretch of a profile that holds at a position: on a boundary the side decides. */
export function stretchAt(profile: Profile, at: number, side: 0 | 1): number {
  const { starts } = profile;
  let lo = 0;
  let hi = starts.length - 1;
  while (lo < hi) {
    const mid = (lo + hi + 1) >> 1;
    const start = starts[mid]!;
    if (side === 0 ? start < at : start <= at) lo = mid;
    else hi = mid - 1;
  }
  return lo;
}

/** The medium that holds at a position of a profile: on a boundary the side decides. */
export const mediumAt = (profile: Profile, at: number, side: 0 | 1): number =>
  profile.media[stretchAt(profile, at, side)]!;

/** Sum over a stretch of a line: cost in units, and real length. A cost below 0 says that it is not passable. */
export interface Toll {
  cost: number;
  length: number;
}

/** Cost and length from position a to b >= a along a profile, both with their sides. */
export function toll(
  media: Media,
  profile: Profile,
  a: number,
  sideA: 0 | 1,
  b: number,
  sideB: 0 | 1,
  out: Toll,
): void {
  tollWithin(media, profile, stretchAt(profile, a, sideA), a, stretchAt(profile, b, sideB), b, out);
}

/** The same, where the stretches of both positions are known: from stretch `first` to stretch `last`. */
export function tollWithin(
  media: Media,
  profile: Profile,
  first: number,
  a: number,
  last: number,
  b: number,
  out: Toll,
): void {
  const { list } = media;
  const { starts, media: stretches } = profile;
  let cost = 0;
  let vertical = 0;
  let at = a;
  for (let k = first; ; k++) {
    const medium = list[stretches[k]!]!;
    const end = k < last ? starts[k + 1]! : b;
    if (medium.barred || (end > at && !medium.pass)) {
      out.cost = -1;
      return;
    }
    if (end > at) {
      cost += Math.round((end - at) * 2 * medium.factor);
      at = end;
    }
    if (k >= last) break;
    const step = media.step(stretches[k]!, stretches[k + 1]!);
    vertical += step;
    cost += step * UNITS + media.price(stretches[k]!, stretches[k + 1]!);
  }
  out.cost = cost;
  out.length = b - a + vertical;
}
