import { type Shape, spansAlong, spansBeside } from '../geometry/shape.ts';
import { Areas, Borders } from './areas.ts';
import type { Ground } from './ground.ts';
import { type Profile, Stretches } from './profile.ts';
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

interface Sky {
  readonly z: number;
  readonly factor: number;
  readonly kind: CeilingKind;
}

/** Room for the stretches of lines at first. */
const ROOM = 4096;

/** What an area is to a line that goes into it: the last two bits of its code before the way out. */
const ZONE = 0;
const BODY = 1;
const BARRED = 2;
const FACE = 3;

/** Numbers the media of a site and cuts lines into them. */
export class Media {
  readonly list: Medium[] = [];
  /** The stretches of all lines that were cut, but for those that are soon to be forgotten. */
  readonly stretches = new Stretches(ROOM);
  readonly #ground: Ground;
  /** Number of each medium: by sky, state and body where at most one holds it, else by all of them in words. */
  readonly #keys = new Map<number | string, number>();
  readonly #skies: Sky[] = [];
  /** Sky of each zone, and last that of the site. */
  readonly #skyOf: number[] = [];
  readonly #mattering: ReadonlySet<number>;
  readonly #hard: boolean;
  /** Price of passing each body. */
  readonly #prices: Float64Array;
  /** Sum of the prices of the bodies of each medium. */
  readonly #sums: number[] = [];
  /** All areas that have a say in cost, with a code for each. */
  readonly #areas: Areas;
  readonly #codes: Int32Array;
  readonly #borders = new Borders();

  constructor(ground: Ground) {
    this.#ground = ground;
    const { site, zones, bodies, barred } = ground;
    for (const zone of site.zones) this.#skyOf.push(this.#sky(zone));
    this.#skyOf.push(this.#sky(site.ceiling));
    this.#hard = this.#skies.some((sky) => sky.kind === 'hard');
    this.#prices = Float64Array.from(bodies, (body) => body.passing.price);
    const matters = matteringBodies(ground);
    this.#mattering = new Set(matters);
    this.#areas = new Areas([
      ...zones.map((zone) => zone.shape),
      ...matters.map((i) => bodies[i]!.shape),
      ...barred.map((area) => area.shape),
    ]);
    this.#codes = Int32Array.from([
      ...zones.map((_, i) => codeOf(i, ZONE)),
      ...matters.map((i) => codeOf(i, BODY)),
      ...barred.map(() => codeOf(0, BARRED)),
    ]);
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

  /**
   * The stretches of the line along `axis` just beside coordinate `c`; see `spansBeside`.
   *
   * @param into the row that they are put into: that of the media, unless they are soon to be forgotten
   */
  beside(axis: 0 | 1, c: number, side: 0 | 1, into = this.stretches): Profile {
    const { shapes } = this.#areas;
    const borders = this.#borders;
    borders.clear();
    this.#areas.eachNear(axis, c, (n) => {
      const shape = shapes[n]!;
      const code = this.#codes[n]!;
      if (shape.box) this.#besideBox(shape, axis, c, side, code);
      else {
        const spans: number[] = [];
        spansBeside(shape, axis, c, side, spans);
        for (let i = 0; i + 1 < spans.length; i += 2) borders.add(spans[i]!, spans[i + 1]!, code);
      }
    });
    return this.#cut(false, into);
  }

  #besideBox({ x0, y0, x1, y1 }: Shape, axis: 0 | 1, c: number, side: 0 | 1, code: number): void {
    const lo = axis === 0 ? y0 : x0;
    const hi = axis === 0 ? y1 : x1;
    const from = axis === 0 ? x0 : y0;
    const to = axis === 0 ? x1 : y1;
    if (side === 0 ? c > lo && c <= hi : c >= lo && c < hi) this.#borders.add(from, to, code);
    if (this.#hard && ((code >> 1) & 3) === BODY && c === (side === 0 ? lo : hi))
      this.#borders.add(from, to, codeOf(0, FACE));
  }

  /** The stretches of the straight line from a to b; `face` when it runs along a wall's face. Positions from a. */
  along(ax: number, ay: number, bx: number, by: number, face: boolean): Profile {
    this.#borders.clear();
    this.#areas.shapes.forEach((shape, n) => {
      const spans: number[] = [];
      spansAlong(shape, ax, ay, bx, by, spans);
      for (let i = 0; i + 1 < spans.length; i += 2)
        this.#borders.add(spans[i]!, spans[i + 1]!, this.#codes[n]!);
    });
    return this.#cut(face, this.stretches);
  }

  #cut(faced: boolean, into: Stretches): Profile {
    const { at: positions, code: codes, count } = this.#borders;
    const zones: number[] = [];
    const bodies: number[] = [];
    let barred = 0;
    let faces = faced ? 1 : 0;
    const first = into.count;
    let last = this.#medium(zones, bodies, 0, faces);
    into.put(-Infinity, last);
    for (let k = 0; k < count; ) {
      const at = positions[k]!;
      for (; k < count && positions[k]! === at; k++) {
        const code = codes[k]!;
        const leave = (code & 1) === 1;
        const kind = (code >> 1) & 3;
        const index = code >> 3;
        if (kind === BARRED) barred += leave ? -1 : 1;
        else if (kind === FACE) faces += leave ? -1 : 1;
        else if (leave) remove(kind === ZONE ? zones : bodies, index);
        else insert(kind === ZONE ? zones : bodies, index);
      }
      const medium = this.#medium(zones, bodies, barred, faces);
      if (medium === last) continue;
      into.put(at, medium);
      last = medium;
    }
    const end = into.count;
    into.put(Infinity, -1);
    return { row: into, first, end };
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
      if (this.#prices[i]! > 0) {
        priced++;
        one = i;
      }
    const held = priced > 1 ? bodies.filter((i) => this.#prices[i]! > 0) : null;
    const key = held ? `${state} ${held.join(' ')}` : state * (this.#prices.length + 1) + one + 1;
    const known = this.#keys.get(key);
    if (known !== undefined) return known;
    const { kind, z, factor } = this.#skies[sky]!;
    const list = held ?? (one >= 0 ? [one] : []);
    const number = this.list.push({ z, factor, kind, pass, barred: barred > 0, bodies: list }) - 1;
    this.#keys.set(key, number);
    this.#sums.push(list.reduce((sum, i) => sum + this.#prices[i]!, 0));
    return number;
  }

  /** Price of changing medium at a point, in units: the elevation apart, half a passage for each wall entered or left. */
  price(a: number, b: number): number {
    const p = this.list[a]!.bodies;
    const q = this.list[b]!.bodies;
    if (p.length === 0 || q.length === 0) return (this.#sums[a]! + this.#sums[b]!) * (UNITS / 2);
    let sum = 0;
    for (const i of p) if (!q.includes(i)) sum += this.#prices[i]!;
    for (const i of q) if (!p.includes(i)) sum += this.#prices[i]!;
    return sum * (UNITS / 2);
  }

  /** Price of starting in a medium, in units: half a passage for each wall that it lies inside. */
  entry(a: number): number {
    return this.#sums[a]! * (UNITS / 2);
  }

  /** No step between two media is longer, and none costs more. */
  most(): { readonly step: number; readonly price: number } {
    let [low, high] = [Infinity, -Infinity];
    for (const { z } of this.list) {
      if (z < low) low = z;
      if (z > high) high = z;
    }
    return { step: high - low, price: Math.max(...this.#sums) * UNITS };
  }

  /** Length of the step between two media. */
  step(a: number, b: number): number {
    return Math.abs(this.list[a]!.z - this.list[b]!.z);
  }
}

/** Room for a kind, and for whether it is the way in or out. */
const codeOf = (index: number, kind: number): number => (index * 4 + kind) * 2;

function insert(list: number[], value: number): void {
  let i = list.push(value) - 1;
  for (; i > 0 && list[i - 1]! > value; i--) list[i] = list[i - 1]!;
  list[i] = value;
}

function remove(list: number[], value: number): void {
  let i = list.indexOf(value);
  if (i < 0) return;
  for (; i + 1 < list.length; i++) list[i] = list[i + 1]!;
  list.pop();
}

/** Bodies that have a say in cost: those with a price, and under a hard ceiling all. */
function matteringBodies({ site, zones, bodies }: Ground): number[] {
  const over = zones.filter(({ index }) => site.zones[index]!.kind === 'hard');
  const underHard = (b: Shape): boolean =>
    site.ceiling.kind === 'hard' ||
    over.some(({ shape: s }) => s.x0 <= b.x1 && s.x1 >= b.x0 && s.y0 <= b.y1 && s.y1 >= b.y0);
  return bodies.flatMap(({ passing, shape }, i) =>
    (passing.price > 0 && !passing.barred) || underHard(shape) ? [i] : [],
  );
}
