import { describe, expect, it } from 'vitest';
import { averageMethod, averaging } from '../../../src/takeoff/averaging.ts';
import { makeRun, noWay, planWith } from './make-run.ts';

describe('the averaging method', () => {
  it('gives 890 m for a floor and 5340 m for six: C = [0.55 (F + N) + 6] M', () => {
    // Textbook exercise (structured cabling formula): F = 60 m, N = 10 m, M = 20 points, six floors; 18 boxes.
    const floor = averageMethod({
      shortest: 10_000,
      longest: 60_000,
      count: 20,
      sparePercent: 10,
      perRun: 6000,
    });
    expect(floor).toEqual({ average: 44_500, total: 890_000 });
    expect(6 * floor.total).toBe(5_340_000);
    expect(Math.ceil((6 * floor.total) / 305_000)).toBe(18);
  });

  it('gives 41.75 m for a point and 1670 m for forty', () => {
    // Network-planner exam exercise: floor 90 m by 70 m, closet in the middle, so the longest run is about 57 m.
    const longest = Math.round(Math.hypot(45, 35)) * 1000;
    expect(longest).toBe(57_000);
    const floor = averageMethod({
      shortest: 8000,
      longest,
      count: 40,
      sparePercent: 10,
      perRun: 6000,
    });
    expect(floor).toEqual({ average: 41_750, total: 1_670_000 });
    expect(Math.ceil(floor.total / 305_000)).toBe(6);
  });

  it('takes spare and ends from the settings and sums floor by floor', () => {
    const plan = planWith({
      settings: {
        settings: { wastePercent: 10, outletSlack: 1000, fieldLoop: 500, closetLoop: 4500 },
      },
      levels: { L2: {} },
    });
    const runs = [10_000, 30_000, 60_000].flatMap((path, i) =>
      ['L1', 'L2'].map((level) => makeRun({ label: `A${i}`, path, level })),
    );
    // Each floor: (10 + 60) * 0.55 + 6 = 44.5 m for each of three runs.
    expect(averaging(plan, runs)).toEqual({
      shortest: 10_000,
      longest: 60_000,
      average: 44_500,
      total: 267_000,
    });
  });

  it('takes what a jack or a kind of device is given instead, as the mean of the floor', () => {
    const plan = planWith({
      settings: {
        settings: { wastePercent: 10, outletSlack: 1000, fieldLoop: 0, closetLoop: 2000 },
      },
      allowances: { A1: { kind: 'station', fieldLoop: 3000 } },
      devices: { D1: { level: 'L1', kind: 'station', at: [0, 0] } },
      outlets: { O1: { level: 'L1', at: [0, 0] } },
      jacks: {
        J1: { outlet: 'O1', label: 'A1', device: 'D1' },
        J2: { outlet: 'O1', label: 'A2', spare: true, allowances: { wastePercent: 30 } },
      },
    });
    const runs = ['A1', 'A2'].map((label, i) =>
      makeRun({ label, jack: `J${i + 1}`, path: 20_000 }),
    );
    // Spare of 10 and 30 %: 20 m * 1.2; ends of 6 and 3 m: 4.5 m.
    expect(averaging(plan, runs)).toMatchObject({ average: 28_500, total: 57_000 });
  });

  it('leaves out runs without a way, and is null where no run has one', () => {
    const plan = planWith({});
    const runs = [makeRun({ label: 'A1', path: 10_000 }), noWay({ label: 'A2' })];
    expect(averaging(plan, runs)?.shortest).toBe(10_000);
    expect(averaging(plan, [noWay({ label: 'A2' })])).toBeNull();
  });
});
