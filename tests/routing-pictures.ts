import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildGraph } from '../src/routing/graph.ts';
import {
  type Network,
  prepare,
  prepareBuilding,
  type Route,
  type Site,
  type Terminal,
} from '../src/routing/index.ts';
import { POLE, PRICES, room, wall } from './unit/routing/sites.ts';
import { metres, picture } from './unit/routing/svg.ts';

/** Draws the pictures of the page about routing from what the router answers: `tsx tests/routing-pictures.ts`. */
const folder = fileURLToPath(new URL('../docs/pictures', import.meta.url));

const box = (x0: number, y0: number, x1: number, y1: number) =>
  [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ] as const;

const tray = {
  id: 'P1',
  kind: 'tray',
  points: [
    [1000, 8500],
    [10_000, 8500],
  ],
  elevation: null,
} as const;
const inner = (end: number) => wall('W1', { a: [6000, 0], b: [6000, end] });
const high = { kind: 'tile', elevation: 3350, height: 3200 } as const;

/** The sites of the worked numbers on one level, by the names of their pictures. */
const WORKED: Readonly<Record<string, readonly [title: string, site: Site]>> = {
  'routing-1': ['Up, across, down', room()],
  'routing-2': [
    'Round a keep-out',
    room({ keepouts: [{ id: 'K1', outline: box(4000, 0, 6000, 8500), clearance: 0 }] }),
  ],
  'routing-3': [
    'A step between two ceilings',
    room({ zones: [{ id: 'Z1', outline: box(6000, 0, 12_000, 9000), ...high }] }),
  ],
  'routing-4': ['By a tray', room({ pathways: [tray] })],
  'routing-4-dear': [
    'Past a tray that is no cheaper',
    room({ pathways: [tray], prices: { ...PRICES, pathwayFactor: 100 } }),
  ],
  'routing-5': ['Through a wall', room({ walls: [inner(8600)] })],
  'routing-5-round': ['Round the end of a wall', room({ walls: [inner(8200)] })],
};

/** The path and the cost of a route as sums, as they stand under its picture. */
function sumsOf({ segments, path, cost, bends, crossings }: Route): string[] {
  const lengths = segments.map(({ kind, length }) => `${kind} ${metres(length)}`);
  const counted = segments.map(({ length, factor }) =>
    factor === 100 ? metres(length) : `${metres(length)} × ${(factor / 100).toFixed(2)}`,
  );
  const { bend } = PRICES;
  if (bends > 0) counted.push(`${bends} × ${metres(bend)} for bends`);
  for (const { price, work } of crossings)
    if (price > 0) counted.push(`${metres(price)} for a ${work}`);
  return [
    `path ${metres(path)} = ${lengths.join(' + ')}`,
    `cost ${metres(cost)} = ${counted.join(' + ')}`,
  ];
}

function routed(network: Network, terminal: Parameters<Network['route']>[0]): Route {
  const route = network.route(terminal, 'C1');
  if (!route.ok) throw new Error(`no way: ${route.reason}`);
  return route;
}

function worked(): [string, string][] {
  return Object.entries(WORKED).map(([name, [title, site]]) => {
    const route = routed(prepare(site), POLE);
    return [name, picture(title, [{ site, terminal: POLE, route }], sumsOf(route))];
  });
}

function levels(): string {
  const riser = { id: 'R1', levels: ['L1', 'L2'], at: [3000, 8000] } as const;
  const below = room({ closets: [] });
  const above = { ...room(), id: 'L2', elevation: 3600 };
  const network = prepareBuilding({ levels: [below, above], risers: [riser] });
  const route = routed(network, { ...POLE, level: 'L1' });
  const risers = [riser.at];
  return picture(
    'Over two levels',
    [
      { site: below, name: 'below', terminal: POLE, route, risers, scale: 30 },
      { site: above, name: 'above', route, risers, scale: 30 },
    ],
    sumsOf(route),
  );
}

/** A small network: one keep-out, one framed wall, one closet; the outlet is looked up and has no lines of its own. */
function network(): string {
  const site = {
    ...room(),
    zones: [{ id: 'Z1', outline: box(3600, -1000, 7000, 5000), ...high }],
    walls: [wall('W1', { a: [4500, 400], b: [4500, 1800], thickness: 200 })],
    keepouts: [{ id: 'K1', outline: box(1500, 1400, 2800, 2600), clearance: 0 }],
    closets: [{ id: 'C1', at: [700, 3300], height: 1500 }],
  } as const;
  const terminal = { ...POLE, at: [5300, 800] } as const;
  const route = routed(prepare(site), terminal);
  const graph = buildGraph(site);
  return picture(
    'Lines and nodes of a small network',
    [{ site, terminal, route, graph, window: [0, 0, 6000, 4000], scale: 90, rays: true }],
    ['dashed: the rays from the outlet', ...sumsOf(route)],
  );
}

interface Strange {
  readonly site: Site;
  readonly terminal: Terminal;
}

function strange(): string {
  const file = new URL('./fixtures/routing/out-of-the-same-face.json', import.meta.url);
  const { site, terminal } = JSON.parse(readFileSync(file, 'utf8')) as Strange;
  const route = routed(prepare(site), terminal);
  return picture('Out of the same face', [{ site, terminal, route, scale: 75 }], sumsOf(route));
}

/** Every picture of the page by the name of its file. */
export const routingPictures = (): ReadonlyMap<string, string> =>
  new Map(
    [
      ...worked(),
      ['routing-6', levels()] as const,
      ['routing-network', network()] as const,
      ['routing-strange', strange()] as const,
    ].map(([name, svg]) => [`${name}.svg`, svg]),
  );

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  mkdirSync(folder, { recursive: true });
  for (const [name, svg] of routingPictures()) writeFileSync(join(folder, name), svg);
}
