import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Corners } from '../../../src/geometry/homography.ts';
import { distance, nearestOnWall } from '../../../src/geometry/nearest.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { apply, invert } from '../../../src/plan/change.ts';
import { commands } from '../../../src/plan/commands/index.ts';
import { checkWhole } from '../../../src/plan/integrity.ts';
import {
  fromPicture,
  hasScale,
  inLayers,
  ratioOf,
  shownCorners,
  toPicture,
} from '../../../src/plan/picture-place.ts';
import { type Background, emptyPlan, makeRow, type Plan } from '../../../src/plan/plan.ts';
import { planOf } from '../../samples/plan-of.ts';
import { readSite } from '../../samples/site.ts';

const restaurant = planOf(readSite('restaurant'));
const [LEVEL] = [...restaurant.tables.levels.keys()] as [string];
const known = new Set(kinds.keys());

const sheet = (fields: Partial<Background> = {}): Background =>
  makeRow('backgrounds', 'B1', {
    level: LEVEL,
    asset: 'a'.repeat(32),
    width: 4000,
    height: 3000,
    ...fields,
  });

/** The restaurant with sheets under it. */
const over = (...rows: Background[]): Plan => ({
  tables: { ...restaurant.tables, backgrounds: new Map(rows.map((row) => [row.id, row])) },
});

type Named = keyof typeof commands;
const ask = (plan: Plan, name: Named, args: object) =>
  (
    commands[name] as unknown as (
      p: Plan,
      a: object,
      c: object,
    ) => ReturnType<(typeof commands)['set-scale']>
  )(plan, args, { kinds });

/** Does it, and checks that it is one step that can be taken back and leaves a sound plan. */
function done(plan: Plan, name: Named, args: object): Plan {
  const outcome = ask(plan, name, args);
  if (!outcome.ok) throw new Error(`${name}: ${outcome.why.text}`);
  const after = apply(plan, outcome.changes);
  expect(apply(after, invert(outcome.changes)).tables.backgrounds.get('B1')).toEqual(
    plan.tables.backgrounds.get('B1'),
  );
  const assets = new Map([...after.tables.backgrounds.values()].map((b) => [b.asset, true]));
  expect(checkWhole(after, known, assets)).toEqual([]);
  return after;
}

const why = (plan: Plan, name: Named, args: object): string => {
  const outcome = ask(plan, name, args);
  return outcome.ok ? '' : outcome.why.text;
};

const b1 = (plan: Plan): Background => plan.tables.backgrounds.get('B1')!;

const anySheet = fc
  .record({
    origin: fc.tuple(fc.integer({ min: -9999, max: 9999 }), fc.integer({ min: -9999, max: 9999 })),
    mmPerPixel: fc.double({ min: 0.5, max: 60, noNaN: true }),
    turn: fc.constantFrom(0 as const, 90 as const, 180 as const, 270 as const),
    tilt: fc.double({ min: -45, max: 45, noNaN: true }),
  })
  .map(sheet);
const anyPixel = fc.tuple(fc.integer({ min: 0, max: 4000 }), fc.integer({ min: 0, max: 3000 }));
const near = (a: Point, b: Point, within: number) => expect(distance(a, b)).toBeLessThan(within);

describe('The place of a background', () => {
  it('there and back is the same place, however it is turned and tilted', () => {
    fc.assert(
      fc.property(anySheet, anyPixel, (picture, pixel) => {
        near(toPicture(picture, fromPicture(picture, pixel)), pixel, 1e-6);
      }),
      { seed: 21 },
    );
  });

  it('tilted with the clock, what was at the right is lower', () => {
    const level = sheet();
    const [, right] = shownCorners(level);
    const [, tilted] = shownCorners(sheet({ tilt: 10 }));
    expect(tilted![1]).toBeGreaterThan(right![1]);
    // About the middle, which stays.
    near(fromPicture(level, [2000, 1500]), fromPicture(sheet({ tilt: 10 }), [2000, 1500]), 1e-6);
  });

  it('a crop shows only its part', () => {
    const crop = { x0: 1000, y0: 500, x1: 2000, y1: 1500 };
    expect(shownCorners(sheet({ crop, mmPerPixel: 2 }))).toEqual([
      [2000, 1000],
      [4000, 1000],
      [4000, 3000],
      [2000, 3000],
    ]);
  });
});

describe('The scale of a background', () => {
  it('set by a length keeps the first end in its place, to a millimetre', () => {
    fc.assert(
      fc.property(
        anySheet,
        anyPixel,
        anyPixel,
        fc.integer({ min: 100, max: 99_999 }),
        (picture, p, q, length) => {
          fc.pre(distance(p, q) > 25);
          const [a, b] = [fromPicture(picture, p), fromPicture(picture, q)];
          const outcome = ask(over(picture), 'set-scale', { background: 'B1', a, b, length });
          fc.pre(outcome.ok);
          const after = b1(apply(over(picture), outcome.ok ? outcome.changes : []));
          near(fromPicture(after, p), a, 1);
          expect(distance(fromPicture(after, p), fromPicture(after, q))).toBeCloseTo(length, 3);
        },
      ),
      { seed: 22 },
    );
  });

  it('by what is printed takes the width of the sheet', () => {
    // 42 in. at 1/4 in. to the foot are 168 ft.
    const plan = over(sheet());
    const after = b1(
      done(plan, 'set-printed-scale', { background: 'B1', ratio: 48, paper: 42 * 25.4 }),
    );
    expect((after.mmPerPixel * after.width) / 304.8).toBeCloseTo(168, 9);
    expect([hasScale(after), ratioOf(after), after.scale]).toEqual([
      true,
      expect.closeTo(48, 9),
      null,
    ]);
    near(fromPicture(after, [2000, 1500]), fromPicture(b1(plan), [2000, 1500]), 1);
    // A length set afterwards takes its place; the sheet still tells the ratio.
    const [a, b] = [fromPicture(after, [0, 0]), fromPicture(after, [4000, 0])];
    const again = b1(done(over(after), 'set-scale', { background: 'B1', a, b, length: 51_000 }));
    expect([again.ratio, ratioOf(again)]).toEqual([null, expect.closeTo(51_000 / (42 * 25.4), 6)]);
  });

  it.each([
    [{ ratio: 0, paper: 100 }],
    [{ ratio: 96, paper: 0 }],
    [{ ratio: Number.NaN, paper: 100 }],
    [{ ratio: 96, paper: 1e9 }],
    [{ ratio: 1e7, paper: 99_999 }],
  ])('is not set by %j', (args) => {
    expect(
      why(over(sheet({ width: 10, height: 10 })), 'set-printed-scale', {
        background: 'B1',
        ...args,
      }),
    ).not.toBe('');
  });

  it('leaves what is drawn as it is, unless that goes along', () => {
    const plan = over(sheet());
    const args = { background: 'B1', a: [0, 0], b: [10_000, 0], length: 20_000 };
    const kept = done(plan, 'set-scale', args);
    for (const table of ['walls', 'zones', 'devices', 'outlets', 'pathways'] as const)
      expect(kept.tables[table]).toBe(plan.tables[table]);
  });

  it('takes along all that is drawn: every place lies on the same pixel as before, and walls keep their thickness', () => {
    const plan = over(sheet({ origin: [-300, 700] }));
    const args = {
      background: 'B1',
      a: [1200, 900],
      b: [11_200, 900],
      length: 15_000,
      follow: true,
    };
    const after = done(plan, 'set-scale', args);
    const [was, is] = [b1(plan), b1(after)];
    const same = (before: Point, now: Point, slack: number) =>
      near(toPicture(was, before), toPicture(is, now), slack / is.mmPerPixel);
    for (const [id, wall] of plan.tables.walls) {
      const now = after.tables.walls.get(id)!;
      same(wall.a, now.a, 2);
      same(wall.b, now.b, 2);
      expect(now.thickness).toBe(wall.thickness);
    }
    for (const [id, zone] of plan.tables.zones)
      zone.outline.forEach((p, i) => {
        same(p, after.tables.zones.get(id)!.outline[i]!, 2);
      });
    for (const table of ['devices', 'closets', 'powers'] as const)
      for (const [id, row] of plan.tables[table]) same(row.at, after.tables[table].get(id)!.at, 2);
    for (const [id, way] of plan.tables.pathways)
      way.points.forEach((p, i) => {
        same(p, after.tables.pathways.get(id)!.points[i]!, 2);
      });
    // Outlets lie on the faces of walls that did not get thicker.
    for (const [id, outlet] of plan.tables.outlets) {
      const now = after.tables.outlets.get(id)!;
      const wall = outlet.wall ? plan.tables.walls.get(outlet.wall) : undefined;
      same(outlet.at, now.at, 3 + (wall ? wall.thickness : 0));
      expect(now.wall).toBe(outlet.wall);
      const { a, b, thickness } = after.tables.walls.get(outlet.wall ?? '') ?? {};
      if (a && b) expect(distance(now.at, nearestOnWall(a, b, thickness!, now.at))).toBeLessThan(2);
    }
  });

  it('there and back again brings what was drawn back to where it was, to the rounding', () => {
    const plan = over(sheet());
    const line = { background: 'B1', a: [0, 0], b: [10_000, 0], follow: true };
    const there = done(plan, 'set-scale', { ...line, length: 30_000 });
    const back = done(there, 'set-scale', { ...line, b: [30_000, 0], length: 10_000 });
    for (const [id, wall] of plan.tables.walls) near(wall.a, back.tables.walls.get(id)!.a, 2);
    for (const [id, outlet] of plan.tables.outlets)
      near(outlet.at, back.tables.outlets.get(id)!.at, 3);
  });

  it('is refused where what is drawn would vanish or leave the world, and nothing changes', () => {
    const plan = over(sheet({ mmPerPixel: 10 }));
    const line = { background: 'B1', a: [0, 0], b: [10_000, 0], follow: true };
    expect(why(plan, 'set-scale', { ...line, length: 1 })).toContain('too large or too small');
    expect(why(plan, 'set-scale', { ...line, length: 30_000_000 })).toContain('too large');
  });

  it('is refused where a room would shrink to nothing, or the picture would reach beyond a plan', () => {
    const outline = [
      [0, 0],
      [90, 0],
      [90, 90],
      [0, 90],
    ] as const;
    const room = makeRow('zones', 'Z1', { level: LEVEL, outline });
    const blank = over(sheet({ mmPerPixel: 10 }));
    const none = new Map();
    const tables = { ...emptyPlan().tables, backgrounds: blank.tables.backgrounds };
    const alone = { tables: { ...tables, zones: new Map([['Z1', room]]) } };
    const line = { background: 'B1', a: [0, 0], b: [10_000, 0] };
    expect(why(alone, 'set-scale', { ...line, length: 50, follow: true })).toContain('too small');
    const empty = { tables: { ...tables, zones: none } };
    const far = { background: 'B1', a: [30_000, 20_000], b: [30_300, 20_000], length: 30_000_000 };
    expect(why(empty, 'set-scale', far)).toContain('larger than any building');
    expect(why(empty, 'check-scale', { ...line, length: 40_000_000 })).toContain('farther');
  });
});

describe('What is drawn and goes along with a new scale', () => {
  const wall = makeRow('walls', 'W1', { level: LEVEL, a: [0, 0], b: [4000, 0] });
  const drawn = (): Plan => {
    const plan = over(sheet({ mmPerPixel: 10, origin: [0, 0] }));
    const door = makeRow('openings', 'G1', { wall: 'W1', along: 3000, width: 914 });
    const note = makeRow('notes', 'T1', {
      level: LEVEL,
      at: [1000, 1000],
      text: 'Look',
      to: [2000, 500],
    });
    const line = makeRow('dimensions', 'M1', { level: LEVEL, a: [0, 0], b: [4000, 0] });
    return {
      ...plan,
      tables: {
        ...plan.tables,
        walls: new Map([['W1', wall]]),
        openings: new Map([['G1', door]]),
        notes: new Map([['T1', note]]),
        dimensions: new Map([['M1', line]]),
      },
    };
  };
  const scaled = (length: number) =>
    ({ background: 'B1', a: [0, 0], b: [1000, 0], length, follow: true }) as const;

  it('takes doors, notes and dimensions along, and leaves the breadth of a door', () => {
    const plan = drawn();
    const outcome = ask(plan, 'set-scale', scaled(2000));
    const after = apply(plan, outcome.ok ? outcome.changes : []);
    const { openings, notes, dimensions, walls } = after.tables;
    expect(walls.get('W1')!.b).toEqual([8000, 0]);
    expect(openings.get('G1')).toMatchObject({ along: 6000, width: 914 });
    expect(notes.get('T1')).toMatchObject({ at: [2000, 2000], to: [4000, 1000] });
    expect(dimensions.get('M1')).toMatchObject({ a: [0, 0], b: [8000, 0] });
  });

  it('is left alone where a door would not fit in its wall any more', () => {
    expect(why(drawn(), 'set-scale', scaled(200))).toContain('too small');
  });
});

describe('The shape of a background', () => {
  it('is level or plumb along the line that was drawn, whose first end stays', () => {
    fc.assert(
      fc.property(anySheet, anyPixel, anyPixel, (picture, p, q) => {
        fc.pre(distance(p, q) > 200);
        const [a, b] = [fromPicture(picture, p), fromPicture(picture, q)];
        const outcome = ask(over(picture), 'level-background', { background: 'B1', a, b });
        fc.pre(outcome.ok);
        const after = b1(apply(over(picture), outcome.ok ? outcome.changes : []));
        const [now, end] = [fromPicture(after, p), fromPicture(after, q)];
        near(now, a, 1);
        const off = Math.min(Math.abs(end[0] - now[0]), Math.abs(end[1] - now[1]));
        expect(off / distance(now, end)).toBeLessThan(0.0001);
        // By less than an eighth of a turn: level stays level, plumb plumb.
        const cos =
          ((b[0] - a[0]) * (end[0] - now[0]) + (b[1] - a[1]) * (end[1] - now[1])) /
          distance(a, b) /
          distance(now, end);
        expect(cos).toBeGreaterThan(Math.SQRT1_2 - 0.001);
      }),
      { seed: 23 },
    );
  });

  it('is cropped to a box on it, within its sides, and shown whole again', () => {
    const picture = sheet({ turn: 90, tilt: 5 });
    const corner = (x: number, y: number) => fromPicture(picture, [x, y]);
    const plan = done(over(picture), 'crop-background', {
      background: 'B1',
      a: corner(900, 2500),
      b: corner(5000, 100),
    });
    expect(b1(plan).crop).toEqual({ x0: 900, y0: 100, x1: 4000, y1: 2500 });
    const small = { background: 'B1', a: corner(10, 10), b: corner(25, 500) };
    expect(why(plan, 'crop-background', small)).toContain('Draw a box');
    const whole = done(plan, 'edit', { table: 'backgrounds', id: 'B1', fields: { crop: null } });
    expect(b1(whole).crop).toBeNull();
  });

  it('cannot be cropped to nothing by a file or a script', () => {
    const crop = { x0: 50, y0: 0, x1: 50, y1: 10 };
    const fields = { table: 'backgrounds', id: 'B1', fields: { crop } };
    expect(why(over(sheet()), 'edit', fields)).not.toBe('');
    expect(
      why(over(sheet()), 'edit', { ...fields, fields: { crop: { ...crop, x1: 4001 } } }),
    ).not.toBe('');
  });

  it('several lie in an order that can be changed, a new one on top', () => {
    const more = (id: string): Background => ({ ...sheet(), id });
    const ids = (plan: Plan) =>
      inLayers(plan, LEVEL)
        .map(({ id }) => id)
        .join('');
    let plan = over(sheet(), more('B2'), more('B3'));
    expect(ids(plan)).toBe('B1B2B3');
    plan = done(plan, 'lay-background', { background: 'B1', over: true });
    expect(ids(plan)).toBe('B2B1B3');
    plan = done(plan, 'lay-background', { background: 'B3', over: false });
    expect(ids(plan)).toBe('B2B3B1');
    expect(why(plan, 'lay-background', { background: 'B1', over: true })).toContain('topmost');
    expect(why(plan, 'lay-background', { background: 'B2', over: false })).toContain('lowest');
    plan = done(plan, 'add-background', {
      level: LEVEL,
      name: 'new',
      asset: 'b'.repeat(32),
      width: 10,
      height: 10,
    });
    expect(ids(plan)).toBe('B2B3B1B4');
  });

  it('a straightened photo lies where the photo lay, and known lengths keep their length', () => {
    const picture = sheet({
      turn: 90,
      scale: { a: [1000, 800], b: [3000, 820], length: 12_000 },
      check: { a: [900, 700], b: [950, 2300], length: 9000 },
    });
    // Seen from the upper left round: the picture is turned by a quarter.
    const corners: Corners = [
      [700, 2600],
      [600, 500],
      [3300, 400],
      [3500, 2700],
    ];
    const args = { background: 'B1', corners, asset: 'c'.repeat(32), width: 2200, height: 2900 };
    const before = corners.map((corner) => fromPicture(picture, corner));
    const after = b1(done(over(picture), 'straighten-background', args));
    expect([after.turn, after.tilt, after.width, after.asset]).toEqual([
      0,
      0,
      2200,
      'c'.repeat(32),
    ]);
    const { a, b, length } = after.scale!;
    expect(length).toBe(12_000);
    expect(distance(a, b) * after.mmPerPixel).toBeCloseTo(12_000, 6);
    expect(after.check!.length).toBe(9000);
    const middle = (points: readonly Point[]): Point => [
      points.reduce((sum, [x]) => sum + x, 0) / 4,
      points.reduce((sum, [, y]) => sum + y, 0) / 4,
    ];
    near(middle(shownCorners(after)), middle(before), 2);
  });

  it('without a known length a straightened photo stays as wide as it was', () => {
    const corners: Corners = [
      [500, 500],
      [3500, 500],
      [3700, 2500],
      [300, 2500],
    ];
    const args = { background: 'B1', corners, asset: 'c'.repeat(32), width: 3400, height: 2300 };
    const after = b1(done(over(sheet({ mmPerPixel: 5 })), 'straighten-background', args));
    expect(after.mmPerPixel * after.width).toBeCloseTo(5 * 3200, 6);
    const crossed = { ...args, corners: [corners[0], corners[2], corners[1], corners[3]] };
    expect(why(over(sheet()), 'straighten-background', crossed)).toContain('corners');
  });

  it.each([
    'set-scale',
    'set-printed-scale',
    'check-scale',
    'turn-background',
    'level-background',
    'crop-background',
    'lay-background',
    'straighten-background',
  ] as const)('%s says so when the background is gone', (name) => {
    const args = {
      background: 'B9',
      a: [0, 0],
      b: [999, 0],
      length: 5,
      ratio: 1,
      paper: 1,
      corners: [],
    };
    expect(why(over(sheet()), name, args)).toContain('no longer there');
  });
});
