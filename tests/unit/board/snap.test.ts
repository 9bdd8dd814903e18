import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FOOT, INCH } from '../../../src/base/units.ts';
import { gridOverPicture, gridStep, type SnapAsk, snap } from '../../../src/board/snap.ts';
import { type SnapKind, snapTargets } from '../../../src/board/snap-targets.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { emptyPlan, makeRow, onLevel } from '../../../src/plan/plan.ts';
import { step } from '../plan/steps.ts';
import { drive, picturePlan, planWith, roomPlan } from './driver.ts';

const ALL: readonly SnapKind[] = [
  'grid',
  'end',
  'middle',
  'place',
  'face',
  'centre',
  'edge',
  'right-angle',
  'aligned',
];

/** 10 mm a pixel: the reach of 9 px is 90 mm. */
const ask = (more: Partial<SnapAsk> = {}): SnapAsk => ({
  pixel: 10,
  kinds: ALL,
  grid: 100,
  anchor: null,
  lock: false,
  without: new Set(),
  under: [],
  ...more,
});

const wallPlan = planWith([
  'draw-walls',
  {
    level: 'L1',
    points: [
      [0, 0],
      [4000, 0],
    ],
  },
]);
const walls = snapTargets(wallPlan, 'L1');
const room = snapTargets(roomPlan(), 'L1');
const empty = snapTargets(emptyPlan(), 'L1');
const place = fc.tuple(
  fc.integer({ min: -2000, max: 10_000 }),
  fc.integer({ min: -2000, max: 8000 }),
);
const run = { seed: 4127, numRuns: 300 };

describe('Snapping', () => {
  it.each([
    ['the end of a wall', [60, -40], [0, 0], 'end'],
    ['the middle of a wall', [2050, 30], [2000, 0], 'middle'],
    ['the face of a wall', [1234, 90], [1200, 62], 'face'],
    ['the centre line of a wall', [1234, -12], [1200, 0], 'centre'],
  ] as const)('takes %s', (_name, raw, at, kind) => {
    const got = snap(walls, raw, ask());
    expect(got.at).toEqual(at);
    expect(got.acts[0]?.kind).toBe(kind);
  });

  it('takes a riser on both of its levels, and the points of a pin on its own', () => {
    const plan = emptyPlan();
    const rows = {
      risers: makeRow('risers', 'R1', { level: 'L1', upper: 'L2', at: [3000, 1000] }),
      pins: makeRow('pins', 'N1', { level: 'L2', points: [[5000, 2000]] }),
    };
    const tables = {
      ...plan.tables,
      levels: new Map(plan.tables.levels).set('L2', makeRow('levels', 'L2', {})),
      risers: new Map([['R1', rows.risers]]),
      pins: new Map([['N1', rows.pins]]),
    };
    const kindsAt = (level: string, at: Point) =>
      snap(snapTargets({ tables }, level), at, ask({ kinds: ['place'] })).acts.map(
        ({ kind }) => kind,
      );
    expect(kindsAt('L1', [3030, 1030])).toEqual(['place']);
    expect(kindsAt('L2', [3030, 1030])).toEqual(['place']);
    expect(kindsAt('L1', [5030, 2030])).toEqual([]);
    expect(kindsAt('L2', [5030, 2030])).toEqual(['place']);
  });

  it('keeps a side square although the other face of a wall of the background ends beside it', () => {
    const faces = [
      [
        [-500, 0],
        [3000, 0],
      ],
      [
        [-500, 124],
        [2900, 124],
      ],
      [
        [3000, 0],
        [3000, 2000],
      ],
    ] as const;
    const more = {
      pixel: 20,
      kinds: [...ALL, 'under-end', 'under-line'] as const,
      anchor: [0, 0] as Point,
      under: faces,
    };
    expect(snap(empty, [2905, 118], ask(more)).at[1]).toBe(0);
    // Without a side to keep square, and where the end is square to it, the end is taken.
    expect(snap(empty, [2905, 118], ask({ ...more, anchor: null })).at).toEqual([2900, 124]);
    expect(snap(empty, [2990, 20], ask(more)).at).toEqual([3000, 0]);
    // What is aslant by more than the reach is meant so.
    expect(snap(empty, [3010, 1990], ask(more)).at).toEqual([3000, 2000]);
  });

  it('takes the corner of two faces that meet', () => {
    const got = snap(room, [90, 40], ask({ kinds: ['face'] }));
    expect(got.at).toEqual([62, 62]);
    expect(got.acts.map((act) => act.kind)).toEqual(['face', 'face']);
  });

  it('keeps a right angle from the anchor, and takes the grid along it', () => {
    const got = snap(empty, [1530, 1260], ask({ anchor: [333, 1250] }));
    expect(got.at).toEqual([1500, 1250]);
    expect(got.acts).toEqual([{ kind: 'right-angle', from: [333, 1250] }]);
  });

  it('leaves the right angle to the pointer when it is far from one', () => {
    expect(snap(empty, [1530, 2260], ask({ anchor: [333, 1250] })).at).toEqual([1500, 2300]);
  });

  it('takes a place in line with another', () => {
    const got = snap(walls, [4030, 2010], ask({ kinds: ['aligned'] }));
    expect(got.at).toEqual([4000, 2010]);
    expect(got.acts).toEqual([{ kind: 'aligned', from: [4000, 0] }]);
  });

  it('takes the crossing of a right angle and a line', () => {
    const got = snap(
      walls,
      [2960, 30],
      ask({ anchor: [3000, 2000], kinds: ['right-angle', 'centre'] }),
    );
    expect(got.at).toEqual([3000, 0]);
    expect(got.acts.map((act) => act.kind).sort()).toEqual(['centre', 'right-angle']);
  });

  it('follows the building lines of a level that is turned', () => {
    const turned = planWith(['edit', { table: 'levels', id: 'L1', fields: { frameAngle: 45 } }]);
    const targets = snapTargets(turned, 'L1');
    const got = snap(targets, [1000, 1050], ask({ anchor: [0, 0], kinds: ['right-angle'] }));
    expect(got.at).toEqual([1025, 1025]);
  });

  it('does not take a place from what is carried', () => {
    const free = snap(walls, [30, 20], ask({ kinds: ['end'], without: new Set(['walls/W1']) }));
    expect(free).toEqual({ at: [30, 20], acts: [] });
  });

  it('is off without kinds: the place is rounded and nothing acts', () => {
    fc.assert(
      fc.property(place, ([x, y]) => {
        const raw: Point = [x + 0.3, y - 0.3];
        expect(snap(room, raw, ask({ kinds: [] }))).toEqual({ at: [x, y], acts: [] });
      }),
      run,
    );
  });

  it('never moves a place out of reach, nor off whole mm', () => {
    fc.assert(
      fc.property(place, fc.option(place), ([x, y], anchor) => {
        const kinds = ALL.filter((kind) => kind !== 'grid');
        const { at } = snap(room, [x, y], ask({ kinds, anchor }));
        // One hold moves it by the reach, the crossing with a second by as much again.
        expect(Math.hypot(at[0] - x, at[1] - y)).toBeLessThanOrEqual(2 * 90 + 1);
        expect(at.every(Number.isInteger)).toBe(true);
      }),
      run,
    );
  });

  it('puts a place on the grid where nothing else is near', () => {
    fc.assert(
      fc.property(place, (raw) => {
        const { at } = snap(empty, raw, ask());
        expect(at.map((v) => Math.abs(v % 100))).toEqual([0, 0]);
        expect(Math.max(Math.abs(at[0] - raw[0]), Math.abs(at[1] - raw[1]))).toBeLessThanOrEqual(
          50,
        );
      }),
      run,
    );
  });

  it('holds every place on a right angle while it is locked', () => {
    fc.assert(
      fc.property(place, place, (raw, anchor) => {
        const { at } = snap(room, raw, ask({ anchor, lock: true }));
        expect(at[0] === anchor[0] || at[1] === anchor[1]).toBe(true);
      }),
      run,
    );
  });

  it('gives the same for a plan that is moved, as its moved place', () => {
    const by: Point = [700_000, -300_000];
    const refs = [...roomPlan().tables.walls.keys()].map((id) => ({ table: 'walls', id }) as const);
    const walled = planWith([
      'draw-zone',
      {
        level: 'L1',
        outline: [
          [0, 0],
          [8000, 0],
          [8000, 6000],
          [0, 6000],
        ],
        walls: true,
      },
    ]);
    const d = drive({ plan: walled });
    d.state().actions.run('move', { refs: [...refs, { table: 'zones', id: 'Z1' }], by });
    const here = snapTargets(walled, 'L1');
    const there = snapTargets(d.plan(), 'L1');
    fc.assert(
      fc.property(place, (raw) => {
        const a = snap(here, raw, ask());
        const b = snap(there, [raw[0] + by[0], raw[1] + by[1]], ask());
        expect(b.at).toEqual([a.at[0] + by[0], a.at[1] + by[1]]);
      }),
      run,
    );
  });

  describe('to the level below, while it shows through', () => {
    const two = planWith(
      [
        'draw-walls',
        {
          level: 'L1',
          points: [
            [0, 0],
            [4050, 0],
          ],
        },
      ],
      ['add-level', { from: 'L1', side: 'above' }],
    );
    const over = snapTargets(two, 'L2', 'L1');

    it.each([
      ['the end of a wall', [4090, -40], [4050, 0], 'end'],
      ['the face of a wall', [1234, 90], [1200, 62], 'face'],
      ['the middle line of a wall', [1234, -12], [1200, 0], 'centre'],
    ] as const)('takes %s', (_name, raw, at, kind) => {
      const got = snap(over, raw, ask());
      expect([got.at, got.acts[0]!.kind]).toEqual([at, kind]);
    });

    it('lets an end on the own level win that is as near, and aligns nothing with it', () => {
      const plan = step(two, 'draw-walls', {
        level: 'L2',
        points: [
          [4150, 0],
          [8000, 0],
        ],
      });
      expect(snap(snapTargets(plan, 'L2', 'L1'), [4098, 0], ask()).at).toEqual([4150, 0]);
      const far = snap(over, [4055, 2022], ask({ kinds: ['grid', 'aligned'] }));
      expect(far).toEqual({ at: [4100, 2000], acts: [{ kind: 'grid', from: null }] });
    });

    it('draws on it, and not once it is put away', () => {
      const d = drive({ plan: two, tool: 'wall', snapping: true });
      d.state().actions.set({ level: 'L2' });
      const drawn = () => {
        d.play('click 4090,-40 · click 4050,3000 · key Enter');
        const [x, y] = onLevel(d.plan(), 'walls', 'L2').at(-1)!.a;
        return [x, y];
      };
      expect(drawn()).toEqual([4050, 0]);
      d.state().actions.undo();
      d.state().actions.set({ shown: { ...d.state().shown, below: false } });
      expect(drawn()).not.toEqual([4050, 0]);
    });
  });

  it('shows the finest grid whose cells can be told apart', () => {
    expect([1, 10, 30, 400].map((pixel) => gridStep('ft', pixel))).toEqual([
      INCH,
      6 * INCH,
      FOOT,
      FOOT,
    ]);
    expect([1, 10, 30, 400].map((pixel) => gridStep('m', pixel))).toEqual([10, 100, 500, 500]);
  });

  describe('over a picture', () => {
    it('takes the grid to whole inches or centimetres while nobody sees it, and else to none', () => {
      expect([1, 6, 7, 30, 400].map((pixel) => gridOverPicture('ft', pixel))).toEqual([
        null,
        null,
        INCH,
        INCH,
        INCH,
      ]);
      expect([1, 3, 30].map((pixel) => gridOverPicture('m', pixel))).toEqual([null, 10, 10]);
    });

    it('acts there alone, and not where the picture is cropped, hidden or put away', () => {
      const at = (fields: Parameters<typeof picturePlan>[0], x: number, background = true) => {
        const d = drive({ plan: picturePlan(fields), tool: 'room', snapping: true });
        d.state().actions.set({ shown: { ...d.state().shown, background } });
        d.play(`move ${x},1000`);
        return d.editor.view().snapped?.at[0];
      };
      expect([at({}, 4093), at({ turn: 90 }, 4093)]).toEqual([4089, 4089]);
      // Elsewhere to half feet, as on bare paper.
      const crop = { x0: 0, y0: 0, x1: 300, y1: 800 };
      expect(at({}, 10_093)).toBe(10_058);
      expect([at({ crop }, 4093), at({ hidden: true }, 4093)]).toEqual([4115, 4115]);
      expect(at({}, 4093, false)).toBe(4115);
    });

    // From a building of 200 ft seen whole on a board of 1280 × 800 to a single door.
    it.each([80, 40, 20, 8, 4, 1])(
      'keeps an outline where the pointer is, at %d mm a pixel',
      (pixel) => {
        const meant: Point[] = [
          [1017, 1123],
          [4391, 1123],
          [4391, 2677],
          [6043, 3391],
          [6043, 6208],
          [1017, 6208],
        ].map(([x, y]) => [(x! * pixel) / 8, (y! * pixel) / 8]);
        const d = drive({
          plan: picturePlan({ mmPerPixel: pixel }),
          tool: 'outline',
          snapping: true,
        });
        d.state().actions.set({
          viewport: { scale: 1 / pixel, left: 0, top: 0, width: 900, height: 800 },
        });
        // The pointer knows whole pixels.
        const hand = meant.map((p) => p.map((v) => Math.round(v / pixel) * pixel));
        d.play([...hand, hand[0]!].map((p) => `click ${p}`).join(' · '));
        const { outline } = [...d.plan().tables.zones.values()][0]!;
        expect(outline).toHaveLength(meant.length);
        const off = outline.map(([x, y]) =>
          Math.min(...meant.map(([u, v]) => Math.max(Math.abs(x - u), Math.abs(y - v)))),
        );
        expect(Math.max(...off)).toBeLessThanOrEqual(3 * pixel);
      },
    );
  });

  it('does not hold a thing that is dragged to the place that it comes from', () => {
    const d = drive({ plan: wallPlan, snapping: true });
    d.state().actions.run('edit', { table: 'job', id: 'job', fields: { units: 'm' } });
    d.play('press 1500,0 · move 1500,200 · move 1500,80 · release 1500,80');
    expect(d.plan().tables.walls.get('W1')?.a).toEqual([0, 100]);
  });

  it('acts on the board only while it is switched on', () => {
    const on = drive({ plan: wallPlan, tool: 'wall', snapping: true });
    on.play('click 4030,20 · click 4030,3000 · key Enter');
    expect([...on.plan().tables.walls.values()].at(-1)?.a).toEqual([4000, 0]);
    const off = drive({ plan: wallPlan, tool: 'wall', snapping: false });
    off.play('click 4030,20 · click 4030,3000 · key Enter');
    expect([...off.plan().tables.walls.values()].at(-1)?.a).toEqual([4030, 20]);
  });
});
