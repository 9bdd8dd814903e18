import fc from 'fast-check';
import { expect, test } from 'vitest';
import { costLines } from '../../../src/results/run-cost.ts';
import type { Run } from '../../../src/results/types.ts';
import { prepare, type Route, type Site } from '../../../src/routing/index.ts';
import { siteAndTerminal } from '../routing/random-sites.ts';
import { across, crossing, makeRun, noWay } from '../takeoff/make-run.ts';

/** A route as a run, as far as its cost goes. */
function runOf(site: Site, route: Route): Run {
  const { cost, bends, path, segments, crossings } = route;
  const construction = (id: string) => site.walls.find((wall) => wall.id === id)!.construction;
  return makeRun({
    label: 'A1',
    cost,
    bends,
    path,
    segments,
    crossings: crossings.map((c) => ({ ...c, construction: construction(c.wall) })),
  });
}

test('the lines of a run add up to what the search weighed, and its ways to its path, with nothing over', () => {
  let routed = 0;
  fc.assert(
    fc.property(siteAndTerminal, ({ site, terminal }) => {
      const route = prepare(site).route(terminal, 'C1');
      if (!route.ok) return;
      routed++;
      const lines = costLines(runOf(site, route), site.prices.bend);
      const sum = lines.reduce((total, { cost }) => total + Math.round(cost * 100), 0);
      expect(sum).toBe(Math.round(route.cost * 100));
      expect(lines.some((line) => line.of === 'rounding')).toBe(false);
      const ways = lines.flatMap((line) => (line.of === 'way' ? [line.length] : []));
      expect(ways.reduce((total, length) => total + length, 0)).toBe(route.path);
    }),
    { numRuns: 120, seed: 2611 },
  );
  expect(routed).toBeGreaterThan(60);
});

test('neighbours alike are one line; another factor or elevation begins a new one', () => {
  const one = { ...across([0, 0, 2850], [1000, 0, 2850], 'tile'), factor: 120 };
  const two = { ...across([1000, 0, 2850], [1000, 500, 2850], 'tile'), factor: 120 };
  const lower = { ...across([1000, 500, 2600], [1000, 900, 2600], 'tile'), factor: 120 };
  const run = makeRun({
    label: 'A1',
    cost: 1900 * 1.2 + 1000 + 200,
    bends: 2,
    segments: [one, two, lower],
    crossings: [crossing()],
  });
  expect(costLines(run, 100).map((line) => [line.of, line.cost])).toEqual([
    ['way', 1800],
    ['way', 480],
    ['crossing', 1000],
    ['bends', 200],
  ]);
});

test('what rounding off the building lines makes is a line of its own, and a run without a way has none', () => {
  const run = makeRun({
    label: 'A1',
    cost: 1000.6,
    segments: [across([0, 0, 2850], [1000, 0, 2850], 'tile')],
  });
  expect(costLines(run, 100).at(-1)).toEqual({ of: 'rounding', cost: 0.6 });
  expect(costLines(noWay({ label: 'A1' }), 100)).toEqual([]);
});
