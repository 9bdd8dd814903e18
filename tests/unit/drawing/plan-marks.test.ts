import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Mark } from '../../../src/drawing/display.ts';
import { fontMeasure } from '../../../src/drawing/measure.ts';
import {
  PLAN_GROUPS,
  type PlanDrawing,
  type PlanGroup,
  type PlanView,
  planMarks,
} from '../../../src/drawing/plan-marks.ts';
import { OVER_PICTURE } from '../../../src/drawing/room-marks.ts';
import { wayWidth } from '../../../src/drawing/way-marks.ts';
import { kinds } from '../../../src/kinds/index.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import type { Survey } from '../../../src/results/types.ts';
import { overlapping, symbolBoxes, textsOf } from './boxes.ts';
import { NOTHING, planOf, type Rows, way } from './small-plan.ts';

const SCALE = 1 / 96;
const view = (more: Partial<PlanView> = {}): PlanView => ({
  level: 'L1',
  scale: SCALE,
  kinds,
  measure: fontMeasure,
  ...more,
});

const draw = (plan: Plan, survey: Survey = NOTHING, more: Partial<PlanView> = {}): PlanDrawing =>
  planMarks(plan, survey, view(more));

const layer = (drawing: PlanDrawing, group: PlanGroup): readonly Mark[] =>
  drawing.layers.find((one) => one.group === group)?.marks ?? [];

/** Devices with a jack each at given places, in building mm. */
function devicesAt(places: readonly (readonly [number, number])[]): Plan {
  const kindIds = [...kinds.keys()];
  const rows = {
    devices: {} as Record<string, never>,
    outlets: {} as Record<string, never>,
    jacks: {} as Record<string, never>,
  } as unknown as Required<Pick<Rows, 'devices' | 'outlets' | 'jacks'>>;
  places.forEach(([x, y], i) => {
    const n = i + 1;
    Object.assign(rows.devices, {
      [`D${n}`]: { level: 'L1', kind: kindIds[i % kindIds.length]!, at: [x, y] },
    });
    Object.assign(rows.outlets, {
      [`O${n}`]: {
        level: 'L1',
        at: [x + 150, y - 300],
        mount: (['wall', 'ceiling', 'floor'] as const)[i % 3]!,
      },
    });
    Object.assign(rows.jacks, {
      [`J${n}`]: { outlet: `O${n}`, label: `${'ABC'[i % 3]}${n}`, device: `D${n}` },
    });
  });
  return planOf(rows);
}

const cluster = fc.array(
  fc.tuple(fc.integer({ min: 0, max: 9000 }), fc.integer({ min: 0, max: 6000 })),
  { minLength: 1, maxLength: 45 },
);

describe('plan marks', () => {
  it('never let symbols, labels and counts overlap, however devices crowd', () => {
    fc.assert(
      fc.property(cluster, fc.constantFrom(48, 96, 192), (places, ratio) => {
        const scale = 1 / ratio;
        const drawing = draw(devicesAt(places), NOTHING, { scale, heights: true });
        const boxes = drawing.layers
          .filter(({ group }) =>
            ['outlets', 'devices', 'closets', 'power', 'counts'].includes(group),
          )
          .flatMap(({ marks }) => symbolBoxes(marks, scale));
        expect(overlapping(boxes)).toEqual([]);
      }),
      { seed: 3, numRuns: 40 },
    );
  });

  it('show every jack and device, or name those that had no room', () => {
    fc.assert(
      fc.property(cluster, (places) => {
        const drawing = draw(devicesAt(places), NOTHING, { scale: 1 / 192 });
        const labels = textsOf(layer(drawing, 'outlets'));
        const missing = new Set(drawing.leftOut.map(({ what }) => what));
        places.forEach((_, i) => {
          const label = `${'ABC'[i % 3]}${i + 1}`;
          expect(labels.includes(label) !== missing.has(label)).toBe(true);
        });
      }),
      { seed: 4, numRuns: 30 },
    );
  });

  it('move a crowded symbol aside with a line back to its own place', () => {
    const drawing = draw(
      devicesAt([
        [1000, 1000],
        [1040, 1000],
      ]),
    );
    expect(layer(drawing, 'leaders').length).toBeGreaterThan(0);
    const still = draw(
      devicesAt([
        [1000, 1000],
        [1040, 1000],
      ]),
      NOTHING,
      { spread: false },
    );
    const at = layer(still, 'devices').map((mark) => (mark.op === 'symbol' ? mark.at : null));
    expect(at[0]![0]).toBeCloseTo(1000);
    expect(at[1]![0]).toBeCloseTo(1040);
  });

  it('keep the size of symbols on paper at any scale', () => {
    const plan = devicesAt([[1000, 1000]]);
    const size = (scale: number) => {
      const [box] = symbolBoxes(layer(draw(plan, NOTHING, { scale }), 'devices'), scale);
      return [box!.x1 - box!.x0, box!.y1 - box!.y0];
    };
    const [large, small] = [size(1 / 24), size(1 / 384)];
    expect(small[0]).toBeCloseTo(large[0]!, 6);
    expect(small[1]).toBeCloseTo(large[1]!, 6);
  });

  it('are the same for the same input, and do not depend on the order of rows', () => {
    const places: [number, number][] = [
      [500, 500],
      [700, 500],
      [900, 520],
      [650, 700],
    ];
    const plan = devicesAt(places);
    expect(draw(plan)).toEqual(draw(plan));
    const turned = {
      tables: {
        ...plan.tables,
        devices: new Map([...plan.tables.devices].reverse()),
        outlets: new Map([...plan.tables.outlets].reverse()),
        jacks: new Map([...plan.tables.jacks].reverse()),
      },
    };
    expect(draw(turned)).toEqual(draw(plan));
  });

  it('hold only the groups that are asked for, in drawing order', () => {
    const plan = devicesAt([[1000, 1000]]);
    const large = { scale: 1 / 24 };
    expect(draw(plan, NOTHING, large).layers.map(({ group }) => group)).toEqual([
      'outlets',
      'devices',
    ]);
    const only = draw(plan, NOTHING, { ...large, groups: new Set<PlanGroup>(['devices']) });
    expect(only.layers.map(({ group }) => group)).toEqual(['devices']);
    expect(new Set(PLAN_GROUPS).size).toBe(PLAN_GROUPS.length);
  });

  it('say height and mount under a jack when asked, in the units of the job', () => {
    const rows: Rows = {
      outlets: { O1: { level: 'L1', at: [0, 0], height: 1219, mount: 'casework' } },
      jacks: { J1: { outlet: 'O1', label: 'A3' }, J2: { outlet: 'O1', label: 'A3-2' } },
    };
    expect(textsOf(layer(draw(planOf(rows), NOTHING, { heights: true }), 'outlets'))).toEqual([
      '2',
      'A3,-2',
      '+48" K',
    ]);
    const metric = planOf({ ...rows, job: { job: { units: 'm' } } });
    expect(textsOf(layer(draw(metric, NOTHING, { heights: true }), 'outlets'))).toContain(
      '+1.22 K',
    );
    expect(textsOf(layer(draw(metric), 'outlets'))).toEqual(['2', 'A3,-2']);
  });

  it('point a jack away from the wall that it hangs on', () => {
    const plan = planOf({
      walls: { W1: { level: 'L1', a: [0, 0], b: [5000, 0], thickness: 100 } },
      outlets: {
        O1: { level: 'L1', at: [1000, 50], wall: 'W1' },
        O2: { level: 'L1', at: [3000, -50], wall: 'W1' },
      },
      jacks: { J1: { outlet: 'O1', label: 'A1' }, J2: { outlet: 'O2', label: 'A2' } },
    });
    const tips = layer(draw(plan), 'outlets').flatMap((mark) => {
      const triangle = mark.op === 'symbol' ? mark.marks[0] : undefined;
      return triangle?.op === 'line' ? [triangle.points[0]![1]] : [];
    });
    expect(tips[0]).toBeGreaterThan(1);
    expect(tips[1]).toBeLessThan(-1);
  });

  it('draw a device of an unknown kind as a box with question marks', () => {
    const plan = planOf({ devices: { D1: { level: 'L1', kind: 'from-the-future', at: [0, 0] } } });
    expect(textsOf(layer(draw(plan), 'devices'))).toEqual(['??']);
  });

  it('leave out hidden pictures', () => {
    const picture = { level: 'L1', asset: 'a'.repeat(16), width: 100, height: 50, mmPerPixel: 20 };
    const shown = layer(draw(planOf({ backgrounds: { B1: picture } })), 'background');
    expect(shown).toEqual([
      {
        op: 'picture',
        at: [0, 0],
        width: 2000,
        height: 1000,
        turn: 0,
        opacity: 0.6,
        asset: 'a'.repeat(16),
      },
    ]);
    const hidden = planOf({ backgrounds: { B1: { ...picture, hidden: true } } });
    expect(draw(hidden).layers).toEqual([]);
  });

  it('let a shown picture be seen through rooms and keep-outs, and fill them whole without one', () => {
    const outline = [
      [0, 0],
      [4000, 0],
      [4000, 3000],
    ] as const;
    const picture = { level: 'L1', asset: 'a'.repeat(16), width: 100, height: 50, mmPerPixel: 90 };
    const hard = { kind: 'hard', height: 2700 } as const;
    const fills = (hidden: boolean, more: Partial<PlanView> = {}) => {
      const plan = planOf({
        backgrounds: { B1: { ...picture, hidden } },
        zones: { Z1: { level: 'L1', area: 'B', ceiling: hard, outline } },
        keepouts: { K1: { level: 'L1', outline } },
      });
      const drawing = draw(plan, NOTHING, more);
      const marks = [...layer(drawing, 'zones'), ...layer(drawing, 'keepouts')];
      const lines = marks.flatMap((mark) => (mark.op === 'line' ? [mark.style] : []));
      // Outline and hatch are as strong over a picture as without one.
      expect(lines.filter((s) => s.hatch && s.stroke && s.opacity === undefined).length).toBe(2);
      return lines.flatMap(({ fill, opacity }) => (fill ? [[fill, opacity]] : []));
    };
    const whole = [
      ['tint-1', undefined],
      ['warn-paper', undefined],
    ];
    const thin = [
      ['area-1', OVER_PICTURE],
      ['warn', OVER_PICTURE],
    ];
    expect(OVER_PICTURE).toBeLessThanOrEqual(0.45);
    expect(fills(false)).toEqual(thin);
    expect(fills(true)).toEqual(whole);
    expect(fills(false, { overPictures: false })).toEqual(whole);
    const alone = { groups: new Set<PlanGroup>(['zones', 'keepouts']) };
    expect(fills(false, alone)).toEqual(whole);
    expect(fills(false, { ...alone, overPictures: true })).toEqual(thin);
  });

  it('give an empty drawing for a level that is not there', () => {
    expect(draw(devicesAt([[0, 0]]), NOTHING, { level: 'L9' })).toEqual({
      layers: [],
      leftOut: [],
    });
  });
});

describe('shared ways', () => {
  const labels = ['A1', 'A2', 'A3', 'B1'];
  const plan = planOf({
    outlets: { O1: { level: 'L1', at: [0, 9000] } },
    jacks: Object.fromEntries(labels.map((label, i) => [`J${i + 1}`, { outlet: 'O1', label }])),
  });
  const survey: Survey = {
    ...NOTHING,
    ways: [
      way([0, 0], [3000, 0], ['J1', 'J2', 'J3']),
      way([3000, 0], [3000, 2000], ['J1', 'J2', 'J3']),
      way([3000, 2000], [8000, 2000], ['J1', 'J2', 'J3', 'J4']),
      way([3000, 2000], [3000, 6000], ['J4']),
    ],
  };

  it('are one line for all cables, wider the more there are, and joined where the cables stay the same', () => {
    const lines = layer(draw(plan, survey), 'ways').map((mark) =>
      mark.op === 'line' ? { points: mark.points, ...mark.style } : null,
    );
    expect(lines.map((line) => line!.width)).toEqual([wayWidth(4), wayWidth(3), wayWidth(1)]);
    expect(wayWidth(4)).toBeGreaterThan(wayWidth(3));
    expect(lines[1]!.points.length).toBe(3);
  });

  it('take the ink of an area only where all their cables are of that area', () => {
    const inks = layer(draw(plan, survey), 'ways').map((mark) =>
      mark.op === 'line' ? mark.style.stroke : null,
    );
    expect(inks).toEqual(['cable', 'area-0', 'area-1']);
  });

  it('carry their number, with the letter where they are of one area; a lone cable has none', () => {
    expect(textsOf(layer(draw(plan, survey), 'counts')).sort()).toEqual(['3 A', '4']);
  });

  it('have their number on the line', () => {
    const badges = layer(draw(plan, survey), 'counts').map((mark) =>
      mark.op === 'symbol' ? mark.at : null,
    );
    expect(badges.some((at) => at![1] === 2000 && at![0] > 3000 && at![0] < 8000)).toBe(true);
  });

  it('keep their number off symbols', () => {
    const busy = planOf({
      closets: { C1: { level: 'L1', at: [5500, 2000] } },
      outlets: { O1: { level: 'L1', at: [1500, 0] } },
      jacks: Object.fromEntries(labels.map((label, i) => [`J${i + 1}`, { outlet: 'O1', label }])),
    });
    const drawing = draw(busy, survey);
    const boxes = drawing.layers
      .filter(({ group }) => ['outlets', 'closets', 'counts'].includes(group))
      .flatMap(({ marks }) => symbolBoxes(marks, SCALE));
    expect(overlapping(boxes)).toEqual([]);
    expect(textsOf(layer(drawing, 'counts')).length).toBe(2);
  });

  it('skip what goes straight up or down', () => {
    const upright = { ...way([0, 0], [0, 0], ['J1', 'J2']), to: [0, 0, 500] as const };
    expect(layer(draw(plan, { ...NOTHING, ways: [upright] }), 'ways')).toEqual([]);
  });
});

describe('room names', () => {
  const zone = (x: number, width: number, name: string) => ({
    level: 'L1',
    name,
    area: 'B',
    outline: [
      [x, 0],
      [x + width, 0],
      [x + width, 4000],
      [x, 4000],
    ] as [number, number][],
    ceiling: { kind: 'tile' as const, height: 2743 },
  });

  it('say area, name, kind of ceiling and its height', () => {
    const plan = planOf({ zones: { Z1: zone(0, 5000, 'Main dining') } });
    expect(textsOf(layer(draw(plan), 'rooms'))).toEqual(['B', 'Main dining', "TILE 9'"]);
  });

  it('keep a long word whole where it fits, if need be under the letter', () => {
    for (const width of [1250, 1350, 1450, 1700]) {
      const plan = planOf({ zones: { Z1: zone(0, width, 'Electrical room') } });
      expect(textsOf(layer(draw(plan), 'rooms'))).toEqual(
        expect.arrayContaining(['B', 'Electrical', 'room']),
      );
    }
  });

  it('are shortened to the letter in a narrow room, and named as left out in a tiny one', () => {
    const narrow = planOf({ zones: { Z1: zone(0, 600, 'Janitor and water heater') } });
    expect(textsOf(layer(draw(narrow), 'rooms'))).toEqual(['B']);
    const tiny = draw(planOf({ zones: { Z1: zone(0, 200, 'Duct') } }));
    expect(layer(tiny, 'rooms')).toEqual([]);
    expect(tiny.leftOut).toEqual([{ group: 'rooms', what: 'Duct' }]);
  });

  it('never break a word of a name, however narrow the room is', () => {
    const whole = new Set(['B', 'Network', 'closet', 'Network closet', "TILE 9'"]);
    const said = new Set<string>();
    for (let width = 600; width < 4000; width += 50) {
      const plan = planOf({ zones: { Z1: zone(0, width, 'Network closet') } });
      for (const text of textsOf(layer(draw(plan), 'rooms'))) said.add(text);
    }
    expect([...said].filter((text) => !whole.has(text))).toEqual([]);
    expect(said).toContain('Network');
  });

  it('hatch what has a closed ceiling, whatever its tint', () => {
    const plan = planOf({
      zones: {
        Z1: zone(0, 5000, 'Open'),
        Z2: { ...zone(6000, 5000, 'Closed'), ceiling: { kind: 'hard', height: 2743 } },
      },
    });
    const hatches = layer(draw(plan), 'zones').map((mark) =>
      mark.op === 'line' ? mark.style.hatch : null,
    );
    expect(hatches).toEqual([undefined, 'diagonal']);
  });
});

describe('pathways', () => {
  it('say what schedules call them, named or not, unless the drawing has no room for notes', () => {
    const row = (y: number, more: object) => ({
      ...{ kind: 'tray' as const, points: [[0, y] as const, [20_000, y] as const] },
      ...more,
    });
    const plan = planOf({
      pathways: { P1: row(0, {}), P2: row(5000, { name: 'Spine', size: '12 in.' }) },
    });
    const said = (more: Partial<PlanView> = {}) =>
      textsOf(layer(draw(plan, NOTHING, more), 'pathways')).sort();
    expect(said()).toEqual(['Spine, 12 in.', 'tray P1']);
    expect(said({ notes: false })).toEqual([]);
  });
});

describe('a plan with a place that was mistyped', () => {
  const far = 33_000_000;
  it('is drawn though a pathway reaches as far as a plan can', () => {
    const points = [
      [0, 0],
      [far, 0],
      [far, far],
    ] as const;
    for (const kind of ['hook-line', 'tray', 'raceway'] as const) {
      const plan = planOf({ pathways: { P1: { kind, points } } });
      expect(layer(draw(plan), 'pathways').length).toBeGreaterThan(1);
    }
  });

  it('is drawn though a wall is as long or as thick as a plan can hold', () => {
    const rows = {
      W1: { a: [0, 0], b: [far, -far] },
      W2: { a: [0, 0], b: [5000, 0], thickness: far },
    } as const;
    expect(layer(draw(planOf({ walls: rows })), 'walls').length).toBeGreaterThan(0);
  });
});

describe('names of closets', () => {
  it('leads from a closet to its name where that has to stand off', () => {
    const closets = Object.fromEntries(
      Array.from({ length: 16 }, (_, i) => [
        `C${i + 1}`,
        { at: [(i % 4) * 660, Math.floor(i / 4) * 540] as const, name: `Rack ${i + 1}` },
      ]),
    );
    const drawing = draw(planOf({ closets }));
    const off = textsOf(layer(drawing, 'closets')).filter((text) => /^Rack/.test(text));
    expect(off.length).toBeGreaterThan(12);
    expect(layer(drawing, 'leaders').length).toBeGreaterThan(0);
  });
});

describe('a name of hundreds of letters', () => {
  it('does not run across the drawing, whatever bears it', () => {
    const name = 'W'.repeat(400);
    const plan = planOf({
      levels: { L1: {}, L2: { elevation: 4000 } },
      closets: { C1: { name, at: [0, 0] } },
      pins: { N1: { name, points: [[9000, 9000]] } },
      risers: { R1: { name, at: [18_000, 0], upper: 'L2' } },
      keepouts: {
        K1: {
          name,
          outline: [
            [0, 20_000],
            [9000, 20_000],
            [9000, 29_000],
          ],
        },
      },
    });
    const texts = draw(plan).layers.flatMap(({ marks }) => textsOf(marks));
    expect(texts.filter((text) => text.startsWith('WW')).length).toBeGreaterThan(2);
    for (const text of texts)
      expect(fontMeasure.width(text, 2.3, 'sans', true)).toBeLessThanOrEqual(95);
  });
});
