import { describe, expect, it } from 'vitest';
import { riserLength, risersOf, runsByRiser } from '../../../src/results/risers.ts';
import { across, makeRun, riser } from '../takeoff/make-run.ts';

describe('the risers of runs', () => {
  const twice = makeRun({
    label: 'A1',
    segments: [
      across([0, 0, 2900], [5000, 0, 2900], 'tile'),
      riser('R1', [5000, 0, 2900], [5000, 0, 6500]),
      riser('R2', [5000, 0, 6500], [5000, 0, 10_000], 'L2'),
      riser('R1', [5000, 0, 6500], [5000, 0, 2900], 'L2'),
    ],
  });
  const once = makeRun({ label: 'A2', segments: [riser('R1', [5000, 0, 2900], [5000, 0, 6500])] });
  const flat = makeRun({
    label: 'A3',
    segments: [across([0, 0, 2900], [5000, 0, 2900], 'tile')],
  });

  it('are each counted once for a run, in the order of the runs, and not where none goes', () => {
    const through = [...runsByRiser([once, twice, flat])].map(([id, runs]) => [
      id,
      runs.map((run) => run.label),
    ]);
    expect(through).toEqual([
      ['R1', ['A2', 'A1']],
      ['R2', ['A1']],
    ]);
    expect(risersOf(twice)).toEqual(['R1', 'R2']);
    expect(risersOf(flat)).toEqual([]);
  });

  it('are as long as all their stretches, to the millimetre', () => {
    expect(riserLength(twice)).toBe(3600 + 3500 + 3600);
    expect(riserLength(flat)).toBe(0);
  });
});
