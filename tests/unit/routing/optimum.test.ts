import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { prepare, prepareBuilding } from '../../../src/routing/index.ts';
import { buildingOracleCost, oracleCost } from './dense-oracle.ts';
import {
  buildingAndTerminal,
  PITCH,
  siteAndTerminal,
  sparseSiteAndTerminal,
} from './random-sites.ts';

const RUNS = Number(process.env.ROUTING_RUNS ?? 200);
const SEED = Number(process.env.ROUTING_SEED ?? 20_261_124);

describe('the optimum', () => {
  it('costs what a dense grid search finds on random axis-parallel sites', () => {
    let routed = 0;
    fc.assert(
      fc.property(siteAndTerminal, ({ site, terminal }) => {
        const route = prepare(site).route(terminal, 'C1');
        if (route.ok) routed++;
        expect(route.ok ? route.cost : Infinity).toBe(oracleCost(site, terminal, 'C1', PITCH));
      }),
      { numRuns: RUNS, seed: SEED },
    );
    expect(routed).toBeGreaterThan(RUNS / 2);
  }, 6_000_000);

  it('costs the same where an outlet and its closet can meet on the way with no crossing of lines between', () => {
    fc.assert(
      fc.property(sparseSiteAndTerminal, ({ site, terminal }) => {
        const route = prepare(site).route(terminal, 'C1');
        expect(route.ok ? route.cost : Infinity).toBe(oracleCost(site, terminal, 'C1', PITCH));
      }),
      { numRuns: RUNS, seed: SEED },
    );
  }, 6_000_000);

  it('costs the same over two levels with risers, and by the points of a pin', () => {
    const seen = { free: 0, pinned: 0 };
    fc.assert(
      fc.property(buildingAndTerminal, ({ building, terminal, pin }) => {
        const free = prepareBuilding(building).route(terminal, 'C1');
        const pinned = prepareBuilding(building, [pin]).route(terminal, 'C1', pin);
        if (free.ok) seen.free++;
        if (pinned.ok) seen.pinned++;
        const oracle = (by: typeof pin | null) =>
          buildingOracleCost(building, terminal, 'C1', PITCH, by);
        expect(free.ok ? free.cost : Infinity).toBe(oracle(null));
        expect(pinned.ok ? pinned.cost : Infinity).toBe(oracle(pin));
      }),
      { numRuns: Math.ceil(RUNS / 4), seed: SEED },
    );
    expect(seen.free).toBeGreaterThan(RUNS / 10);
    expect(seen.pinned).toBeGreaterThan(RUNS / 20);
  }, 6_000_000);
});
