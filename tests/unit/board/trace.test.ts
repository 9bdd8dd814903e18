import { describe, expect, it } from 'vitest';
import { offersIn, offersOn } from '../../../src/board/offers.ts';
import type { Point } from '../../../src/geometry/point.ts';
import type { WallOffer } from '../../../src/geometry/wall-finder/find-walls.ts';
import { Draft } from '../../../src/plan/change.ts';
import { onLevel, type Plan } from '../../../src/plan/plan.ts';
import type { Underlay, UnderSheet } from '../../../src/results/underlay.ts';
import { type Driver, drive, picturePlan, planWith } from './driver.ts';

const offer = (a: Point, b: Point, more: Partial<WallOffer> = {}): WallOffer => ({
  a,
  b,
  thickness: 100,
  how: 'pair',
  doubts: [],
  windows: [],
  ...more,
});
const SURE = offer([0, 0], [4000, 0]);
const UPRIGHT = offer([4000, 0], [4000, 3000], { thickness: 194 });
const DOUBTFUL = offer([0, 2000], [3000, 2000], { doubts: ['alone'] });

const sheet = (offers: readonly WallOffer[], more: Partial<UnderSheet> = {}): UnderSheet => ({
  background: 'B1',
  state: 'read',
  lines: new Float64Array(),
  found: { offers, left: 7 },
  ...more,
});
const under = (...sheets: readonly UnderSheet[]): Underlay => ({ level: 'L1', sheets });
const ALL = under(sheet([SURE, UPRIGHT, DOUBTFUL]));

const scaled = (): Plan => picturePlan({ ratio: 48, paper: 400 });

function taking(state: Underlay | null = ALL, option = '', plan = scaled()): Driver {
  const d = drive({ plan, tool: 'trace', option });
  d.state().actions.set({ under: state });
  return d;
}
const walls = (d: Driver) =>
  onLevel(d.plan(), 'walls', 'L1').map(({ a, b, thickness }) => ({ a, b, thickness }));
const steps = (d: Driver) => d.state().history.cursor;
const hint = (d: Driver) => d.editor.view().hint;

describe('Walls from the background', () => {
  it('are taken over one by one, by a click on their body, as thick as measured', () => {
    const d = taking();
    d.play('click 2000,40');
    expect(walls(d)).toEqual([{ a: [0, 0], b: [4000, 0], thickness: 100 }]);
    d.play('click 3920,1500');
    expect(walls(d)).toHaveLength(2);
    expect(walls(d)[1]).toMatchObject({ thickness: 194 });
    expect(steps(d)).toBe(2);
    d.state().actions.undo();
    expect(walls(d)).toHaveLength(1);
  });

  it('are taken over with their windows, whole ones only where a part of the wall stands already', () => {
    const windows = [
      { along: 1000, width: 600 },
      { along: 3000, width: 1200 },
    ];
    const d = taking(under(sheet([offer([0, 0], [4000, 0], { windows })])));
    d.play('move 2000,0');
    expect(hint(d)).toMatchObject({ params: { windows: 2 } });
    d.play('click 2000,0');
    const openings = [...d.plan().tables.openings.values()];
    expect(openings.map(({ wall, kind, along, width }) => [wall, kind, along, width])).toEqual([
      ['W1', 'window', 1000, 600],
      ['W1', 'window', 3000, 1200],
    ]);
    d.state().actions.undo();
    expect(d.plan().tables.openings.size).toBe(0);

    const half: Point[] = [
      [-50, 0],
      [1050, 0],
    ];
    const part = planWith(['draw-walls', { level: 'L1', points: half, look: { thickness: 100 } }]);
    const { open } = offersOn(under(sheet([offer([0, 0], [4000, 0], { windows })])), part, 'L1');
    expect(open).toMatchObject([{ a: [1100, 0], windows: [{ along: 1900, width: 1200 }] }]);
  });

  it('take what the shelf says of their make, but the thickness as measured', () => {
    const d = taking(ALL, 'masonry');
    d.play('click 2000,40');
    expect([...d.plan().tables.walls.values()][0]).toMatchObject({
      construction: 'masonry',
      top: 'deck',
      thickness: 100,
    });
  });

  it('are taken over by a box in one step: the sure ones, and with Shift those in doubt too', () => {
    const d = taking();
    d.play('drag -1000,-1000 5000,4000');
    expect(walls(d)).toHaveLength(2);
    expect(steps(d)).toBe(1);
    d.state().actions.undo();
    expect(walls(d)).toEqual([]);
    d.play('drag -1000,-1000 5000,4000', { shift: true });
    expect(walls(d)).toHaveLength(3);
    expect(steps(d)).toBe(1);
  });

  it('are held by a box drawn to the right where they lie inside, to the left where it touches them', () => {
    const d = taking();
    d.play('drag 3000,-500 3900,500');
    expect(walls(d)).toEqual([]);
    expect(d.state().notices.at(-1)!.message.text).toMatch(/No sure wall/);
    d.play('drag 3900,500 3000,-500');
    expect(walls(d)).toHaveLength(1);
  });

  it('are taken over without a pointer: the cursor clicks, and two places make a box', () => {
    const d = taking();
    d.play('click 5500,-1500 · move -1500,3900 · key Enter');
    expect(walls(d)).toHaveLength(2);
    const e = taking();
    e.state().actions.set({
      viewport: { scale: 0.1, left: -8000, top: -9850, width: 2000, height: 2000 },
    });
    // The cursor begins in the middle of the board, half a foot below the wall.
    e.play('key ArrowUp · key Enter');
    expect(walls(e)).toEqual([{ a: [0, 0], b: [4000, 0], thickness: 100 }]);
  });

  it('are never added without a click: pointing, leaving, Escape and a second finger add nothing', () => {
    const d = taking();
    const before = d.text();
    d.play('move 2000,0 · move 2000,1000 · leave');
    d.play('press -1000,-1000 · move 5000,4000 · abandon · release 5000,4000', { touch: true });
    d.play('press -1000,-1000 · move 5000,4000 · cancel · release 5000,4000');
    d.play('click 2000,1000 · double 2000,1000 · move 9000,9000');
    expect(d.text()).toBe(before);
    expect(d.editor.view().busy).toBe(false);
    d.play('key Escape');
    expect(d.state().tool).toBe('select');
  });

  it('are drawn as outlines, those in doubt otherwise, and the one that is pointed at stands out', () => {
    const d = taking();
    const marks = d.editor.view().overlay;
    expect(marks).toHaveLength(3);
    const strokes = marks.map((mark) => mark.op === 'line' && mark.style.dash);
    expect(new Set(strokes.map(String)).size).toBe(2);
    d.play('move 2000,0');
    expect(d.editor.view().overlay).toHaveLength(4);
    expect(d.editor.view().busy).toBe(false);
    d.play('leave');
    expect(d.editor.view().overlay).toHaveLength(3);
  });

  it('say how many they are, which are in doubt and why, and what is left', () => {
    const d = taking();
    expect(hint(d).params).toEqual({ count: 3, doubtful: 1, left: 7 });
    d.play('move 2000,0');
    expect(hint(d)).toMatchObject({ params: { thickness: { mm: 100 } } });
    expect(hint(d).text).not.toMatch(/doubt/);
    d.play('move 2000,2000');
    expect(hint(d).text).toMatch(/In doubt: it touches no other wall/);
    d.play('drag -1000,-1000 5000,4000', { shift: true });
    expect(hint(d).text).toMatch(/are drawn/);
  });

  it('are offered again where a wall is taken back, and only where none stands', () => {
    const drawn = planWith([
      'draw-walls',
      {
        level: 'L1',
        points: [
          [-1000, 10],
          [1950, 10],
        ],
        look: { thickness: 100 },
      },
    ]);
    const { open } = offersOn(ALL, drawn, 'L1');
    expect(open).toHaveLength(3);
    expect(open[0]).toEqual({ ...SURE, a: [2000, 0] });
    const d = taking();
    d.play('click 2000,0');
    expect(hint(d).params).toMatchObject({ count: 2 });
    d.state().actions.undo();
    expect(hint(d).params).toMatchObject({ count: 3 });
  });

  it.each<[string, Plan, Underlay | null, RegExp]>([
    ['there is no background', planWith(), under(), /Bring a plan/],
    ['the background is hidden', picturePlan({ hidden: true }), under(), /hidden/],
    [
      'the background is made of dots',
      scaled(),
      under(sheet([], { state: 'pixels', found: null })),
      /made of dots.*wall tool/,
    ],
    ['its lines are being read', scaled(), under(sheet([], { state: 'reading' })), /being read/],
    ['its file cannot be read', scaled(), under(sheet([], { state: 'failed' })), /cannot be read/],
    ['it has no scale', picturePlan(), under(sheet([], { found: null })), /Set the scale/],
    ['it shows no walls', scaled(), under(sheet([])), /No walls were made out/],
  ])('are not offered where %s, and a click says so', (_, plan, state, words) => {
    const d = taking(state, '', plan);
    expect(hint(d).text).toMatch(words);
    d.play('click 1000,1000');
    expect(d.state().notices.at(-1)!.message.text).toMatch(words);
    expect(d.editor.view().busy).toBe(false);
  });

  it('of another level are not offered', () => {
    expect(offersOn({ ...ALL, level: 'L2' }, scaled(), 'L1').open).toEqual([]);
  });

  it('that slant are held by a box that they cross, not by one beside them', () => {
    const slanted = offer([0, 0], [4000, 3000]);
    const offers = offersOn(under(sheet([slanted])), scaled(), 'L1');
    expect(offersIn(offers, [1900, 1600], [2100, 1400], true)).toEqual([slanted]);
    expect(offersIn(offers, [2500, 300], [3000, 900], true)).toEqual([]);
    expect(offersIn(offers, [-10, -10], [4010, 3010], false)).toEqual([slanted]);
  });

  it('lead on to the rooms between them, as long as there are none', () => {
    const wall = (y: number) => ({ a: [0, y], b: [4000, y], thickness: 100 }) as const;
    const words = (d: ReturnType<typeof drive>) =>
      d.state().notices.map(({ message }) => message.text);
    const two = { level: 'L1', walls: [wall(0), wall(3000)] };
    const bare = drive();
    bare.state().actions.run('take-walls', two);
    expect(words(bare).join()).toContain('click inside each room');
    const one = drive();
    one.state().actions.run('take-walls', { ...two, walls: [wall(0)] });
    expect(words(one)).toEqual([]);
    const roomed = drive();
    const outline: [number, number][] = [
      [0, 0],
      [9000, 0],
      [9000, 9000],
    ];
    roomed.state().actions.run('draw-zone', { level: 'L1', outline });
    roomed.state().actions.run('take-walls', two);
    expect(words(roomed)).toEqual([]);
  });

  it('of no length are not taken over', () => {
    const d = drive();
    const done = d.state().actions.run('take-walls', {
      level: 'L1',
      walls: [{ a: [5, 5], b: [5, 5], thickness: 100 }],
    });
    expect(done).toBe(false);
    expect(new Draft(d.plan()).changes()).toEqual([]);
  });
});
