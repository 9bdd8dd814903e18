import { describe, expect, it } from 'vitest';
import { highlightMarks, tagMarks } from '../../../src/board/highlight.ts';
import { division, ticks } from '../../../src/board/rulers.ts';
import { paperPixels } from '../../../src/board/scene.ts';
import { sceneMaker } from '../../../src/board/scene-maker.ts';
import { createSession, LEGS, toBoard, toPlan } from '../../../src/board/session.ts';
import { readTyped, whyNoLength } from '../../../src/board/typing.ts';
import { fitPlan, fitted, planExtent, resized, zoomed } from '../../../src/board/view.ts';
import type { Mark } from '../../../src/drawing/display.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { emptyPlan, type Ref } from '../../../src/plan/plan.ts';
import { createSurveyor } from '../../../src/survey/survey.ts';
import { drive, picturePlan, planWith, roomPlan } from './driver.ts';

const view = { scale: 0.05, left: -1000, top: -500, width: 1000, height: 700 };
const texts = (marks: readonly Mark[]): string[] =>
  marks.flatMap((mark) =>
    mark.op === 'text'
      ? [mark.text]
      : mark.op === 'symbol' || mark.op === 'group'
        ? texts(mark.marks)
        : [],
  );

describe('The view', () => {
  it('zooms with the place under the pointer staying there', () => {
    const before = toPlan(view, 300, 200);
    for (const factor of [1.3, 0.4, 1e9, 1e-9]) {
      const after = toBoard(zoomed(view, factor, 300, 200), before);
      expect(after[0]).toBeCloseTo(300, 3);
      expect(after[1]).toBeCloseTo(200, 3);
    }
  });

  it('fits everything on the level, clear of the rulers', () => {
    const fit = fitted(view, { x0: 0, y0: 0, x1: 60_000, y1: 10_000 });
    const [left, top] = toBoard(fit, [0, 0]);
    const [right, bottom] = toBoard(fit, [60_000, 10_000]);
    // Symbols and counts on the outer walls reach 12 paper mm over them.
    const air = left - 20;
    expect(air).toBeGreaterThanOrEqual(12 * paperPixels(fit.scale));
    expect(air).toBeLessThan(70);
    expect(right).toBeCloseTo(1000 - air);
    expect(top).toBeGreaterThan(20);
    expect(top + bottom).toBeCloseTo(700 + 20);
  });

  it('shows whole again what was seen whole when the board shrinks, and else stays where it is', () => {
    const extent = { x0: 0, y0: 0, x1: 60_000, y1: 10_000 };
    const fit = fitted(view, extent);
    const low = { width: 1000, height: 200 };
    expect(resized(fit, low, extent)).toEqual(fitted({ ...fit, ...low }, extent));
    const wide = { width: 1400, height: 700 };
    expect(resized(fit, wide, extent)).toEqual(fitted({ ...fit, ...wide }, extent));
    const farther = zoomed(fit, 0.9, 500, 350);
    expect(resized(farther, wide, extent)).toEqual({ ...farther, ...wide });
    const aside = { ...fit, left: fit.left + 30_000 };
    expect(resized(aside, low, extent)).toEqual({ ...aside, ...low });
    expect(resized(fit, low, null)).toEqual({ ...fit, ...low });
  });

  it('counts backgrounds to what is on a level, unless they are hidden', () => {
    expect(planExtent(picturePlan(), 'L1')).toEqual({ x0: 0, y0: 0, x1: 10_000, y1: 8000 });
    const d = drive({ plan: picturePlan() });
    d.state().actions.run('edit', { table: 'backgrounds', id: 'B1', fields: { hidden: true } });
    expect(planExtent(d.plan(), 'L1')).toBeNull();
  });

  it('shows a sheet of 20 m where a level is empty', () => {
    const session = createSession(kinds, emptyPlan());
    fitPlan(session);
    const { viewport } = session.getState();
    expect(viewport.width / viewport.scale).toBeGreaterThan(20_000);
  });

  it('comes no closer to one point than a room', () => {
    const session = createSession(kinds, planWith(['place-closet', { level: 'L1', at: [0, 0] }]));
    fitPlan(session);
    expect(session.getState().viewport.scale).toBeLessThan(1);
  });
});

describe('The rulers', () => {
  it('write feet, inches and metres at whole places, far enough apart to read', () => {
    for (const units of ['ft', 'm'] as const)
      for (let scale = 0.001; scale < 3; scale *= 1.37) {
        const { major, minor } = division(units, scale);
        const all = ticks(units, scale, -7777, 900);
        const labels = all.filter((tick) => tick.label !== null);
        for (let i = 1; i < labels.length; i++)
          expect(labels[i]!.at - labels[i - 1]!.at).toBeCloseTo(major * scale, 6);
        if (scale > 0.001) expect(major * scale).toBeGreaterThanOrEqual(10);
        expect(all.every((tick) => tick.at >= -1e-6 && tick.at <= 900)).toBe(true);
        expect(Math.round(major / minor) * minor).toBeCloseTo(major, 6);
      }
  });

  it.each([
    ['ft', 0.04, 0, ["0'", "5'", "10'", "15'", "20'"]],
    ['ft', 0.5, 0, ["0'", '6"', "1'", `1'6"`, "2'"]],
    ['ft', 0.04, -3048, ["-10'", "-5'", "0'", "5'", "10'"]],
    ['m', 0.04, 0, ['0', '2', '4', '6', '8']],
    ['m', 0.5, 0, ['0', '0.5', '1', '1.5', '2']],
  ] as const)('in %s at %s px a mm from %s mm', (units, scale, start, labels) => {
    const got = ticks(units, scale, start, 2000).flatMap((tick) => tick.label ?? []);
    expect(got.slice(0, 5)).toEqual(labels);
  });
});

describe('A typed length', () => {
  it.each([
    ["12'-6", 'ft', { mm: 3810 }],
    ['12', 'ft', { mm: 3658 }],
    ['3.8m', 'ft', { mm: 3800 }],
    ['12 x 9', 'ft', { mm: 3658, second: 2743 }],
    ['4x3.5', 'm', { mm: 4000, second: 3500 }],
    ['12 x', 'ft', { mm: 3658 }],
    ['12 x 9 x 8', 'ft', null],
    ['0', 'ft', null],
    ["12'x", 'ft', { mm: 3658 }],
    ['-', 'm', null],
    ['', 'm', null],
  ] as const)('%s in %s', (text, units, read) => {
    expect(readTyped(text, units)).toEqual(read);
  });

  it('is refused with the reason where its inches make a foot', () => {
    for (const text of ["12'-13", "9 x 12'13", "12'-12 < 45"]) {
      expect(readTyped(text, 'ft')).toBeNull();
      expect(whyNoLength(text, 'ft').text).toContain('0 to 11');
    }
    expect(whyNoLength('1--', 'ft').text).toContain('is not a length');
    // Somebody leaned on a digit: nothing that long is drawn, and it stays to be mended.
    expect(readTyped('9'.repeat(20), 'ft')).toBeNull();
    expect(whyNoLength('9'.repeat(20), 'ft').text).toContain('farther than a plan can reach');
  });
});

describe('The scene', () => {
  const surveyed = () => {
    const d = drive({ plan: roomPlan() });
    const survey = createSurveyor(kinds)(d.plan());
    d.state().actions.set({ survey, surveyed: d.plan(), leg: 'runs' });
    return d;
  };

  it('is made anew only where something that it shows has changed', () => {
    const d = surveyed();
    const scene = sceneMaker(kinds);
    const first = scene(d.state());
    d.state().actions.set({ hover: { table: 'devices', id: 'D1' }, tool: 'wall' });
    const { viewport } = d.state();
    d.state().actions.set({ viewport: { ...viewport, left: viewport.left + 300 } });
    expect(scene(d.state())).toBe(first);
    d.state().actions.set({ leg: 'checks' });
    expect(scene(d.state())).not.toBe(first);
  });

  it('tells where each symbol of the level is drawn', () => {
    const d = surveyed();
    const { drawn } = sceneMaker(kinds)(d.state());
    expect([...drawn.keys()].sort()).toEqual(['devices/D1', 'outlets/O1']);
  });

  it('leaves all else as it is while a device moves, and shows the device where it is', () => {
    const d = surveyed();
    const scene = sceneMaker(kinds);
    d.play('press 3000,600 · move 3500,600 · move 5000,2000');
    const one = scene(d.state());
    d.play('move 5500,2500');
    const two = scene(d.state());
    const under = one.layers.filter((layer) => two.layers.includes(layer));
    expect(under.length).toBeGreaterThan(4);
    expect(two.drawn.get('devices/D1')).toEqual([5500, 2500]);
    const once = two.layers.flatMap(({ marks }) => texts(marks)).filter((text) => text === 'OS');
    expect(once).toEqual(['OS']);
  });

  it('shows a device that is only being placed', () => {
    const d = drive({ plan: roomPlan(), tool: 'device', option: 'kiosk' });
    d.play('move 5000,2000');
    const { layers, drawn } = sceneMaker(kinds)(d.state());
    expect(layers.flatMap(({ marks }) => texts(marks))).toContain('KI');
    expect(drawn.get('devices/D2')).toEqual([5000, 2000]);
  });

  it('puts away what somebody does not want to see', () => {
    const d = surveyed();
    const words = (shown: Partial<ReturnType<typeof d.state>['shown']>) => {
      d.state().actions.set({ shown: { ...d.state().shown, ...shown } });
      return sceneMaker(kinds)(d.state()).layers.flatMap(({ marks }) => texts(marks));
    };
    expect(words({})).toEqual(expect.arrayContaining(['A', 'A1']));
    expect(words({ labels: false })).not.toContain('A1');
    expect(words({ rooms: false })).not.toContain('A');
  });

  it('brings something forward on every leg: findings in the checks, cable in the runs', () => {
    const d = surveyed();
    const groups = Object.fromEntries(
      LEGS.map((leg) => {
        d.state().actions.set({ leg });
        return [leg, sceneMaker(kinds)(d.state()).layers.length];
      }),
    );
    expect(groups.checks).toBeGreaterThan(groups.rooms!);
  });

  it('holds the sheet nearer at a closer zoom, but never so near or far that symbols fail', () => {
    const sizes = [0.0003, 0.01, 0.045, 0.2, 2].map(paperPixels);
    expect(sizes).toEqual([...sizes].sort((a, b) => a - b));
    expect(sizes[0]).toBeGreaterThan(2);
    expect(sizes.at(-1)).toBeLessThan(6);
  });
});

describe('What stands out', () => {
  const surveyed = (selection: readonly Ref[]) => {
    const d = drive({ plan: roomPlan() });
    const survey = createSurveyor(kinds)(d.plan());
    d.state().actions.set({ survey, surveyed: d.plan() });
    d.state().actions.select(selection);
    return { d, survey };
  };

  it.each(['devices/D1', 'outlets/O1', 'jacks/J1'])('is the run of %s with its length', (key) => {
    const [table, id] = key.split('/') as [Ref['table'], string];
    const { d, survey } = surveyed([{ table, id }]);
    const marks = highlightMarks(d.state(), new Map());
    const ways = marks.filter((mark) => mark.op === 'line' && mark.points.length === 2);
    expect(ways.length).toBe(
      survey.ways.filter((w) => w.from[0] !== w.to[0] || w.from[1] !== w.to[1]).length,
    );
    expect(texts(marks)).toEqual([]);
    expect(texts(tagMarks(d.state(), new Map()))[0]).toMatch(/^A1 \d+'(-\d+")?$/);
  });

  it('is one tag for the jacks of an outlet, over it, or under it at the top of the board', () => {
    const d = drive({ plan: roomPlan() });
    d.state().actions.run('add-jack', { outlet: 'O1' });
    d.state().actions.set({ survey: createSurveyor(kinds)(d.plan()) });
    d.state().actions.select([{ table: 'outlets', id: 'O1' }]);
    const tag = () => {
      const marks = tagMarks(d.state(), new Map());
      const symbol = marks.findLast((mark) => mark.op === 'symbol' && mark.marks.length === 2);
      return symbol?.op === 'symbol' ? symbol.marks[1] : undefined;
    };
    expect(texts(tagMarks(d.state(), new Map()))).toEqual([
      expect.stringMatching(/^A1,-2 \d+'(-\d+")?$/),
    ]);
    expect(tag()).toMatchObject({ at: [0, -6.1] });
    d.state().actions.set({ viewport: { ...d.state().viewport, top: 0 } });
    expect(tag()).toMatchObject({ at: [0, 6.1] });
  });

  it('is the run of what is being placed, before it is placed', () => {
    const d = drive({ plan: roomPlan(), tool: 'device', option: 'kiosk' });
    d.play('move 5000,700');
    const survey = createSurveyor(kinds)(d.state().preview!);
    d.state().actions.set({ survey });
    expect(texts(tagMarks(d.state(), new Map())).join()).toMatch(/2 \d+'/);
  });

  it('is nothing where nothing is picked, and nothing that was picked while something is drawn', () => {
    const { d } = surveyed([]);
    expect(highlightMarks(d.state(), new Map())).toEqual([]);
    d.state().actions.select([{ table: 'devices', id: 'D1' }]);
    expect(highlightMarks(d.state(), new Map(), true)).toEqual([]);
    expect(tagMarks(d.state(), new Map(), true)).toEqual([]);
  });

  it('is a handle on each point of one selected thing, and none on several', () => {
    const squares = (refs: readonly Ref[]) => {
      const { d } = surveyed(refs);
      return highlightMarks(d.state(), new Map()).filter(
        (mark) => mark.op === 'symbol' && mark.marks[0]?.op === 'line' && mark.marks.length === 1,
      ).length;
    };
    expect(squares([{ table: 'zones', id: 'Z1' }])).toBe(4);
    expect(squares([{ table: 'walls', id: 'W1' }])).toBe(2);
    expect(
      squares([
        { table: 'walls', id: 'W1' },
        { table: 'walls', id: 'W2' },
      ]),
    ).toBe(0);
  });
});
