import { describe, expect, it } from 'vitest';
import type { Plan } from '../../../src/plan/plan.ts';
import { ceilingPlane, homeRuns } from '../../../src/routing/index.ts';
import { officePlan } from '../../bench/office.ts';
import { planWith, type Rows } from '../takeoff/make-run.ts';

const BOX = (x: number, y: number, w: number, h: number) => [
  [x, y],
  [x + w, y],
  [x + w, y + h],
  [x, y + h],
];
const tile = { kind: 'tile', height: 2700 };
const plane = (rows: Rows) => ceilingPlane(planWith(rows), 'L1')!;
const wall = (fields: object) => ({
  level: 'L1',
  a: [0, 0],
  b: [4000, 0],
  thickness: 120,
  construction: 'framed',
  top: 'deck',
  ...fields,
});

describe('what a cable may do overhead', () => {
  it('names each ceiling with the elevation of the cable, its factor, and whether travel is free', () => {
    const zone = { level: 'L1', outline: BOX(0, 0, 4000, 3000), area: 'A' };
    const { ceilings } = plane({
      zones: {
        Z1: { ...zone, ceiling: tile },
        Z2: { ...zone, ceiling: { kind: 'hard', height: 2500 } },
        Z3: { ...zone, ceiling: tile, cableElevation: 3100 },
      },
      settings: { settings: { tileFactor: 110, hardFactor: 170, tileClearance: 200 } },
    });
    expect(ceilings.map((c) => c.zone)).toEqual([null, 'Z1', 'Z2', 'Z3']);
    expect(ceilings[1]).toMatchObject({ travel: 'free', elevation: 2900, factor: 110 });
    expect(ceilings[2]).toMatchObject({ travel: 'faces', elevation: 2450, factor: 170 });
    expect(ceilings[3]).toMatchObject({ elevation: 3100 });
  });

  it('says of each wall what passing it takes, what that counts for, and why', () => {
    const settings = { framedPrice: 700, masonryPrice: 1900, ratedPrice: 400 };
    const { walls } = plane({
      walls: {
        W1: wall({ top: 'grid' }),
        W2: wall({ a: [0, 1000], b: [4000, 1000] }),
        W3: wall({ a: [0, 2000], b: [4000, 2000], construction: 'masonry', rated: true }),
        W4: wall({ a: [0, 3000], b: [4000, 3000], construction: 'insulated' }),
        W5: wall({ a: [0, 4000], b: [4000, 4000], exterior: true }),
      },
      settings: { settings },
    });
    const said = walls.map((w) => [w.walls[0], w.passage, w.reason, w.work, w.firestop, w.price]);
    expect(said).toEqual([
      ['W1', 'free', 'grid', 'none', false, 0],
      ['W2', 'priced', 'framed', 'sleeve', false, 700],
      ['W3', 'priced', 'masonry', 'core', true, 2300],
      ['W4', 'barred', 'insulated', 'seal', false, 0],
      ['W5', 'barred', 'exterior', 'seal', false, 0],
    ]);
    expect(walls[1]!.outline).toEqual(BOX(-60, 940, 4120, 120));
  });

  it('grows keep-outs by their clearance, and leaves their own outline', () => {
    const { keepouts } = plane({
      keepouts: { K1: { level: 'L1', outline: BOX(1000, 1000, 500, 800), clearance: 150 } },
    });
    expect(keepouts).toEqual([
      {
        keepout: 'K1',
        outline: BOX(1000, 1000, 500, 800),
        clearance: 150,
        kept: [BOX(850, 850, 800, 1100)],
      },
    ]);
  });

  it('opens under a hard ceiling the faces of walls, less what a keep-out takes of them', () => {
    const rows = {
      zones: {
        Z1: {
          level: 'L1',
          outline: BOX(0, -2000, 10_000, 2000),
          area: 'A',
          ceiling: { kind: 'hard', height: 2600 },
        },
      },
      walls: { W1: wall({ a: [1000, -1000], b: [5000, -1000] }) },
    };
    const above = ([a, b]: readonly [readonly number[], readonly number[]]) =>
      a[1] === -1060 && b[1] === -1060;
    expect(plane(rows).faces.filter(above)).toEqual([
      [
        [940, -1060],
        [5060, -1060],
      ],
    ]);
    const barred = plane({
      ...rows,
      keepouts: { K1: { level: 'L1', outline: BOX(2000, -1200, 1000, 400), clearance: 0 } },
    });
    expect(barred.faces.filter(above).map(([a, b]) => [a[0], b[0]])).toEqual([
      [940, 2000],
      [3000, 5060],
    ]);
    expect(plane({ walls: rows.walls }).faces).toEqual([]);
  });

  it('says of pathways where they lie and where they are joined', () => {
    const way = {
      level: 'L1',
      points: [
        [0, 0],
        [3000, 0],
      ],
    };
    const { pathways } = plane({
      pathways: {
        P1: { ...way, kind: 'tray' },
        P2: { ...way, kind: 'conduit', elevation: 2400 },
      },
      settings: { settings: { pathwayFactor: 60 } },
    });
    expect(pathways.map(({ elevation, factor, joins }) => [elevation, factor, joins])).toEqual([
      [null, 60, 'anywhere'],
      [2400, 60, 'ends'],
    ]);
  });

  it('is nothing for a level that is not there', () => {
    expect(ceilingPlane(planWith({}), 'L9')).toBeNull();
  });

  it('agrees with the runs: each stretch has the factor of its ceiling, each hole the price of its wall', () => {
    const plan: Plan = officePlan({ walls: 60, jacks: 40 });
    const overhead = ceilingPlane(plan, 'L1')!;
    const ceilingOf = (zone: string | null) => overhead.ceilings.find((c) => c.zone === zone)!;
    const { runs } = homeRuns(plan);
    let holes = 0;
    for (const run of runs) {
      for (const s of run.segments)
        if (s.kind === 'across' && s.pathway === null)
          expect([s.factor, s.from[2]]).toEqual([
            ceilingOf(s.zone).factor,
            ceilingOf(s.zone).elevation,
          ]);
      for (const hole of run.crossings) {
        if (hole.pathway !== null) continue;
        const passed = overhead.walls.find(({ walls }) => walls.includes(hole.wall))!;
        expect([passed.work, passed.firestop, passed.price]).toEqual([
          hole.work,
          hole.firestop,
          hole.price,
        ]);
        holes++;
      }
    }
    expect(holes).toBeGreaterThan(0);
  });
});
