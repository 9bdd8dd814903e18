import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { prepare } from '../../../src/routing/index.ts';
import { oracleCost } from './dense-oracle.ts';
import { PITCH, siteAndTerminal } from './random-sites.ts';

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
  }, 600_000);
});
