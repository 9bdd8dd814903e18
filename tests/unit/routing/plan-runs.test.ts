import { describe, expect, it } from 'vitest';
import { emptyPlan, makeRow, type Plan } from '../../../src/plan/plan.ts';
import type { TableName } from '../../../src/plan/schema.ts';
import type { Run, Way } from '../../../src/results/types.ts';
import { createRouter, homeRuns } from '../../../src/routing/index.ts';
import { createPlanNetworks } from '../../../src/routing/plan-networks.ts';

// Rows are given as a file would give them; makeRow fills in the defaults.
type Rows = Partial<Record<TableName, Record<string, object>>>;

function planWith(rows: Rows, base: Plan = emptyPlan()): Plan {
  const tables = Object.fromEntries(
    Object.entries(base.tables).map(([name, table]) => [
      name,
      new Map(table as Map<string, never>),
    ]),
  ) as unknown as Record<TableName, Map<string, unknown>>;
  for (const [table, byId] of Object.entries(rows))
    for (const [id, fields] of Object.entries(byId))
      tables[table as TableName].set(id, makeRow(table as TableName, id, fields as never));
  return { tables: tables as unknown as Plan['tables'] };
}

const exterior = { level: 'L1', thickness: 200, exterior: true };

/** The slack of the worked numbers. */
const SLACK = { outletSlack: 300, closetLoop: 3000 };

/** The room of the worked numbers as a plan: 12 by 9 m, lay-in ceiling at 2.70 m. */
const ROOM: Rows = {
  settings: { settings: { ...SLACK, wastePercent: 10, orderStep: 305 } },
  levels: { L1: { ceiling: { kind: 'tile', height: 2700 } } },
  walls: {
    W91: { ...exterior, a: [-100, -100], b: [12100, -100] },
    W92: { ...exterior, a: [12100, -100], b: [12100, 9100] },
    W93: { ...exterior, a: [-100, 9100], b: [12100, 9100] },
    W94: { ...exterior, a: [-100, -100], b: [-100, 9100] },
  },
  closets: { C1: { level: 'L1', at: [1000, 8000], height: 1500 } },
  devices: { D1: { level: 'L1', kind: 'order-station', at: [10000, 1000], cord: 2130 } },
  outlets: { O1: { level: 'L1', at: [10000, 1000], mount: 'pole', height: 450 } },
  jacks: { J1: { outlet: 'O1', label: 'A1', device: 'D1' } },
};

const only = (plan: Plan): Run => {
  const { runs } = homeRuns(plan);
  expect(runs).toHaveLength(1);
  return runs[0]!;
};

describe('the worked numbers through a plan', () => {
  it('1: path 19750, cable 23050, channel 26094 with cords of 2130 and 914', () => {
    const run = only(planWith(ROOM));
    expect(run).toMatchObject({
      status: 'ok',
      closet: 'C1',
      across: 16_000,
      vertical: 3750,
      path: 19_750,
      slack: 3300,
      cable: 23_050,
      channel: 23_050 + 2130 + 914,
      limit: 90_000,
      bends: 1,
    });
    // 23050 x 1.1 = 25355 = 83.13 steps of 305.
    expect(run.order).toBe(84 * 305);
    // In feet as they stand in the defaults: 25355 / 304.8 = 83.19, so 84 ft = 25603.2 mm, and no inch more.
    expect(
      only(planWith({ ...ROOM, settings: { settings: { ...SLACK, wastePercent: 10 } } })).order,
    ).toBe(25_603);
    expect(run.parts).toEqual([
      { kind: 'up', length: 2400, zone: null, pathway: null },
      { kind: 'across', length: 16_000, zone: null, pathway: null },
      { kind: 'down', length: 1350, zone: null, pathway: null },
      { kind: 'outlet-slack', length: 300, zone: null, pathway: null },
      { kind: 'closet-loop', length: 3000, zone: null, pathway: null },
    ]);
    expect(run.points).toEqual([
      [10000, 1000, 450],
      [10000, 1000, 2850],
      [10000, 8000, 2850],
      [1000, 8000, 2850],
      [1000, 8000, 1500],
    ]);
  });

  const box = (x0: number, y0: number, x1: number, y1: number) => [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];

  it('2: the way round a keep-out makes the path 20750', () => {
    const keepouts = { K1: { level: 'L1', outline: box(4000, 0, 6000, 8500) } };
    expect(only(planWith({ ...ROOM, keepouts })).path).toBe(20_750);
  });

  it('3: a step of 500 between zones makes the path 20750', () => {
    const high = { level: 'L1', outline: box(6000, 0, 12000, 9000) };
    const zones = { Z1: { ...high, ceiling: { kind: 'tile', height: 3200 } } };
    const run = only(planWith({ ...ROOM, zones }));
    expect(run.path).toBe(20_750);
    expect(run.parts.map((p) => [p.kind, p.length, p.zone]).slice(0, 5)).toEqual([
      ['up', 2900, 'Z1'],
      ['across', 11_000, 'Z1'],
      ['step', 500, null],
      ['across', 5000, null],
      ['down', 1350, null],
    ]);
  });

  it('4: the tray is taken at 0.8 and left at 1.0', () => {
    const points = [
      [1000, 8500],
      [10000, 8500],
    ];
    const pathways = { P1: { level: 'L1', kind: 'tray', points } };
    const run = only(planWith({ ...ROOM, pathways }));
    expect(run.path).toBe(20_750);
    expect(run.pathways).toEqual(['P1']);
    const dear = { settings: { settings: { ...SLACK, pathwayFactor: 100 } } };
    expect(only(planWith({ ...ROOM, ...dear, pathways })).path).toBe(19_750);
  });

  it('5: a sleeve through the wall, or the way round it', () => {
    const wall = (end: number) => ({
      ...ROOM,
      walls: {
        ...ROOM.walls,
        W1: { level: 'L1', a: [6000, 0], b: [6000, end], thickness: 100, top: 'deck' },
      },
    });
    const through = only(planWith(wall(8600)));
    expect(through.path).toBe(19_750);
    expect(through.crossings).toMatchObject([
      { wall: 'W1', construction: 'framed', work: 'sleeve', firestop: false, pathway: null },
    ]);
    const round = only(planWith(wall(8200)));
    expect(round.path).toBe(20_250);
    expect(round.crossings).toEqual([]);
  });
});

describe('home runs', () => {
  it('stands on the elevation of its level', () => {
    const levels = { L1: { ceiling: { kind: 'tile', height: 2700 }, elevation: 4000 } };
    const run = only(planWith({ ...ROOM, levels }));
    expect(run.points.map((p) => p[2])).toEqual([4450, 6850, 6850, 6850, 5500]);
    expect(run.path).toBe(19_750);
  });

  it('takes the closet with the shortest cable when none is chosen, and the chosen one else', () => {
    const closets = { ...ROOM.closets, C2: { level: 'L1', at: [9000, 1000], height: 1500 } };
    expect(only(planWith({ ...ROOM, closets })).closet).toBe('C2');
    const jacks = { J1: { outlet: 'O1', label: 'A1', device: 'D1', closet: 'C1' } };
    expect(only(planWith({ ...ROOM, closets, jacks })).closet).toBe('C1');
  });

  it('is near from the share of the limit on, and over beyond the limit', () => {
    const at = (linkLimit: number, nearPercent: number) =>
      only(planWith({ ...ROOM, settings: { settings: { ...SLACK, linkLimit, nearPercent } } }))
        .status;
    expect(at(46_100, 50)).toBe('near');
    expect(at(46_102, 50)).toBe('ok');
    expect(at(23_050, 100)).toBe('near');
    expect(at(23_049, 100)).toBe('over');
  });

  it('limits the cable by the channel where the cords are long', () => {
    const settings = { settings: { channelLimit: 24_000, cordCloset: 1000 } };
    const run = only(planWith({ ...ROOM, settings }));
    expect(run.limit).toBe(24_000 - 2130 - 1000);
    expect(run.status).toBe('over');
  });

  it('gives a jack without a device the usual cord', () => {
    const jacks = { J1: { outlet: 'O1', label: 'A1', spare: true } };
    expect(only(planWith({ ...ROOM, jacks })).channel).toBe(23_050 + 2134 + 914);
  });

  it('says that there is no closet, or that the closets are on another level', () => {
    const none = only(planWith({ ...ROOM, closets: {} }));
    expect(none).toMatchObject({
      status: 'unroutable',
      cable: 0,
      blocked: { reason: 'no-closet' },
    });
    const levels = { ...ROOM.levels, L2: { elevation: 3600 } };
    const closets = { C1: { level: 'L2', at: [1000, 8000] } };
    expect(only(planWith({ ...ROOM, levels, closets })).blocked).toMatchObject({
      reason: 'other-level',
    });
  });

  it('gathers what lies together, with the jacks in the order of their labels', () => {
    const plan = planWith({
      ...ROOM,
      outlets: {
        O1: { level: 'L1', at: [10000, 1000], mount: 'pole', height: 450 },
        O2: { level: 'L1', at: [5000, 8000], mount: 'pole', height: 450 },
      },
      jacks: {
        J1: { outlet: 'O1', label: 'A10' },
        J2: { outlet: 'O2', label: 'A2' },
        J3: { outlet: 'O2', label: 'A2-1' },
      },
    });
    expect(homeRuns(plan).ways.map((w) => [w.from, w.to, w.jacks])).toEqual([
      [[10000, 1000, 2850], [10000, 8000, 2850], ['J1']],
      [
        [1000, 8000, 2850],
        [5000, 8000, 2850],
        ['J2', 'J3', 'J1'],
      ],
      [[5000, 8000, 2850], [10000, 8000, 2850], ['J1']],
    ]);
  });
});

describe('a router that remembers', () => {
  it('builds no network anew for a closet that moves, is added or goes', () => {
    const networks = createPlanNetworks();
    const bare = planWith({ ...ROOM, closets: {} });
    const of = (closets: Record<string, object>) =>
      networks(planWith({ closets }, bare)).at('L1').free;
    const first = of({ C1: { level: 'L1', at: [1000, 8000] } });
    expect(of({ C1: { level: 'L1', at: [2000, 7000] } })).toBe(first);
    expect(of({ C1: { level: 'L1', at: [2000, 7000] }, C2: { level: 'L1', at: [0, 0] } })).toBe(
      first,
    );
    expect(of({})).toBe(first);
  });

  it('knows at which end of a conduit under the slab a floor box stands, also when that moves', () => {
    const box = (x: number) =>
      planWith({
        ...ROOM,
        pathways: {
          PA: {
            level: 'L1',
            kind: 'under-slab',
            points: [
              [3000, 7000],
              [11_000, 7000],
            ],
          },
        },
        outlets: { O1: { level: 'L1', at: [x, 7000], mount: 'floor', height: 0 } },
      });
    const router = createRouter();
    const ends = [3000, 11_000, 3000].map((x) => {
      const plan = box(x);
      const answer = router.homeRuns(plan);
      expect(answer).toEqual(homeRuns(plan));
      const up = answer.runs[0]!.segments.find(({ from, to }) => to[2] > 0 && from[2] < 0)!;
      return up.from[0];
    });
    expect(ends).toEqual([11_000, 3000, 11_000]);
  });

  it('returns what a fresh one returns, after every kind of change', () => {
    const router = createRouter();
    let plan = planWith(ROOM);
    const outline = [
      [4000, 0],
      [6000, 0],
      [6000, 8500],
      [4000, 8500],
    ];
    const changes: Rows[] = [
      {},
      { outlets: { O1: { level: 'L1', at: [9000, 2000], mount: 'pole', height: 450 } } },
      { keepouts: { K1: { level: 'L1', outline } } },
      { closets: { C1: { level: 'L1', at: [2000, 7000] } } },
      { closets: { C2: { level: 'L1', at: [9000, 8000], height: 1800 } } },
      { settings: { settings: { outletSlack: 500 } } },
      { settings: { settings: { bendPrice: 0, outletSlack: 500 } } },
      { walls: { W1: { level: 'L1', a: [8000, 0], b: [8000, 9000], top: 'deck' } } },
      { walls: { W1: { level: 'L1', a: [8000, 0], b: [8000, 9000], top: 'deck', rated: true } } },
      { levels: { L1: { ceiling: { kind: 'open', height: 3000 } } } },
      { devices: { D1: { level: 'L1', kind: 'kiosk', at: [9000, 2000], cord: 900 } } },
      { jacks: { J2: { outlet: 'O1', label: 'A2' } } },
      { zones: { Z1: { level: 'L1', outline, ceiling: { kind: 'tile', height: 2500 } } } },
      {
        pathways: {
          P1: {
            level: 'L1',
            kind: 'tray',
            points: [
              [1000, 8800],
              [9000, 8800],
            ],
          },
        },
      },
    ];
    for (const change of changes) {
      plan = planWith(change, plan);
      expect(router.homeRuns(plan)).toEqual(homeRuns(plan));
    }
  });

  it('keeps the very runs that a change did not touch', () => {
    const router = createRouter();
    const two = planWith({
      ...ROOM,
      outlets: { ...ROOM.outlets, O2: { level: 'L1', at: [5000, 5000], mount: 'pole' } },
      jacks: { ...ROOM.jacks, J2: { outlet: 'O2', label: 'A2' } },
    });
    const before = router.homeRuns(two);
    const moved = planWith(
      { outlets: { O2: { level: 'L1', at: [5000, 6000], mount: 'pole' } } },
      two,
    );
    const after = router.homeRuns(moved);
    expect(after.runs[0]).toBe(before.runs[0]);
    expect(after.runs[1]).not.toEqual(before.runs[1]);
    expect(router.homeRuns(moved).ways).toBe(after.ways);
  });

  it('keeps the very ways on lines where the same cables lie', () => {
    const router = createRouter();
    const two = planWith({
      ...ROOM,
      outlets: { ...ROOM.outlets, O2: { level: 'L1', at: [5000, 5000], mount: 'pole' } },
      jacks: { ...ROOM.jacks, J2: { outlet: 'O2', label: 'A2' } },
    });
    const before = router.homeRuns(two).ways;
    const moved = planWith(
      { outlets: { O2: { level: 'L1', at: [5000, 6000], mount: 'pole' } } },
      two,
    );
    const after = router.homeRuns(moved).ways;
    const apart = ({ from, to }: Way) => from[0] === 10_000 && to[0] === 10_000;
    expect(after.filter(apart)).toHaveLength(1);
    expect(before).toContain(after.find(apart));
    const labelled = planWith({ jacks: { J2: { outlet: 'O2', label: 'A0' } } }, moved);
    expect(router.homeRuns(labelled)).toEqual(homeRuns(labelled));
    expect(router.homeRuns(labelled).ways).not.toEqual(after);
  });
});

describe('a plan of two levels', () => {
  const TWO: Rows = {
    ...ROOM,
    levels: { ...ROOM.levels, L2: { elevation: 3600, ceiling: { kind: 'tile', height: 2700 } } },
    closets: { C1: { level: 'L2', at: [1000, 8000], height: 1500 } },
    risers: { R1: { level: 'L1', upper: 'L2', at: [3000, 8000] } },
  };

  it('6: goes up the riser, path 23350, and every place is where it is in the building', () => {
    const run = only(planWith(TWO));
    expect(run).toMatchObject({ status: 'ok', closet: 'C1', level: 'L1', path: 23_350 });
    expect(run.parts.map((p) => [p.kind, p.length])).toEqual([
      ['up', 2400],
      ['across', 14_000],
      ['riser', 3600],
      ['across', 2000],
      ['down', 1350],
      ['outlet-slack', 300],
      ['closet-loop', 3000],
    ]);
    expect(run.points[0]).toEqual([10_000, 1000, 450]);
    expect(run.points[run.points.length - 1]).toEqual([1000, 8000, 5100]);
  });

  it('lays its ways on the level that they are on', () => {
    const { ways } = homeRuns(planWith(TWO));
    expect(ways.map((w) => [w.level, w.from, w.to])).toEqual(
      expect.arrayContaining([
        ['L1', [10_000, 1000, 2850], [10_000, 8000, 2850]],
        ['L1', [3000, 8000, 2850], [10_000, 8000, 2850]],
        ['L2', [1000, 8000, 6450], [3000, 8000, 6450]],
      ]),
    );
  });

  it('has no way where no riser leads', () => {
    expect(only(planWith({ ...TWO, risers: {} }))).toMatchObject({
      status: 'unroutable',
      blocked: { reason: 'other-level' },
    });
  });

  it('goes to the closet that takes the least cable, on whichever level', () => {
    const closets = { ...TWO.closets, C2: { level: 'L1', at: [10_000, 8000], height: 1500 } };
    expect(only(planWith({ ...TWO, closets })).closet).toBe('C2');
  });

  it('builds again what an edit on one level or of a riser touches, with the answer of a new router', () => {
    const router = createRouter();
    const plan = planWith(TWO);
    router.homeRuns(plan);
    for (const rows of [
      { risers: { R1: { level: 'L1', upper: 'L2', at: [5000, 7000] } } },
      { walls: { W1: { level: 'L2', a: [2000, 0], b: [2000, 9000], top: 'deck' } } },
      { levels: { L2: { elevation: 4000, ceiling: { kind: 'tile', height: 2700 } } } },
    ] as Rows[]) {
      const edited = planWith(rows, plan);
      expect(router.homeRuns(edited)).toEqual(homeRuns(edited));
      expect(router.homeRuns(edited).runs[0]!.cost).not.toBe(only(plan).cost);
    }
  });
});

describe('a pinned run', () => {
  const PINNED: Rows = {
    ...ROOM,
    pins: { N1: { level: 'L1', points: [[11_000, 5000]] } },
    jacks: { J1: { outlet: 'O1', label: 'A1', device: 'D1', pin: 'N1' } },
  };

  it('passes its pin and says what that costs against the free way', () => {
    const run = only(planWith(PINNED));
    expect(run.pinned).toEqual({ pin: 'N1', cost: 2100, path: 2000 });
    expect(run.path).toBe(19_750 + 2000);
  });

  it('leaves every other run as it is', () => {
    const rows = {
      outlets: { ...ROOM.outlets, O2: { level: 'L1', at: [9000, 3000], mount: 'pole' } },
      jacks: { ...PINNED.jacks, J2: { outlet: 'O2', label: 'A2' } },
    };
    const router = createRouter();
    const before = router.homeRuns(planWith({ ...PINNED, ...rows, pins: {} })).runs;
    const after = router.homeRuns(planWith({ ...PINNED, ...rows })).runs;
    expect(before[0]!.pinned).toBeNull();
    expect(after[1]).toEqual(before[1]);
  });

  it('follows its pin when that is moved', () => {
    const router = createRouter();
    const plan = planWith(PINNED);
    router.homeRuns(plan);
    const moved = planWith({ pins: { N1: { level: 'L1', points: [[10_000, 5000]] } } }, plan);
    expect(router.homeRuns(moved).runs[0]!.pinned).toEqual({ pin: 'N1', cost: 0, path: 0 });
  });

  it('is not routed by a pin on a level where no riser leads, and says so', () => {
    const pins = { N1: { level: 'L2', points: [[11_000, 5000]] } };
    const plan = planWith({ ...PINNED, pins, levels: { ...ROOM.levels, L2: {} } });
    expect(only(plan).blocked?.reason).toBe('pin');
  });
});
