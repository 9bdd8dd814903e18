import { BEND, type Network } from '../../src/routing/field.ts';
import { UNITS } from '../../src/routing/medium.ts';
import { networkFrom } from '../../src/routing/rows.ts';
import { dice } from './dice.ts';

/** A generated network, and a source in its middle. */
export interface Instance {
  readonly name: string;
  readonly nodes: number;
  readonly net: Network;
  readonly source: number;
  /** Where each node is. */
  readonly x: Int32Array;
  readonly y: Int32Array;
}

/** Price of a bend in the layered instances. */
const BEND_PRICE = 800 * UNITS;

/** Of its length costs what lies in a tray. */
export const TRAY = 0.6;

/** A square grid of lines at uneven distances, with what lies on it. */
interface Grid {
  readonly side: number;
  readonly x: Int32Array;
  readonly y: Int32Array;
  /** Number of each place of the grid among the nodes, row by row; -1 inside an obstacle. */
  readonly node: Int32Array;
  readonly nodes: number;
  /** Price of passing from each place to the next one along x, and along y. */
  readonly walls: readonly [Int32Array, Int32Array];
  /** Rows that are trays. */
  readonly tray: Uint8Array;
}

/**
 * An irregular orthogonal grid of about so many nodes: lines 150 to 1,350 mm apart, 7 % of the places inside
 * rectangular obstacles, walls that cost 500 to 2,000 mm to pass, a tray in every twentieth row, whole millimetres.
 *
 * Plain, each node is one state. Layered, it has one for each axis and turning costs a bend, as in the engine's own
 * networks.
 */
export function gridInstance(about: number, layered: boolean, seed = 1): Instance {
  const grid = gridOf(Math.round(Math.sqrt(about / 0.93)), dice(seed));
  const middle = Math.floor(grid.side / 2) * (grid.side + 1);
  let at = middle;
  while (grid.node[at]! < 0) at++;
  const net = layered ? layeredNetwork(grid) : plainNetwork(grid);
  const name = `${layered ? 'two layers' : 'plain'}, ${grid.nodes.toLocaleString('en')} nodes`;
  const source = grid.node[at]! * (layered ? 2 : 1);
  return { name, nodes: grid.nodes, net, source, ...placesOf(grid) };
}

function gridOf(side: number, random: () => number): Grid {
  const places = side * side;
  const coordinates = (): Int32Array => {
    const at = new Int32Array(side);
    for (let i = 1; i < side; i++) at[i] = at[i - 1]! + 150 + Math.floor(1201 * random());
    return at;
  };
  const node = new Int32Array(places);
  const longest = Math.max(3, Math.floor(side / 20));
  for (let removed = 0; removed < 0.07 * places; ) {
    const [w, h] = [2 + Math.floor(longest * random()), 2 + Math.floor(longest * random())];
    const [x, y] = [Math.floor((side - w) * random()), Math.floor((side - h) * random())];
    for (let j = y; j < y + h; j++)
      for (let i = x; i < x + w; i++) {
        if (node[j * side + i] === 0) removed++;
        node[j * side + i] = -1;
      }
  }
  let nodes = 0;
  for (let p = 0; p < places; p++) if (node[p] === 0) node[p] = nodes++;
  const walls = [new Int32Array(places), new Int32Array(places)] as const;
  for (let k = 0; k < 4 * side; k++) {
    const price = 500 + Math.floor(1501 * random());
    const axis = k & 1;
    const length = 4 + Math.floor(12 * random());
    const [x, y] = [Math.floor(side * random()), Math.floor(side * random())];
    for (let i = 0; i < length; i++) {
      const [u, v] = axis === 0 ? [x, y + i] : [x + i, y];
      if (u < side && v < side) walls[axis]![v * side + u]! += price;
    }
  }
  const tray = new Uint8Array(side);
  for (let j = 10; j < side; j += 20) tray[j] = 1;
  return { side, x: coordinates(), y: coordinates(), node, nodes, walls, tray };
}

function placesOf({ side, node, nodes, x, y }: Grid): Pick<Instance, 'x' | 'y'> {
  const places = { x: new Int32Array(nodes), y: new Int32Array(nodes) };
  for (let p = 0; p < side * side; p++) {
    if (node[p]! < 0) continue;
    places.x[node[p]!] = x[p % side]!;
    places.y[node[p]!] = y[Math.floor(p / side)]!;
  }
  return places;
}

/** Calls back for both ways of each passage, in order of the places. */
function eachPassage(
  grid: Grid,
  passage: (axis: 0 | 1, a: number, b: number, cost: number, length: number) => void,
): void {
  const { side, node, walls } = grid;
  for (let p = 0; p < side * side; p++) {
    const [i, j] = [p % side, Math.floor(p / side)];
    const a = node[p]!;
    if (a < 0) continue;
    if (i + 1 < side && node[p + 1]! >= 0) {
      const length = grid.x[i + 1]! - grid.x[i]!;
      const mm = grid.tray[j] ? Math.ceil(TRAY * length) : length;
      passage(0, a, node[p + 1]!, UNITS * (mm + walls[0][p]!), length);
    }
    if (j + 1 < side && node[p + side]! >= 0) {
      const length = grid.y[j + 1]! - grid.y[j]!;
      passage(1, a, node[p + side]!, UNITS * (length + walls[1][p]!), length);
    }
  }
}

function plainNetwork(grid: Grid): Network {
  return networkFrom(grid.nodes, (arc) => {
    eachPassage(grid, (_axis, a, b, cost, length) => {
      arc(a, b, cost, 2 * length);
      arc(b, a, cost, 2 * length);
    });
  });
}

function layeredNetwork(grid: Grid): Network {
  return networkFrom(2 * grid.nodes, (arc) => {
    eachPassage(grid, (axis, a, b, cost, length) => {
      arc(2 * a + axis, 2 * b + axis, cost, 2 * length);
      arc(2 * b + axis, 2 * a + axis, cost, 2 * length);
    });
    for (let n = 0; n < grid.nodes; n++) {
      arc(2 * n, 2 * n + 1, BEND_PRICE, BEND);
      arc(2 * n + 1, 2 * n, BEND_PRICE, BEND);
    }
  });
}
