import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  prepare,
  prepareBuilding,
  type Route,
  type Site,
  type SitePrices,
  type SiteZone,
  type Terminal,
} from '../../../src/routing/index.ts';
import { buildingAndTerminal, siteAndTerminal } from './random-sites.ts';
import { PRICES, wall } from './sites.ts';

// What is listed beside a route adds up to its cost: lengths by their factors, walls and bends.

/** Random plans: of each of these seeds the last one once did not add up. */
const RUNS = process.env.ROUTING_RUNS;
const SITES = RUNS
  ? [[Number(process.env.ROUTING_SEED ?? 1), Number(RUNS)]]
  : [
      [5, 290],
      [6, 430],
    ];
const BUILDINGS = RUNS ? Math.ceil(Number(RUNS) / 4) : 120;

/** The sum of what is listed, in hundredths of an equivalent mm; the cost itself is whole in half of these. */
function listed({ segments, crossings, bends }: Route, { bend }: SitePrices): number {
  const ways = segments.reduce((sum, { length, factor }) => sum + length * factor, 0);
  const walls = crossings.reduce((sum, { price }) => sum + price * 100, 0);
  return ways + walls + bends * bend * 100;
}

function expectToAddUp(route: Route, prices: SitePrices): void {
  expect(listed(route, prices)).toBe(route.cost * 100);
  for (const { kind, length, ceiling, pathway, factor } of route.segments) {
    const { tileFactor, openFactor, hardFactor, pathwayFactor } = prices;
    const over = { tile: tileFactor, open: openFactor, hard: hardFactor }[ceiling ?? 'tile'];
    expect(factor).toBe(kind !== 'across' ? 100 : pathway !== null ? pathwayFactor : over);
    expect(length).toBeGreaterThan(0);
  }
}

function routed(site: Site, terminal: Terminal): Route {
  const route = prepare(site).route(terminal, 'C1');
  if (!route.ok) throw new Error(`no way: ${route.reason}`);
  return route;
}

/** The same site with a price for every wall, and one so low that walls are gone through. */
const walled = (site: Site): Site => ({
  ...site,
  prices: { ...site.prices, framed: 60, masonry: 100, rated: 40 },
  walls: site.walls.map((w) => ({
    ...w,
    construction: w.construction === 'insulated' ? 'framed' : w.construction,
    top: 'deck',
    exterior: false,
  })),
});

describe('what is listed beside a route adds up to its cost', () => {
  it.each(SITES)(
    'on random sites of seed %i',
    (seed, numRuns) => {
      let priced = 0;
      fc.assert(
        fc.property(siteAndTerminal, ({ site, terminal }) => {
          for (const of of [site, walled(site)]) {
            const route = prepare(of).route(terminal, 'C1');
            if (!route.ok) continue;
            expectToAddUp(route, of.prices);
            if (route.crossings.some(({ price }) => price > 0)) priced++;
          }
        }),
        { numRuns: numRuns!, seed: seed! },
      );
      expect(priced).toBeGreaterThan(numRuns! / 10);
    },
    600_000,
  );

  it('over two levels with risers, and by the points of a pin', () => {
    let [free, pinned] = [0, 0];
    fc.assert(
      fc.property(buildingAndTerminal, ({ building, terminal, pin }) => {
        const { prices } = building.levels[0]!;
        const levels = building.levels.map((level) => ({ ...level, prices }));
        const alike = { ...building, levels };
        const one = prepareBuilding(alike).route(terminal, 'C1');
        const two = prepareBuilding(alike, [pin]).route(terminal, 'C1', pin);
        if (one.ok) expectToAddUp(one, prices);
        if (two.ok) expectToAddUp(two, prices);
        if (one.ok) free++;
        if (two.ok) pinned++;
      }),
      { numRuns: BUILDINGS, seed: 3 },
    );
    expect(free).toBeGreaterThan(BUILDINGS / 3);
    expect(pinned).toBeGreaterThan(BUILDINGS / 6);
  }, 600_000);
});

const site = (extra: Partial<Site>): Site => ({
  id: 'L1',
  elevation: 0,
  frameAngle: 0,
  ceiling: { kind: 'tile', elevation: 2800, height: 2650 },
  zones: [],
  walls: [],
  keepouts: [],
  pathways: [],
  closets: [{ id: 'C1', at: [1000, 1000], height: 1500 }],
  prices: PRICES,
  ...extra,
});

const box = (x0: number, y0: number, x1: number, y1: number): [number, number][] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

const zone = (id: string, fields: Pick<SiteZone, 'kind' | 'elevation' | 'outline'>): SiteZone => ({
  id,
  height: fields.elevation - 150,
  ...fields,
});

/** What was priced: wall, price, place. */
const priced = ({ crossings }: Route) => crossings.map((c) => [c.wall, c.price, c.at]);

describe('on a border', () => {
  it('a wall that is gone into no farther than its face is paid like any other', () => {
    const file = new URL('../../fixtures/routing/out-of-the-same-face.json', import.meta.url);
    const { site: kitchen, terminal } = JSON.parse(readFileSync(file, 'utf8'));
    const [hood] = kitchen.keepouts;
    const outline = hood.outline.map(([x, y]: number[]) => [x, Math.min(y!, 2900)]);
    const route = routed({ ...kitchen, keepouts: [{ ...hood, outline }] }, terminal);
    expect(route).toMatchObject({ cost: 12450, path: 11250, bends: 2 });
    expect(priced(route)).toEqual([['W1', 1000, [3000, 3000, 2850]]]);
  });

  it('the corner at which two walls touch is a wall with its whole price', () => {
    const thick = { thickness: 400 } as const;
    const walls = [
      wall('W0', { a: [1700, 0], b: [1700, 1100], ...thick }),
      wall('W3', { a: [2100, 1100], b: [2100, 1200], ...thick }),
    ];
    const closets = [{ id: 'C1', at: [1600, 1200], height: 1500 }] as const;
    const outlet = { at: [1900, 1200], height: 300, mount: 'wall', wall: 'W3' } as const;
    const route = routed(site({ walls, closets }), outlet);
    expect(route.cost).toBe(2500 + 300 + 1300 + 1000);
    expect(priced(route)).toEqual([['W0', 1000, [1900, 1200, 2800]]]);
  });

  it('of two ceilings the way out of a wall counts as under the one that the cost holds', () => {
    const zones = [
      zone('Z1', { kind: 'hard', elevation: 3300, outline: box(1000, 2200, 1500, 2600) }),
    ];
    const walls = [
      wall('W1', { a: [1300, 2200], b: [1300, 3000], thickness: 400, construction: 'insulated' }),
    ];
    const closets = [{ id: 'C1', at: [1100, 2200], height: 1500 }] as const;
    const outlet = { at: [1300, 2600], height: 300, mount: 'wall', wall: 'W1' } as const;
    const route = routed(site({ zones, walls, closets, prices: { ...PRICES, bend: 700 } }), outlet);
    expect(route.cost).toBe(2500 + 200 + 500 + 400 * 1.5 + 1800);
    expect(route.segments.map((s) => [s.kind, s.length, s.factor])).toEqual([
      ['up', 2500, 100],
      ['across', 200, 100],
      ['step', 500, 100],
      ['across', 400, 150],
      ['down', 1800, 100],
    ]);
  });

  it('a corner at which ceilings of other heights meet is passed by a step down and a step up', () => {
    const zones = [
      zone('Z0', { kind: 'tile', elevation: 3300, outline: box(1700, 500, 2900, 1600) }),
      zone('Z1', { kind: 'hard', elevation: 2800, outline: box(1000, 1600, 1700, 2600) }),
    ];
    const ceiling = { kind: 'open', elevation: 2900, height: 2750 } as const;
    const closets = [{ id: 'C1', at: [1100, 600], height: 1500 }] as const;
    const outlet = { at: [2000, 1800], height: 3300, mount: 'pole', wall: null } as const;
    const route = routed(site({ zones, ceiling, closets }), outlet);
    const steps = route.segments.filter((s) => s.kind === 'step');
    expect(steps.map((s) => [s.from, s.to])).toEqual([
      [
        [1700, 1600, 2900],
        [1700, 1600, 2800],
      ],
      [
        [1700, 1600, 2800],
        [1700, 1600, 2900],
      ],
    ]);
    expect(route.path).toBe(400 + 2100 + 200 + 1400);
    expect(route.cost).toBe(400 + 2100 * 1.2 + 200 + 1400 + 3 * PRICES.bend);
  });
});
