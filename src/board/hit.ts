import Flatbush from 'flatbush';
import { groupBy } from '../base/group.ts';
import type { Id } from '../base/ids.ts';
import { dimensionLine, openingOutline } from '../drawing/opening-marks.ts';
import { distance, nearestOnSegment, wallCorners } from '../geometry/nearest.ts';
import type { Point } from '../geometry/point.ts';
import { doubleArea, insidePolygon } from '../geometry/polygon.ts';
import { risersOn } from '../plan/levels.ts';
import { openingsOn } from '../plan/openings.ts';
import { inLayers, shownCorners } from '../plan/picture-place.ts';
import { onLevel, type Plan, type Ref, refKey } from '../plan/plan.ts';
import type { Way } from '../results/types.ts';

/** What lies where on a level. `symbols` are points drawn at paper size; the rest are shapes of the building. */
interface Item {
  readonly ref: Ref;
  /** Lower is nearer to the eye. */
  readonly rank: number;
  readonly shape: 'symbol' | 'chain' | 'area';
  readonly points: readonly Point[];
  /** Size for areas, so that a small room in a large one is hit first; doubled mm². */
  readonly size: number;
}

export interface HitIndex {
  readonly items: readonly Item[];
  readonly index: Flatbush | null;
  /** Items by the key of their row. */
  readonly named: ReadonlyMap<string, readonly Item[]>;
}

const RANK = {
  symbols: 0,
  pathways: 1,
  cables: 2,
  openings: 3,
  walls: 4,
  keepouts: 5,
  zones: 6,
  backgrounds: 7,
} as const;

/**
 * Indexes a level.
 *
 * @param ways cables that can be hit, for the jack at their end; where several share a way nobody knows which is meant
 */
export function hitIndex(plan: Plan, level: Id, ways: readonly Way[] = []): HitIndex {
  const items: Item[] = [];
  const put = (ref: Ref, rank: number, shape: Item['shape'], points: readonly Point[]) =>
    items.push({ ref, rank, shape, points, size: Math.abs(doubleArea(points)) });
  for (const table of ['closets', 'outlets', 'devices', 'powers'] as const)
    for (const { id, at } of onLevel(plan, table, level))
      put({ table, id }, RANK.symbols, 'symbol', [at]);
  for (const { id, at } of risersOn(plan, level))
    put({ table: 'risers', id }, RANK.symbols, 'symbol', [at]);
  for (const { id, points } of onLevel(plan, 'pins', level))
    for (const at of points) put({ table: 'pins', id }, RANK.symbols, 'symbol', [at]);
  for (const { id, points } of onLevel(plan, 'pathways', level))
    put({ table: 'pathways', id }, RANK.pathways, 'chain', points);
  for (const way of ways) {
    const id = way.jacks[0];
    if (way.level !== level || way.jacks.length !== 1 || id === undefined) continue;
    if (!plan.tables.jacks.has(id)) continue;
    put({ table: 'jacks', id }, RANK.cables, 'chain', [
      [way.from[0], way.from[1]],
      [way.to[0], way.to[1]],
    ]);
  }
  for (const { id, at, to } of onLevel(plan, 'notes', level)) {
    put({ table: 'notes', id }, RANK.symbols, 'symbol', [at]);
    if (to) put({ table: 'notes', id }, RANK.pathways, 'chain', [at, to]);
  }
  for (const row of onLevel(plan, 'dimensions', level))
    put({ table: 'dimensions', id: row.id }, RANK.pathways, 'chain', dimensionLine(row));
  for (const { opening, wall } of openingsOn(plan, level))
    put(
      { table: 'openings', id: opening.id },
      RANK.openings,
      'area',
      openingOutline(wall, opening),
    );
  for (const wall of onLevel(plan, 'walls', level))
    put(
      { table: 'walls', id: wall.id },
      RANK.walls,
      'area',
      wallCorners(wall.a, wall.b, wall.thickness),
    );
  for (const { id, outline } of onLevel(plan, 'keepouts', level))
    put({ table: 'keepouts', id }, RANK.keepouts, 'area', outline);
  for (const { id, outline } of onLevel(plan, 'zones', level))
    put({ table: 'zones', id }, RANK.zones, 'area', outline);
  // The topmost comes first, as everywhere in this list.
  for (const picture of inLayers(plan, level).reverse())
    if (!picture.locked && !picture.hidden)
      put({ table: 'backgrounds', id: picture.id }, RANK.backgrounds, 'area', [
        ...shownCorners(picture),
      ]);
  return { items, index: indexOf(items), named: groupBy(items, ({ ref }) => refKey(ref)) };
}

type Near = (x0: number, y0: number, x1: number, y1: number) => readonly string[];
const drawnNear = new WeakMap<ReadonlyMap<string, Point>, Near>();

/** Finds the rows whose symbols are drawn in a box; where symbols stand changes seldom, so this is kept. */
function nearOf(drawn: ReadonlyMap<string, Point>): Near {
  const kept = drawnNear.get(drawn);
  if (kept) return kept;
  const keys = [...drawn.keys()];
  const index = keys.length === 0 ? null : new Flatbush(keys.length);
  for (const [x, y] of drawn.values()) index?.add(x, y, x, y);
  index?.finish();
  const near: Near = (...box) => index?.search(...box).map((i) => keys[i]!) ?? [];
  drawnNear.set(drawn, near);
  return near;
}

function indexOf(items: readonly Item[]): Flatbush | null {
  if (items.length === 0) return null;
  const index = new Flatbush(items.length);
  for (const { points } of items) {
    const xs = points.map((p) => p[0]);
    const ys = points.map((p) => p[1]);
    index.add(Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys));
  }
  index.finish();
  return index;
}

/** Half the size of a symbol, and the reach round the pointer and round a finger (44 px across), px. */
const SYMBOL = 12;
const REACH = 5;
const TOUCH = 22;

/**
 * What lies under a place, topmost first: what the place is on comes before what is merely in reach, and keep-outs and
 * rooms, which are large, come last; of these devices and jacks before pathways, cables and walls, the nearer symbol
 * and the smaller room first. Nothing is named twice.
 *
 * @param pixel one screen pixel in mm
 * @param drawn the places where symbols are drawn, where they stand aside from their own
 */
export function hitAt(
  { items, index, named }: HitIndex,
  at: Point,
  pixel: number,
  touch: boolean,
  drawn: ReadonlyMap<string, Point> = NONE,
): readonly Ref[] {
  const reach = (touch ? TOUCH : REACH) * pixel;
  const found = index?.search(
    at[0] - reach - SYMBOL * pixel,
    at[1] - reach - SYMBOL * pixel,
    at[0] + reach + SYMBOL * pixel,
    at[1] + reach + SYMBOL * pixel,
  );
  const candidates = new Set((found ?? []).map((i) => items[i]!));
  const far = reach + SYMBOL * pixel;
  for (const key of nearOf(drawn)(at[0] - far, at[1] - far, at[0] + far, at[1] + far))
    for (const item of named.get(key) ?? []) candidates.add(item);
  const hits = [...candidates].flatMap((item) => {
    const place = drawn.get(refKey(item.ref));
    const d = gap(item, at, pixel, place);
    const own = place === undefined ? d : gap(item, at, pixel, undefined);
    if (Math.min(d, own) > reach) return [];
    return [{ item, d: Math.min(d, own), order: orderOf(item, d, own, pixel) }];
  });
  hits.sort(
    (a, b) =>
      a.order - b.order || a.item.rank - b.item.rank || a.d - b.d || a.item.size - b.item.size,
  );
  return [...new Map(hits.map(({ item }) => [refKey(item.ref), item.ref])).values()];
}

/** How near to the middle of a symbol a place must be to be meant for it and for no other, px. */
const MIDDLE = 5;

/**
 * 0 on the middle of a symbol or on a thing, then the own place of a symbol that is drawn aside, then the rest of a
 * symbol; 1 in reach, 2 for large areas. A thin line counts as hit from as near as a mouse can aim.
 *
 * @param d how far it is from what is drawn; `own` from its own place
 */
function orderOf({ rank, shape }: Item, d: number, own: number, pixel: number): number {
  if (rank >= RANK.keepouts) return d > 0 ? 3 : 2;
  if (shape !== 'symbol') return d > REACH * pixel ? 1 : 0;
  const middle = (MIDDLE - SYMBOL) * pixel;
  if (d <= middle) return 0;
  if (own <= middle) return 0.2;
  return d <= 0 ? 0.4 : 1;
}

const NONE: ReadonlyMap<string, Point> = new Map();

/** How far a place lies from a thing, mm; 0 or less where it is on it (for symbols the nearer the lower). */
function gap(item: Item, at: Point, pixel: number, drawn: Point | undefined): number {
  if (item.shape === 'symbol') {
    const far = distance(at, drawn ?? item.points[0]!);
    return far - SYMBOL * pixel;
  }
  const closed = item.shape === 'area';
  if (closed && insidePolygon(item.points, at[0], at[1])) return 0;
  return toChain(item.points, at, closed);
}

function toChain(points: readonly Point[], at: Point, closed: boolean): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = closed ? 0 : 1; i < points.length; i++) {
    const a = points[i === 0 ? points.length - 1 : i - 1]!;
    least = Math.min(least, distance(at, nearestOnSegment(a, points[i]!, at)));
  }
  return least;
}

/**
 * What a box holds: only what lies wholly inside, or all that it touches. Backgrounds and cables are never held.
 */
export function hitBox(
  { items, index }: HitIndex,
  a: Point,
  b: Point,
  touching: boolean,
): readonly Ref[] {
  const box = {
    x0: Math.min(a[0], b[0]),
    y0: Math.min(a[1], b[1]),
    x1: Math.max(a[0], b[0]),
    y1: Math.max(a[1], b[1]),
  };
  const found = index?.search(box.x0, box.y0, box.x1, box.y1) ?? [];
  const held = found
    .sort((i, j) => i - j)
    .map((i) => items[i]!)
    .filter(
      (item) =>
        item.rank !== RANK.backgrounds &&
        item.rank !== RANK.cables &&
        (touching ? touches(item, box) : within(item, box)),
    );
  // A pin stands at each of its places.
  return [...new Map(held.map(({ ref }) => [refKey(ref), ref])).values()];
}

interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

const holds = (box: Box, [x, y]: Point): boolean =>
  x >= box.x0 && x <= box.x1 && y >= box.y0 && y <= box.y1;

const within = (item: Item, box: Box): boolean => item.points.every((p) => holds(box, p));

/** Whether a border line of the thing enters the box, or an area that can be filled by it holds the box. */
function touches(item: Item, box: Box): boolean {
  const { points } = item;
  if (points.some((p) => holds(box, p))) return true;
  for (let i = item.shape === 'area' ? 0 : 1; i < points.length; i++) {
    const a = points[i === 0 ? points.length - 1 : i - 1];
    if (a && cutsBox(a, points[i]!, box)) return true;
  }
  // A box drawn inside a room is not meant for the room.
  return item.shape === 'area' && item.rank <= RANK.walls && insidePolygon(points, box.x0, box.y0);
}

/** Whether a straight piece runs through a box, by clipping it to the box. */
function cutsBox(a: Point, b: Point, box: Box): boolean {
  let t0 = 0;
  let t1 = 1;
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  for (const [p, q] of [
    [-dx, a[0] - box.x0],
    [dx, box.x1 - a[0]],
    [-dy, a[1] - box.y0],
    [dy, box.y1 - a[1]],
  ] as const) {
    if (p === 0) {
      if (q < 0) return false;
      continue;
    }
    const t = q / p;
    if (p < 0) t0 = Math.max(t0, t);
    else t1 = Math.min(t1, t);
    if (t0 > t1) return false;
  }
  return true;
}
