import { expect, test } from 'vitest';
import { parseLength } from '../../../src/base/units.ts';
import { dearest, runWhy } from '../../../src/desk/card/run-why.ts';
import { homeRuns } from '../../../src/routing/index.ts';
import { officePlan } from '../../bench/office.ts';
import { smallSite } from './site.ts';

test('a run says of each stretch its length, factor and elevation, then its bends, and what all weighs', () => {
  const { plan } = smallSite();
  const run = homeRuns(plan).runs.find((r) => r.label === 'A1')!;
  const why = runWhy(plan, run, 'm');
  const across = why.lines.find((line) => line.label === 'across Kitchen')!;
  expect(across.detail).toMatch(/^\d+\.\d\d m × 1, at \d\.\d\d m$/);
  expect(why.lines.find((line) => line.label.includes('bend'))!.detail).toBe('0.10 m each');
  expect(why.pin).toBeNull();
  expect(why.path).toBe(`${(run.path / 1000).toFixed(2)} m`);
});

test('the lines as they are shown add up to the cost as it is shown, in feet and in metres', () => {
  const plan = officePlan({ walls: 60, jacks: 30 });
  for (const run of homeRuns(plan).runs)
    for (const units of ['ft', 'm'] as const) {
      const why = runWhy(plan, run, units);
      const sum = why.lines.reduce((total, line) => total + parseLength(line.shown, units)!, 0);
      expect(sum).toBeCloseTo(parseLength(why.cost, units)!, 3);
    }
});

test('the dearest lines keep their order, and the rest is one line, so that nothing is lost', () => {
  const lines = [5, 0, 900, 20, 700, 30].map((cost, i) => ({
    label: `line ${i}`,
    detail: '',
    cost: cost * 10,
    shown: '',
  }));
  const few = dearest(lines, 3, 'm');
  expect(few.map(({ label, cost }) => [label, cost])).toEqual([
    ['line 2', 9000],
    ['line 4', 7000],
    ['and 3 more', 550],
  ]);
  expect(dearest(lines, 5, 'm')).toHaveLength(5);
});
