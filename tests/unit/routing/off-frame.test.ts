import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import {
  prepare,
  type Site,
  type SitePathway,
  type SiteWall,
  type Terminal,
} from '../../../src/routing/index.ts';
import { PRICES } from './sites.ts';

/** Closets in a raster: each draws lines through its place, so that the network gets as dense as the raster. */
const RASTER = 100;
const SIZE = 3000;

const place: fc.Arbitrary<Point> = fc.tuple(
  fc.integer({ min: 0, max: SIZE }),
  fc.integer({ min: 0, max: SIZE }),
);

const walls = fc
  .array(
    fc.record({
      a: place,
      b: place,
      thickness: fc.constantFrom(100, 124, 200),
      construction: fc.constantFrom('framed' as const, 'masonry' as const, 'insulated' as const),
      top: fc.constantFrom('grid' as const, 'deck' as const),
      rated: fc.boolean(),
      exterior: fc.constant(false),
    }),
    { minLength: 1, maxLength: 3 },
  )
  .map((list) => list.map((w, i): SiteWall => ({ ...w, id: `W${i}` })));

const pathways = fc
  .array(
    fc.record({
      points: fc.array(place, { minLength: 2, maxLength: 3 }),
      kind: fc.constantFrom('tray' as const, 'hook-line' as const, 'conduit' as const),
      elevation: fc.constantFrom(null, 2700),
    }),
    { maxLength: 2 },
  )
  .map((list) => list.map((p, i): SitePathway => ({ ...p, id: `P${i}` })));

const task = fc.record({ walls, pathways, closet: place, at: place }).map((t) => {
  const site: Site = {
    id: 'L1',
    elevation: 0,
    frameAngle: 0,
    ceiling: { kind: 'tile', elevation: 2850, height: 2700 },
    zones: [],
    keepouts: [],
    prices: PRICES,
    walls: t.walls,
    pathways: t.pathways,
    closets: [{ id: 'C1', at: t.closet, height: 1500 }],
  };
  const terminal: Terminal = { at: t.at, height: 450, mount: 'pole', wall: null };
  return { site, terminal };
});

/** Stated bound: with slanted walls and pathways a route costs at most this much more than on a dense network. */
const BOUND = 1;
const RUNS = Number(process.env.ROUTING_RUNS ?? 60);
const SEED = Number(process.env.ROUTING_SEED ?? 21);

describe('off the frame', () => {
  it('a route costs hardly more than on a network made dense by a raster of lines', () => {
    let worst = 0;
    fc.assert(
      fc.property(task, ({ site, terminal }) => {
        const points = Array.from(
          { length: SIZE / RASTER + 1 },
          (_, i): Point => [i * RASTER, i * RASTER],
        );
        const plain = prepare(site).route(terminal, 'C1');
        const dense = prepare(site, [{ level: site.id, points }]);
        const fine = dense.route(terminal, 'C1');
        if (!plain.ok || !fine.ok) {
          expect(plain.ok).toBe(fine.ok);
          return;
        }
        worst = Math.max(worst, plain.cost - fine.cost);
        expect(fine.cost).toBeLessThanOrEqual(plain.cost + 1);
        expect(plain.cost - fine.cost).toBeLessThanOrEqual(BOUND);
      }),
      { numRuns: RUNS, seed: SEED },
    );
    if (process.env.ROUTING_RUNS) process.stdout.write(`worst ${worst}\n`);
  }, 600_000);

  it('a ray joins the face of a slanted wall between two of its stops', () => {
    const grid = { thickness: 100, construction: 'framed', top: 'grid', rated: false } as const;
    const site: Site = {
      id: 'L1',
      elevation: 0,
      frameAngle: 0,
      ceiling: { kind: 'tile', elevation: 2850, height: 2700 },
      zones: [],
      keepouts: [],
      prices: PRICES,
      walls: [
        { ...grid, id: 'W1', a: [1595, 87], b: [737, 2739], thickness: 124, exterior: false },
        { ...grid, id: 'W2', a: [0, 1785], b: [2210, 1270], exterior: false },
      ],
      pathways: [
        {
          id: 'P1',
          kind: 'tray',
          elevation: null,
          points: [
            [12, 0],
            [1084, 1427],
          ],
        },
        {
          id: 'P2',
          kind: 'conduit',
          elevation: 2700,
          points: [
            [2140, 341],
            [1013, 1064],
          ],
        },
      ],
      closets: [{ id: 'C1', at: [2270, 0], height: 1500 }],
    };
    const outlet: Terminal = { at: [0, 1418], height: 450, mount: 'pole', wall: null };
    const route = prepare(site).route(outlet, 'C1');
    // Up, to the face, along it, round to the closet and down, with three bends; by the conduit it is 5 mm dearer.
    const along = Math.hypot(1555 - 1099, 1418 - 9);
    expect(route.ok && route.pathways).toEqual([]);
    expect(route.ok && route.cost).toBeCloseTo(2400 + 1099 + along + 715 + 9 + 1350 + 300, 0);
  });

  it('lengths, walls passed and bends add up to the cost, to a millimetre for each stretch', () => {
    fc.assert(
      fc.property(task, ({ site, terminal }) => {
        const route = prepare(site).route(terminal, 'C1');
        if (!route.ok) return;
        let sum = route.bends * PRICES.bend;
        for (const s of route.segments)
          sum += s.kind === 'across' && s.pathway !== null ? s.length * 0.8 : s.length;
        for (const c of route.crossings) sum += c.price;
        expect(Math.abs(route.cost - sum)).toBeLessThanOrEqual(route.segments.length);
      }),
      { numRuns: 3 * RUNS, seed: SEED },
    );
  }, 600_000);
});
