import type { Point } from '../../../src/geometry/point.ts';
import type {
  Building,
  Site,
  SitePin,
  SiteWall,
  SiteZone,
  Terminal,
} from '../../../src/routing/index.ts';

/**
 * A second router, written from the contract alone, for small axis-parallel sites whose coordinates, half
 * thicknesses and clearances are all multiples of one pitch. It walks every grid line and shares no code with the
 * engine.
 *
 * What both take as given:
 * - The plane is cut into cells. A cable at a grid point lies in one of the four cells round it; on a border it may
 *   lie in either. Going from one cell to the next, where it stands, costs the difference of their elevations and
 *   half the price of every wall that holds one of the two cells and not the other.
 * - Nothing goes into a barred cell: a keep-out grown by its clearance, a panel or exterior wall. So nothing passes
 *   between two of them that touch.
 * - Under a hard ceiling a cable only goes along the face of a wall or inside one.
 * - Collinear walls of one thickness and one kind of work that meet are one wall.
 * - A pathway on a border lies at the lower of the two elevations.
 * - A terminal starts at its own place, unless that is inside a barred wall or one with a price; in a framed wall that
 *   can be passed also at the nearest points of both long faces, else at the nearer (of all four, where the wall has no
 *   length). The way there counts as length and not as a bend. To set out into a wall is to enter it,
 *   and so is to join or leave a pathway inside one. Under a hard ceiling with no wall it starts at the nearest face
 *   within 300.
 * - A terminal within 100 of a pathway that can be joined there may join it from its own height; the way to it counts
 *   as part of the pathway.
 */
export const oracleCost = (site: Site, terminal: Terminal, closet: string, pitch: number): number =>
  buildingOracleCost(
    { levels: [site], risers: [] },
    { ...terminal, level: site.id },
    closet,
    pitch,
  );

/**
 * The same over several levels. A riser goes from any state in which a closet at its place would be reached on one
 * level to any such on the other, for the difference of the two elevations. A pin is passed by counting its points:
 * the state that passes the next one may be taken for passed.
 */
export function buildingOracleCost(
  { levels, risers }: Building,
  terminal: Terminal & { readonly level: string },
  closetId: string,
  pitch: number,
  pin: SitePin | null = null,
): number {
  const grids = levels.map((site) => new Grid(site, pitch));
  const indexOf = (id: string) => levels.findIndex((site) => site.id === id);
  const points = pin?.points ?? [];
  const goalLevel = levels.findIndex((site) => site.closets.some((c) => c.id === closetId));
  const closet = levels[goalLevel]!.closets.find((c) => c.id === closetId)!;
  const goals = new Map<number, number>();
  for (const [s, cost] of grids[goalLevel]!.entries(closet.at, closet.height, null, false)) {
    const state = global(s, goalLevel, points.length);
    goals.set(state, Math.min(cost, goals.get(state) ?? Infinity));
  }
  const lifts = new Map<string, [state: number, level: number, cost: number][]>();
  for (const { at, levels: ends } of risers)
    for (const [from, to] of [ends, [ends[1], ends[0]] as const]) {
      const [f, t] = [indexOf(from), indexOf(to)];
      for (const a of grids[f]!.berths(at))
        for (const b of grids[t]!.berths(at)) {
          const rise = Math.abs(a.z + levels[f]!.elevation - b.z - levels[t]!.elevation);
          const key = `${f} ${a.state}`;
          const list = lifts.get(key) ?? [];
          list.push([b.state, t, a.cost + b.cost + rise * 100]);
          lifts.set(key, list);
        }
    }
  const passes = points.map((at) => new Set(grids[indexOf(pin!.level)]!.passing(at)));
  const arcs = (state: number): [number, number][] => {
    const [s, level, passed] = local(state);
    const found = grids[level]!.arcs(s).map(([t, cost]): [number, number] => [
      global(t, level, passed),
      cost,
    ]);
    for (const [t, to, cost] of lifts.get(`${level} ${s}`) ?? [])
      found.push([global(t, to, passed), cost]);
    if (passed < points.length && level === indexOf(pin!.level) && passes[passed]!.has(s))
      found.push([global(s, level, passed + 1), 0]);
    return found;
  };
  const start = indexOf(terminal.level);
  const wall = levels[start]!.walls.find((w) => w.id === terminal.wall) ?? null;
  const from = grids[start]!.entries(
    terminal.at,
    terminal.height,
    wall,
    terminal.mount === 'floor',
  );
  return cheapest(
    from.map(([s, cost]) => [global(s, start, 0), cost]),
    goals,
    arcs,
  );
}

const LEVELS = 8;
const POINTS = 8;
/** One number for a state of a grid, its level, and how many points of a pin were passed. */
const global = (state: number, level: number, passed: number): number =>
  (state * LEVELS + level) * POINTS + passed;
const local = (state: number): [state: number, level: number, passed: number] => {
  const rest = Math.floor(state / POINTS);
  return [Math.floor(rest / LEVELS), rest % LEVELS, state % POINTS];
};

/** A state, its elevation, and what it costs to come to it from a place beside the rise. */
interface Berth {
  readonly state: number;
  readonly z: number;
  readonly cost: number;
}

interface Box {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

interface Cell {
  zone: SiteZone | null;
  z: number;
  kind: string;
  factor: number;
  barred: boolean;
  /** Walls with a price that hold the cell, and how many hold it in all. */
  walls: Set<number>;
  inWall: boolean;
}

interface WallBox extends Box {
  along: 'x' | 'y';
  price: number;
  barred: boolean;
  masonry: boolean;
  members: SiteWall[];
  key: string;
}

interface PathNode {
  path: number;
  segment: number;
  at: Point;
  /** Direction of its segment. */
  along: 'x' | 'y';
  z: number;
  joinable: boolean;
  /** A floor box stands there: only its outlet joins, and other pathways under the slab. */
  boxed: boolean;
  /** Along the segment: cells before it, after it, or (at a corner or an end) any. */
  side: -1 | 1 | 0;
}

const MARGIN = 4;

class Grid {
  readonly #site: Site;
  readonly #p: number;
  readonly #walls: WallBox[] = [];
  readonly #i0: number;
  readonly #j0: number;
  readonly #w: number;
  readonly #h: number;
  readonly #cells = new Map<number, Cell>();
  readonly #paths: PathNode[] = [];
  /** Arcs between pathway nodes. */
  readonly #links: [number, number][][] = [];
  readonly #at = new Map<string, number[]>();

  constructor(site: Site, pitch: number) {
    this.#site = site;
    this.#p = pitch;
    const all: Point[] = [
      ...site.walls.flatMap((w) => [w.a, w.b]),
      ...site.zones.flatMap((z) => z.outline),
      ...site.keepouts.flatMap((k) => k.outline),
      ...site.pathways.flatMap((q) => q.points),
      ...site.closets.map((c) => c.at),
    ];
    const xs = all.map((q) => q[0] / pitch);
    const ys = all.map((q) => q[1] / pitch);
    this.#i0 = Math.min(...xs, 0) - MARGIN;
    this.#j0 = Math.min(...ys, 0) - MARGIN;
    this.#w = Math.max(...xs, 30) + MARGIN - this.#i0 + 1;
    this.#h = Math.max(...ys, 30) + MARGIN - this.#j0 + 1;
    this.#mergeWalls();
    this.#layPaths();
  }

  #mergeWalls(): void {
    const boxes = this.#site.walls.map((wall): WallBox => {
      const t = wall.thickness / 2;
      const box = {
        x0: Math.min(wall.a[0], wall.b[0]) - t,
        y0: Math.min(wall.a[1], wall.b[1]) - t,
        x1: Math.max(wall.a[0], wall.b[0]) + t,
        y1: Math.max(wall.a[1], wall.b[1]) + t,
      };
      const along = wall.a[1] === wall.b[1] ? 'x' : 'y';
      const spot = wall.a[0] === wall.b[0] && wall.a[1] === wall.b[1];
      const work = this.#work(wall);
      const line = along === 'x' ? wall.a[1] : wall.a[0];
      const key = [along, spot, line, t, work.name, work.price].join();
      return {
        ...box,
        along,
        price: work.price,
        barred: work.barred,
        masonry: wall.construction === 'masonry',
        members: [wall],
        key,
      };
    });
    for (const box of boxes) {
      let one = box;
      for (let again = true; again; ) {
        again = false;
        for (const other of this.#walls) {
          if (other.key !== one.key) continue;
          if (other.x0 > one.x1 || other.x1 < one.x0 || other.y0 > one.y1 || other.y1 < one.y0)
            continue;
          this.#walls.splice(this.#walls.indexOf(other), 1);
          one = {
            ...other,
            x0: Math.min(one.x0, other.x0),
            y0: Math.min(one.y0, other.y0),
            x1: Math.max(one.x1, other.x1),
            y1: Math.max(one.y1, other.y1),
            members: [...other.members, ...one.members],
          };
          again = true;
          break;
        }
      }
      this.#walls.push(one);
    }
  }

  #work(wall: SiteWall): { name: string; price: number; barred: boolean } {
    const { prices } = this.#site;
    if (wall.exterior || wall.construction === 'insulated')
      return { name: `seal${wall.rated}`, price: 0, barred: true };
    if (wall.top === 'grid' && !wall.rated) return { name: 'none', price: 0, barred: false };
    const base = wall.construction === 'masonry' ? prices.masonry : prices.framed;
    return {
      name: `${wall.construction === 'masonry'}${wall.rated}`,
      price: base + (wall.rated ? prices.rated : 0),
      barred: false,
    };
  }

  /** The cell whose least corner is grid point (i, j). */
  #cell(i: number, j: number): Cell {
    const key = (j - this.#j0) * this.#w + (i - this.#i0);
    const known = this.#cells.get(key);
    if (known) return known;
    const x = (i + 0.5) * this.#p;
    const y = (j + 0.5) * this.#p;
    let zone: SiteZone | null = null;
    for (const z of this.#site.zones) if (windingHolds(z.outline, x, y)) zone = z;
    const over = zone ?? this.#site.ceiling;
    const { prices } = this.#site;
    const inBox = (b: Box) => x > b.x0 && x < b.x1 && y > b.y0 && y < b.y1;
    const holding = this.#walls.filter(inBox);
    const cell: Cell = {
      zone,
      z: over.elevation,
      kind: over.kind,
      factor: { tile: prices.tileFactor, open: prices.openFactor, hard: prices.hardFactor }[
        over.kind
      ],
      barred:
        holding.some((b) => b.barred) ||
        this.#site.keepouts.some((k) => nearOutline(k.outline, k.clearance, x, y)),
      walls: new Set(holding.filter((b) => b.price > 0).map((b) => this.#walls.indexOf(b))),
      inWall: holding.length > 0,
    };
    this.#cells.set(key, cell);
    return cell;
  }

  #layPaths(): void {
    this.#site.pathways.forEach((pathway, path) => {
      const anywhere = ['hook-line', 'tray', 'raceway'].includes(pathway.kind);
      const fixed = pathway.elevation ?? (pathway.kind === 'under-slab' ? -300 : null);
      const corners = pathway.points.filter(
        (q, k) =>
          k === 0 || q[0] !== pathway.points[k - 1]![0] || q[1] !== pathway.points[k - 1]![1],
      );
      const boxes = (pathway.kind === 'under-slab' && pathway.floorBoxes) || [false, false];
      let before: number | null = null;
      for (let s = 0; s + 1 < corners.length; s++) {
        const [a, b] = [corners[s]!, corners[s + 1]!];
        const along = a[1] === b[1] ? 'x' : 'y';
        const k = along === 'x' ? 0 : 1;
        const steps = Math.abs(b[k] - a[k]) / this.#p;
        const sign = Math.sign(b[k] - a[k]) as -1 | 1;
        let last: number | null = null;
        for (let n = 0; n <= steps; n++) {
          const at: Point =
            along === 'x' ? [a[0] + n * sign * this.#p, a[1]] : [a[0], a[1] + n * sign * this.#p];
          for (const half of [-1, 1] as const) {
            if ((n === 0 && half === -1) || (n === steps && half === 1)) continue;
            const end = n === 0 || n === steps;
            const z = fixed ?? this.#edgeZ(at, along, (half * sign) as -1 | 1);
            const joinable =
              anywhere || (n === 0 && s === 0) || (n === steps && s === corners.length - 2);
            const node: number =
              this.#paths.push({
                path,
                segment: s,
                at,
                along,
                z,
                joinable,
                boxed:
                  (n === 0 && s === 0 && boxes[0]) ||
                  (n === steps && s === corners.length - 2 && boxes[1]),
                side: end ? 0 : ((half * sign) as -1 | 1),
              }) - 1;
            this.#links.push([]);
            const list = this.#at.get(at.join()) ?? [];
            list.push(node);
            this.#at.set(at.join(), list);
            if (last !== null) {
              const step = Math.abs(z - this.#paths[last]!.z) * 100;
              const run = half === -1 ? this.#p * this.#site.prices.pathwayFactor : 0;
              this.#link(last, node, step + run);
            } else if (before !== null) {
              const was = this.#paths[before]!;
              const bend = was.along === along ? 0 : this.#site.prices.bend * 100;
              this.#link(before, node, Math.abs(z - was.z) * 100 + bend);
            }
            last = node;
          }
        }
        before = last;
      }
    });
    for (const list of this.#at.values())
      for (const a of list)
        for (const b of list) {
          const [p, q] = [this.#paths[a]!, this.#paths[b]!];
          if (a >= b || !p.joinable || !q.joinable) continue;
          if (p.path === q.path && p.segment === q.segment) continue;
          const slab = [p, q].every((n) => this.#site.pathways[n.path]!.kind === 'under-slab');
          if (!slab && (p.boxed || q.boxed)) continue;
          const bend = p.along === q.along ? 0 : this.#site.prices.bend * 100;
          this.#link(a, b, Math.abs(p.z - q.z) * 100 + bend);
        }
  }

  #link(a: number, b: number, cost: number): void {
    this.#links[a]!.push([b, cost]);
    this.#links[b]!.push([a, cost]);
  }

  /** Elevation beside the stretch of a pathway that starts at a grid point and goes up or down an axis. */
  #edgeZ(at: Point, along: 'x' | 'y', towards: -1 | 1): number {
    const i = at[0] / this.#p;
    const j = at[1] / this.#p;
    const back = towards < 0 ? -1 : 0;
    const cells =
      along === 'x'
        ? [this.#cell(i + back, j - 1), this.#cell(i + back, j)]
        : [this.#cell(i - 1, j + back), this.#cell(i, j + back)];
    return Math.min(...cells.map((c) => c.z));
  }

  /** State of a cable at grid point (i, j), in the cell to the side (sx, sy), travelling along x (0) or y (1). */
  #state(i: number, j: number, sx: number, sy: number, axis: number): number {
    const point = (j - this.#j0) * this.#w + (i - this.#i0);
    return ((point * 2 + sx) * 2 + sy) * 2 + axis;
  }

  #pathState(node: number): number {
    return this.#w * this.#h * 8 + node;
  }

  entries(
    at: Point,
    height: number,
    wall: SiteWall | null,
    floor: boolean,
  ): [state: number, cost: number][] {
    return this.berths(at, wall, floor).map(({ state, z, cost }) => [
      state,
      cost + Math.abs(z - height) * 100,
    ]);
  }

  /** Where a cable from a place comes to the plane or to a pathway, and what that costs beside the rise. */
  berths(at: Point, wall: SiteWall | null = null, floor = false): Berth[] {
    const found: Berth[] = [];
    this.#paths.forEach((node, n) => {
      if (!node.joinable || (node.boxed && !floor)) return;
      const pathway = this.#site.pathways[node.path]!;
      if (floor && pathway.kind !== 'under-slab') return;
      const off = Math.abs(node.at[0] - at[0]) + Math.abs(node.at[1] - at[1]);
      if (off > 100 || off > this.#nearest(node, at)) return;
      const cost = off * this.#site.prices.pathwayFactor;
      found.push({ state: this.#pathState(n), z: node.z, cost });
    });
    if (floor) return found;
    for (const { x, y, lead } of this.#starts(at, wall))
      for (const sx of [0, 1])
        for (const sy of [0, 1]) {
          const i = x / this.#p;
          const j = y / this.#p;
          const cell = this.#cell(i - 1 + sx, j - 1 + sy);
          if (cell.barred) continue;
          let cost = lead * cell.factor;
          for (const w of cell.walls) cost += this.#walls[w]!.price * 50;
          for (const axis of [0, 1])
            found.push({ state: this.#state(i, j, sx, sy, axis), z: cell.z, cost });
        }
    return found;
  }

  /** The states that pass a grid point: in the plane there, or on a stretch of pathway whose nearest place is near. */
  passing([x, y]: Point): number[] {
    const found: number[] = [];
    const [i, j] = [x / this.#p, y / this.#p];
    for (const sx of [0, 1])
      for (const sy of [0, 1])
        for (const axis of [0, 1])
          if (!this.#cell(i - 1 + sx, j - 1 + sy).barred)
            found.push(this.#state(i, j, sx, sy, axis));
    const off = ({ at }: PathNode) => Math.abs(at[0] - x) + Math.abs(at[1] - y);
    this.#paths.forEach((node, n) => {
      const piece = this.#paths.filter((o) => o.path === node.path && o.segment === node.segment);
      if (off(node) <= 100 && off(node) === Math.min(...piece.map(off)))
        found.push(this.#pathState(n));
    });
    return found;
  }

  /** How far a place is from the nearest place of a node's segment where it can be joined. */
  #nearest(node: PathNode, at: Point): number {
    let least = Infinity;
    for (const other of this.#paths)
      if (other.path === node.path && other.segment === node.segment && other.joinable) {
        const anywhere = ['hook-line', 'tray', 'raceway'].includes(
          this.#site.pathways[node.path]!.kind,
        );
        if (!anywhere && other !== node) continue;
        const off = Math.abs(other.at[0] - at[0]) + Math.abs(other.at[1] - at[1]);
        least = Math.min(least, off);
      }
    return least;
  }

  #starts(at: Point, wall: SiteWall | null): { x: number; y: number; lead: number }[] {
    const [x, y] = at;
    const within = (b: Box) => x > b.x0 && x < b.x1 && y > b.y0 && y < b.y1;
    const gap = (b: Box) => Math.max(b.x0 - x, 0, x - b.x1) + Math.max(b.y0 - y, 0, y - b.y1);
    const around = this.#walls.find((b) => (b.barred || b.price > 0) && within(b));
    const own = wall && this.#walls.find((b) => b.members.includes(wall));
    const box = own && gap(own) <= 300 ? own : around;
    const starts: { x: number; y: number; lead: number }[] = [];
    if (!around) starts.push({ x, y, lead: 0 });
    const nearest = (b: Box, face: Point | null) => {
      const q = face ?? [Math.min(Math.max(x, b.x0), b.x1), Math.min(Math.max(y, b.y0), b.y1)];
      return { x: q[0]!, y: q[1]!, lead: Math.abs(q[0]! - x) + Math.abs(q[1]! - y) };
    };
    if (box) {
      const cx = Math.min(Math.max(x, box.x0), box.x1);
      const cy = Math.min(Math.max(y, box.y0), box.y1);
      const square = box.members[0]!.a.join() === box.members[0]!.b.join();
      const faces = square
        ? [
            nearest(box, [cx, box.y0]),
            nearest(box, [cx, box.y1]),
            nearest(box, [box.x0, cy]),
            nearest(box, [box.x1, cy]),
          ]
        : box.along === 'x'
          ? [nearest(box, [cx, box.y0]), nearest(box, [cx, box.y1])]
          : [nearest(box, [box.x0, cy]), nearest(box, [box.x1, cy])];
      const least = Math.min(...faces.map((f) => f.lead));
      // The wall that it hangs on says whether a cable rises inside it; others may be of one box with it.
      const masonry = box === own ? wall!.construction === 'masonry' : box.masonry;
      const both = !masonry && !box.barred;
      starts.push(...faces.filter((f) => both || f.lead === least));
    } else if (this.#hardRound(at)) {
      const near = this.#walls
        .map((b) => nearest(b, null))
        .filter((f) => f.lead <= 300)
        .sort((a, b) => a.lead - b.lead);
      if (near[0]) starts.push(near[0]);
    }
    return starts;
  }

  #hardRound([x, y]: Point): boolean {
    const i = x / this.#p;
    const j = y / this.#p;
    for (const sx of [0, 1])
      for (const sy of [0, 1]) {
        const cell = this.#cell(i - 1 + sx, j - 1 + sy);
        if (cell.barred) continue;
        if (cell.kind !== 'hard' || cell.inWall) return false;
        if (this.#onFace(i, j, sx, sy, 0) || this.#onFace(i, j, sx, sy, 1)) return false;
      }
    return true;
  }

  /** Whether the edge from (i, j) towards (sx, sy) along an axis lies on a wall's face, seen from its cell outside. */
  #onFace(i: number, j: number, sx: number, sy: number, axis: number): boolean {
    const p = this.#p;
    const x = i * p;
    const y = j * p;
    return this.#walls.some((b) => {
      if (axis === 0) {
        const middle = (i - 0.5 + sx) * p;
        if (middle < b.x0 || middle > b.x1) return false;
        return sy === 0 ? y === b.y0 : y === b.y1;
      }
      const middle = (j - 0.5 + sy) * p;
      if (middle < b.y0 || middle > b.y1) return false;
      return sx === 0 ? x === b.x0 : x === b.x1;
    });
  }

  #cross(a: Cell, b: Cell): number | null {
    if (a.barred || b.barred) return null;
    let cost = Math.abs(a.z - b.z) * 100;
    for (const w of a.walls) if (!b.walls.has(w)) cost += this.#walls[w]!.price * 50;
    for (const w of b.walls) if (!a.walls.has(w)) cost += this.#walls[w]!.price * 50;
    return cost;
  }

  arcs(s: number): [number, number][] {
    const plane = this.#w * this.#h * 8;
    if (s >= plane) return this.#pathArcs(s - plane);
    const axis = s & 1;
    const sy = (s >> 1) & 1;
    const sx = (s >> 2) & 1;
    const point = s >> 3;
    const i = (point % this.#w) + this.#i0;
    const j = Math.floor(point / this.#w) + this.#j0;
    const cell = this.#cell(i - 1 + sx, j - 1 + sy);
    const arcs: [number, number][] = [
      [this.#state(i, j, sx, sy, 1 - axis), this.#site.prices.bend * 100],
    ];
    const [tx, ty] = axis === 0 ? [1 - sx, sy] : [sx, 1 - sy];
    const over = this.#cross(cell, this.#cell(i - 1 + tx, j - 1 + ty));
    if (over !== null) arcs.push([this.#state(i, j, tx, ty, axis), over]);
    const free = cell.kind !== 'hard' || cell.inWall || this.#onFace(i, j, sx, sy, axis);
    if (free) {
      const di = axis === 0 ? (sx ? 1 : -1) : 0;
      const dj = axis === 1 ? (sy ? 1 : -1) : 0;
      const inside =
        i + di > this.#i0 &&
        i + di < this.#i0 + this.#w - 1 &&
        j + dj > this.#j0 &&
        j + dj < this.#j0 + this.#h - 1;
      if (inside)
        arcs.push([
          this.#state(i + di, j + dj, axis === 0 ? 1 - sx : sx, axis === 1 ? 1 - sy : sy, axis),
          this.#p * cell.factor,
        ]);
    }
    for (const n of this.#at.get([i * this.#p, j * this.#p].join()) ?? []) {
      const join = this.#join(n, cell, sx, sy, axis);
      if (join !== null) arcs.push([this.#pathState(n), join]);
    }
    return arcs;
  }

  #join(n: number, cell: Cell, sx: number, sy: number, axis: number): number | null {
    const node = this.#paths[n]!;
    if (!node.joinable || node.boxed || cell.barred) return null;
    if (axis !== (node.along === 'x' ? 0 : 1)) return null;
    const along = node.along === 'x' ? sx : sy;
    if (node.side !== 0 && (along === 1) !== node.side > 0) return null;
    let wall = 0;
    for (const w of cell.walls) wall += this.#walls[w]!.price * 50;
    return Math.abs(node.z - cell.z) * 100 + wall;
  }

  #pathArcs(n: number): [number, number][] {
    const node = this.#paths[n]!;
    const arcs = this.#links[n]!.map(([m, c]): [number, number] => [this.#pathState(m), c]);
    const i = node.at[0] / this.#p;
    const j = node.at[1] / this.#p;
    const axis = node.along === 'x' ? 0 : 1;
    for (const sx of [0, 1])
      for (const sy of [0, 1]) {
        const join = this.#join(n, this.#cell(i - 1 + sx, j - 1 + sy), sx, sy, axis);
        if (join !== null) arcs.push([this.#state(i, j, sx, sy, axis), join]);
      }
    return arcs;
  }
}

/** Least cost from any entry to any goal, in equivalent mm; Infinity where there is no way. */
function cheapest(
  from: readonly [number, number][],
  goals: ReadonlyMap<number, number>,
  arcs: (state: number) => [number, number][],
): number {
  const cost = new Map<number, number>();
  const heap: [number, number][] = [];
  for (const [s, c] of from) {
    if (c >= (cost.get(s) ?? Infinity)) continue;
    cost.set(s, c);
    push(heap, [c, s]);
  }
  let best = Infinity;
  while (heap.length) {
    const [c, s] = pop(heap);
    if (c >= best) break;
    if (c > cost.get(s)!) continue;
    const goal = goals.get(s);
    if (goal !== undefined) best = Math.min(best, c + goal);
    for (const [t, w] of arcs(s)) {
      if (c + w >= (cost.get(t) ?? Infinity)) continue;
      cost.set(t, c + w);
      push(heap, [c + w, t]);
    }
  }
  return best / 100;
}

/** Even-odd by a ray towards less x. */
function windingHolds(outline: readonly Point[], x: number, y: number): boolean {
  let odd = false;
  for (let k = 0; k < outline.length; k++) {
    const [a, b] = [outline[k]!, outline[(k + 1) % outline.length]!];
    if (a[0] === b[0] && a[0] < x && Math.min(a[1], b[1]) < y && Math.max(a[1], b[1]) > y)
      odd = !odd;
  }
  return odd;
}

/** Inside an outline, or within the clearance of one of its edges along both axes. */
function nearOutline(outline: readonly Point[], clearance: number, x: number, y: number): boolean {
  if (windingHolds(outline, x, y)) return true;
  return outline.some((a, k) => {
    const b = outline[(k + 1) % outline.length]!;
    return (
      x > Math.min(a[0], b[0]) - clearance &&
      x < Math.max(a[0], b[0]) + clearance &&
      y > Math.min(a[1], b[1]) - clearance &&
      y < Math.max(a[1], b[1]) + clearance
    );
  });
}

function push(heap: [number, number][], item: [number, number]): void {
  let i = heap.push(item) - 1;
  while (i > 0) {
    const up = (i - 1) >> 1;
    if (heap[up]![0] <= item[0]) break;
    heap[i] = heap[up]!;
    i = up;
  }
  heap[i] = item;
}

function pop(heap: [number, number][]): [number, number] {
  const top = heap[0]!;
  const last = heap.pop()!;
  if (heap.length === 0) return top;
  let i = 0;
  for (;;) {
    let kid = 2 * i + 1;
    if (kid >= heap.length) break;
    if (kid + 1 < heap.length && heap[kid + 1]![0] < heap[kid]![0]) kid++;
    if (heap[kid]![0] >= last[0]) break;
    heap[i] = heap[kid]!;
    i = kid;
  }
  heap[i] = last;
  return top;
}
