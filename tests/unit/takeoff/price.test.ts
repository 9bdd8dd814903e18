import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toCents } from '../../../src/base/units.ts';
import type { Run } from '../../../src/results/types.ts';
import { takeoff } from '../../../src/takeoff/index.ts';
import { labourMinutes } from '../../../src/takeoff/labour.ts';
import { panelsFor } from '../../../src/takeoff/quantities.ts';
import { across, crossing, makeRun, noWay, planWith, type Rows, riser, way } from './make-run.ts';

/** Quantities of the priced lines by part. */
function parts(rows: Rows, runs: readonly Run[], ways = [] as ReturnType<typeof way>[]) {
  const { price } = takeoff(planWith(rows), runs, ways);
  return Object.fromEntries(price.lines.map((line) => [line.part, line.quantity]));
}

describe('a published price example', () => {
  it('ten runs of 200 ft: $500 of cable at $250 for 1000 ft, $500 of labour at $50 a point', () => {
    // Home-office price model of a public cost guide: 2000 ft = 2 boxes; 500 + 500.
    const plan = planWith({
      settings: { settings: { boxLength: 304_800 } },
      prices: {
        prices: {
          ...Object.fromEntries(
            ['jack', 'label', 'panel24', 'panel48', 'deviceCord', 'closetCord'].map((p) => [p, 0]),
          ),
          cableBox: 25_000,
          labourHour: 5000,
          minutesOpen: 60,
          minutesJob: 0,
          markupPercent: 0,
        },
      },
    });
    const runs = Array.from({ length: 10 }, (_, i) =>
      makeRun({ label: `A${i + 1}`, cable: 60_960 }),
    );
    const { price } = takeoff(plan, runs, []);
    const line = (part: string) => price.lines.find((l) => l.part === part);
    expect(line('cableBox')).toMatchObject({ quantity: 2, totalCents: 50_000 });
    expect(price.labourCents).toBe(50_000);
    expect(price.totalCents).toBe(100_000);
  });
});

describe('the price', () => {
  const amount = fc.integer({ min: 0, max: 30_000 });
  const book = fc.record({
    cableBox: amount,
    jack: amount,
    label: amount,
    panel24: amount,
    panel48: amount,
    support: amount,
    labourHour: amount,
    minutesOpen: fc.integer({ min: 0, max: 300 }),
    minutesTile: fc.integer({ min: 0, max: 300 }),
    furtherCablePercent: fc.integer({ min: 0, max: 100 }),
    minutesJob: fc.integer({ min: 0, max: 999 }),
    markupPercent: fc.integer({ min: 0, max: 100 }),
    taxPercent: fc.integer({ min: 0, max: 30 }),
  });
  const someRuns = fc.array(
    fc.record({
      cable: fc.integer({ min: 1, max: 120_000 }),
      outlet: fc.integer({ min: 1, max: 4 }),
    }),
    { maxLength: 30 },
  );

  it('is the sum of its lines, each its quantity times its price to the cent', () => {
    fc.assert(
      fc.property(book, someRuns, (prices, lengths) => {
        const plan = planWith({ prices: { prices } });
        const runs = lengths.map(({ cable, outlet }, i) =>
          makeRun({ label: `A${i + 1}`, cable, outlet: `O${outlet}` }),
        );
        const { price } = takeoff(plan, runs, []);
        for (const line of price.lines)
          expect(line.totalCents).toBe(toCents(line.quantity * line.unitCents));
        const sum = price.lines.reduce((total, line) => total + line.totalCents, 0);
        expect(price.materialCents + price.labourCents).toBe(sum);
        expect(price.totalCents).toBe(sum + price.markupCents + price.taxCents);
        const hours = price.lines.filter((l) => l.group === 'labour').map((l) => l.quantity);
        expect(price.hours).toBeCloseTo(
          hours.reduce((a, b) => a + b, 0),
          9,
        );
      }),
      { seed: 21, numRuns: 150 },
    );
  });

  it('puts the mark-up on material and labour and the tax on all, each rounded once', () => {
    const plan = planWith({
      prices: { prices: { markupPercent: 15, taxPercent: 7, minutesJob: 0, labourHour: 0 } },
    });
    const { price } = takeoff(plan, [makeRun({ label: 'A1' })], []);
    // 185.00 box, 2 jacks 11.00, 4 labels 0.80, panel 65.00, cords 4.50 and 3.50.
    expect(price.materialCents).toBe(26_980);
    expect(price.markupCents).toBe(4047);
    expect(price.taxCents).toBe(2172);
    expect(price.totalCents).toBe(26_980 + 4047 + 2172);
  });

  it('is nothing for a job without jacks', () => {
    const { price, totals, averaging } = takeoff(planWith({}), [], []);
    expect(price.lines).toEqual([]);
    expect(price.totalCents).toBe(0);
    expect(averaging).toBeNull();
    expect(totals).toMatchObject({ cable: 0, order: 0, boxes: 0 });
  });

  it('carries the currency of the price book', () => {
    const plan = planWith({ prices: { prices: { currency: '£' } } });
    expect(takeoff(plan, [], []).price.currency).toBe('£');
  });
});

describe('what hangs on the jack', () => {
  it('is two jacks, four labels and a cord at each end for every cable in service', () => {
    const runs = [makeRun({ label: 'A1' }), makeRun({ label: 'A2', device: null })];
    expect(parts({}, runs)).toMatchObject({ jack: 4, label: 8, deviceCord: 1, closetCord: 1 });
  });

  it('counts a cord for a device that shares the jack of another', () => {
    const rows: Rows = {
      devices: {
        D1: { level: 'L1', kind: 'station', at: [0, 0] },
        D2: { level: 'L1', kind: 'printer', at: [0, 0], host: 'D1' },
      },
      outlets: { O1: { level: 'L1', at: [0, 0] } },
      jacks: { J1: { outlet: 'O1', label: 'A1', device: 'D1' } },
    };
    const run = makeRun({ label: 'A1', jack: 'J1', device: 'D1', outlet: 'O1' });
    expect(parts(rows, [run])).toMatchObject({ deviceCord: 2, closetCord: 1 });
    expect(parts({ devices: rows.devices! }, [makeRun({ label: 'B1' })])).toMatchObject({
      deviceCord: 1,
    });
  });

  it('is one mounting for each outlet by how it is mounted, and no plate on pole and ceiling', () => {
    const mounts = ['wall', 'casework', 'floor', 'pole', 'ceiling'] as const;
    const rows: Rows = {
      outlets: Object.fromEntries(
        [...mounts, 'wall' as const].map((mount, i) => [
          `O${i + 1}`,
          { level: 'L1', at: [0, 0], mount },
        ]),
      ),
    };
    // The sixth outlet has no jack: a blank counts nothing. The first has two: one plate.
    const runs = ['O1', 'O1', 'O2', 'O3', 'O4', 'O5'].map((outlet, i) =>
      makeRun({ label: `A${i + 1}`, outlet }),
    );
    expect(parts(rows, runs)).toMatchObject({
      plate: 3,
      bracket: 2,
      floorBox: 1,
      pole: 1,
      ceilingBox: 1,
    });
  });

  it('counts for a run without a way as well, which takes no cable, hours or holes yet', () => {
    const rows: Rows = { outlets: { O1: { level: 'L1', at: [0, 0] } } };
    const lost = noWay({ label: 'A1', outlet: 'O1', closet: null, crossings: [crossing()] });
    const { price } = takeoff(planWith(rows), [{ ...lost, crossings: [] }], []);
    expect(price.lines.map((line) => line.part)).toEqual([
      ...['jack', 'plate', 'bracket', 'label', 'deviceCord', 'closetCord', 'job'],
    ]);
  });
});

describe('panels', () => {
  const book = { panel24: 6500, panel48: 11_500 };

  it('hold the runs with a quarter to spare', () => {
    expect(panelsFor(19, book)).toEqual({ panel24: 1, panel48: 0 });
    expect(panelsFor(20, book)).toEqual({ panel24: 0, panel48: 1 });
    expect(panelsFor(38, book)).toEqual({ panel24: 0, panel48: 1 });
    expect(panelsFor(39, book)).toEqual({ panel24: 1, panel48: 1 });
    expect(panelsFor(0, book)).toEqual({ panel24: 0, panel48: 0 });
  });

  it('cost least, whatever the prices', () => {
    expect(panelsFor(38, { panel24: 5000, panel48: 11_500 })).toEqual({ panel24: 2, panel48: 0 });
    expect(panelsFor(10, { panel24: 9000, panel48: 8000 })).toEqual({ panel24: 0, panel48: 1 });
    expect(panelsFor(38, { panel24: 5000, panel48: 10_000 })).toEqual({ panel24: 0, panel48: 1 });
  });

  it('stand in each closet by itself', () => {
    const runs = ['C1', 'C1', 'C2'].map((closet, i) => makeRun({ label: `A${i + 1}`, closet }));
    expect(parts({}, runs)).toMatchObject({ panel24: 2 });
  });
});

describe('supports', () => {
  const over = (ceiling: 'tile' | 'open' | 'hard', length: number, pathway?: string) => {
    const segment = across([0, 0, 3000], [length, 0, 3000], ceiling, pathway ?? null);
    const run = makeRun({ label: 'A1', segments: [segment] });
    return { run, way: way(segment.from, segment.to, [run.jack], pathway ?? null) };
  };
  const count = (one: ReturnType<typeof over>, rows: Rows = {}) =>
    parts(rows, [one.run], [one.way]).support ?? 0;

  it('hang each 1.2 m of free travel over tile and open ceilings', () => {
    expect(count(over('tile', 12_000))).toBe(10);
    expect(count(over('open', 12_001))).toBe(11);
  });

  it('are not needed along closed ceilings', () => {
    expect(count(over('hard', 12_000))).toBe(0);
  });

  it('are needed on hook lines, and not in what carries the cable itself', () => {
    const kinds = ['hook-line', 'tray', 'conduit', 'raceway', 'sleeve', 'under-slab'] as const;
    const counts = kinds.map((kind) => {
      const pathways = { P1: { level: 'L1', kind, points: [[0, 0] as const, [9, 0] as const] } };
      return count(over('tile', 12_000, 'P1'), { pathways });
    });
    expect(counts).toEqual([10, 0, 0, 0, 0, 0]);
  });

  it('are not bought for a hook line that is there already', () => {
    const points = [[0, 0] as const, [9, 0] as const];
    const pathways = { P1: { level: 'L1', kind: 'hook-line', points, existing: true } };
    expect(count(over('tile', 12_000, 'P1'), { pathways })).toBe(0);
  });

  it('count a way once, however many cables share it, and no vertical', () => {
    const one = over('tile', 12_000);
    const ways = [
      { ...one.way, jacks: [one.run.jack, 'J-A2', 'J-A3'] },
      way([0, 0, 0], [0, 0, 3000], [one.run.jack]),
    ];
    expect(parts({}, [one.run], ways).support).toBe(10);
  });

  it('tell the ceiling of a way from the segment on which it lies', () => {
    const run = makeRun({
      label: 'A1',
      segments: [
        across([0, 0, 3000], [6000, 0, 3000], 'hard'),
        across([6000, 0, 3000], [6000, 6000, 3000], 'tile'),
      ],
    });
    const ways = [
      way([1000, 0, 3000], [5800, 0, 3000], [run.jack]),
      way([6000, 1000, 3000], [6000, 3400, 3000], [run.jack]),
    ];
    expect(parts({}, [run], ways).support).toBe(2);
  });
});

describe('a way that passes from a closed ceiling to a lay-in one at the same elevation', () => {
  it('takes raceway along the one and supports along the other', () => {
    const run = makeRun({
      label: 'A1',
      segments: [
        across([1000, 0, 2850], [10_000, 0, 2850], 'hard'),
        across([10_000, 0, 2850], [22_000, 0, 2850], 'tile'),
      ],
    });
    const whole = way([1000, 0, 2850], [22_000, 0, 2850], [run.jack]);
    const back = way([22_000, 0, 2850], [1000, 0, 2850], [run.jack]);
    for (const one of [whole, back])
      expect(parts({}, [run], [one])).toMatchObject({ racewayLength: 3, support: 10 });
  });
});

describe('lengths of tray, conduit and raceway', () => {
  const drawn = (kind: string, points: [number, number][], existing = false) =>
    parts({ pathways: { P1: { level: 'L1', kind, points, existing } } }, []);

  it('are whole lengths of 10 ft for each drawn pathway', () => {
    expect(
      drawn('tray', [
        [0, 0],
        [3048, 0],
      ]).trayLength,
    ).toBe(1);
    expect(
      drawn('tray', [
        [0, 0],
        [3049, 0],
      ]).trayLength,
    ).toBe(2);
    expect(
      drawn('conduit', [
        [0, 0],
        [3000, 0],
        [3000, 100],
      ]).conduitLength,
    ).toBe(2);
    expect(
      drawn('under-slab', [
        [0, 0],
        [900, 0],
      ]).conduitLength,
    ).toBe(1);
    expect(
      drawn('raceway', [
        [0, 0],
        [900, 0],
      ]).racewayLength,
    ).toBe(1);
  });

  it('are not bought where the pathway is there already, nor for hook lines', () => {
    expect(
      drawn(
        'tray',
        [
          [0, 0],
          [9000, 0],
        ],
        true,
      ).trayLength,
    ).toBeUndefined();
    expect(
      drawn('hook-line', [
        [0, 0],
        [9000, 0],
      ]).conduitLength,
    ).toBeUndefined();
  });

  it('take raceway along closed ceilings where no pathway is drawn, once for all cables', () => {
    const segment = across([0, 0, 2700], [6000, 0, 2700], 'hard');
    const run = makeRun({ label: 'A1', segments: [segment] });
    const shared = way(segment.from, segment.to, [run.jack, 'J-A2']);
    expect(parts({}, [run], [shared]).racewayLength).toBe(2);
  });
});

describe('holes', () => {
  const through = (...list: Partial<Parameters<typeof crossing>[0]>[]) =>
    parts(
      {},
      list.map((fields, i) => makeRun({ label: `A${i + 1}`, crossings: [crossing(fields)] })),
    );

  it('are shared by cables that pass a wall at the same place', () => {
    expect(through({}, {}, { at: [1150, 0, 2900] }).sleeve).toBe(1);
    expect(through({}, {}, { at: [1151, 0, 2900] }).sleeve).toBe(2);
    expect(through({}, { at: [1000, 0, 3100] }).sleeve).toBe(2);
  });

  it('are there already with their pathway, but are sealed and firestopped anew', () => {
    const points: [number, number][] = [
      [0, 0],
      [0, 9],
    ];
    const runs = (['sleeve', 'core', 'seal'] as const).map((work, i) =>
      makeRun({
        label: `A${i + 1}`,
        crossings: [crossing({ work, firestop: true, pathway: 'P1' })],
      }),
    );
    const rows = (existing: boolean): Rows => ({
      pathways: { P1: { level: 'L1', kind: 'sleeve', points, existing } },
    });
    const made = { sleeve: 1, coreDrill: 1, seal: 1, firestop: 3 };
    expect(parts(rows(false), runs)).toMatchObject(made);
    const kept = parts(rows(true), runs);
    expect(kept).toMatchObject({ seal: 1, firestop: 3 });
    expect(kept.sleeve).toBeUndefined();
    expect(kept.coreDrill).toBeUndefined();
  });

  it('are apart in different walls and for different work', () => {
    expect(through({}, { wall: 'W2' }).sleeve).toBe(2);
    expect(through({ work: 'sleeve' }, { work: 'core' }, { work: 'seal' })).toMatchObject({
      sleeve: 1,
      coreDrill: 1,
      seal: 1,
    });
  });

  it('take up to twenty cables', () => {
    expect(through(...Array(20).fill({})).sleeve).toBe(1);
    expect(through(...Array(21).fill({})).sleeve).toBe(2);
  });

  it('are firestopped where the wall is rated, and count nothing where no work is needed', () => {
    const rated = through({ firestop: true }, { work: 'none', firestop: true, wall: 'W2' });
    expect(rated).toMatchObject({ sleeve: 1, firestop: 2 });
    expect(through({ work: 'none' }).sleeve).toBeUndefined();
  });
});

describe('risers', () => {
  const rows = (existing: boolean): Rows => ({
    levels: { L2: { elevation: 3600 } },
    risers: {
      R1: { level: 'L1', upper: 'L2', at: [0, 0], existing },
      R2: { level: 'L1', upper: 'L2', at: [5000, 0], existing },
      R3: { level: 'L1', upper: 'L2', at: [9000, 0] },
    },
  });
  const up = (label: string, id: string) =>
    makeRun({
      label,
      level: 'L1',
      segments: [
        across([0, 0, 2850], [3600, 0, 2850], 'tile'),
        riser(id, [0, 0, 2850], [0, 0, 6450]),
      ],
    });
  const runs = [up('A1', 'R1'), up('A2', 'R1'), up('A3', 'R2')];

  it('are one core drilled hole and one firestop each, however many cables pass, if any do', () => {
    expect(parts(rows(false), runs)).toMatchObject({ coreDrill: 2, firestop: 2 });
    expect(parts(rows(false), runs)).not.toHaveProperty('sleeve');
    expect(parts(rows(false), [makeRun({ label: 'A1' })])).not.toHaveProperty('coreDrill');
  });

  it('that are there already are firestopped anew, but not drilled', () => {
    const got = parts(rows(true), runs);
    expect(got).toMatchObject({ firestop: 2 });
    expect(got).not.toHaveProperty('coreDrill');
  });

  it('add to the holes in walls', () => {
    const core = crossing({ work: 'core', firestop: true });
    const run = { ...up('A1', 'R1'), crossings: [core] };
    expect(parts(rows(false), [run])).toMatchObject({ coreDrill: 2, firestop: 2 });
  });

  it('carry the cable themselves: no supports, and labour by the ceilings before and after', () => {
    const upright = way([0, 0, 2850], [0, 0, 6450], ['J-A1']);
    const flat = way([0, 0, 2850], [3600, 0, 2850], ['J-A1']);
    expect(parts(rows(false), [up('A1', 'R1')], [flat, upright])).toMatchObject({ support: 3 });
    const plan = planWith(rows(false));
    expect(labourMinutes(plan, [up('A1', 'R1')]).tile).toBeGreaterThan(0);
  });
});

describe('labour', () => {
  const plan = planWith({
    prices: {
      prices: {
        ...{ minutesTile: 70, minutesOpen: 60, minutesHard: 115, minutesJob: 30 },
        furtherCablePercent: 50,
      },
    },
  });
  const under = (label: string, outlet: string, ...ceilings: ('tile' | 'open' | 'hard')[]) =>
    makeRun({
      label,
      outlet,
      segments: ceilings.map((kind) => across([0, 0, 0], [1, 0, 0], kind)),
    });

  it('goes by the worst ceiling that the run passes', () => {
    const runs = [under('A1', 'O1', 'open', 'tile'), under('A2', 'O2', 'open', 'hard', 'tile')];
    expect(labourMinutes(plan, runs)).toEqual({ tile: 70, open: 0, hard: 115, job: 30 });
  });

  it('counts further cables to an outlet as a share of its dearest', () => {
    const runs = [under('A1', 'O1', 'open'), under('A2', 'O1', 'tile'), under('A3', 'O1', 'open')];
    expect(labourMinutes(plan, runs)).toEqual({ tile: 140, open: 0, hard: 0, job: 30 });
  });

  it("goes by the level's own ceiling where a run passes none", () => {
    const tiled = planWith({ levels: { L1: { ceiling: { kind: 'tile' } } } });
    expect(labourMinutes(tiled, [under('A1', 'O1')])).toMatchObject({ tile: 70, open: 0 });
  });

  it('is printed in hundredths of an hour, so that the line can be reckoned from it', () => {
    const { price } = takeoff(plan, [under('A1', 'O1', 'tile')], []);
    const drop = price.lines.find((line) => line.part === 'tile');
    // 70 min = 1.1667 h, printed 1.17, at 85.00.
    expect(drop).toMatchObject({ quantity: 1.17, totalCents: 9945 });
    expect(price.hours).toBe(1.67);
  });
});

describe('cable', () => {
  it('is bought by the box, and for a run longer than a box by the boxes that it takes', () => {
    const rows: Rows = { settings: { settings: { boxLength: 100_000 } } };
    const runs = [makeRun({ label: 'A1', order: 250_000 }), makeRun({ label: 'A2' })];
    const result = takeoff(planWith(rows), runs, []);
    expect(result.boxPlan.boxes.length).toBe(1);
    expect(result.price.lines.find((line) => line.part === 'cableBox')?.quantity).toBe(4);
    expect(result.totals.boxes).toBe(4);
  });

  it('totals what is installed and what is ordered', () => {
    const runs = [
      makeRun({ label: 'A1', cable: 20_000, order: 22_265 }),
      makeRun({ label: 'A2', cable: 30_001, order: 33_245 }),
    ];
    const { totals } = takeoff(planWith({}), runs, []);
    expect(totals).toMatchObject({ cable: 50_001, order: 55_510 });
  });
});
