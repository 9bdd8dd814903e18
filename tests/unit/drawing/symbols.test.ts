import { describe, expect, it } from 'vitest';
import {
  CROSSING_REACH,
  checkSide,
  checkSquare,
  countBadge,
  crossingSymbol,
  FINDING_REACH,
  findingSymbol,
  jackSymbol,
  NORTH_REACH,
  northArrow,
  POWER_REACH,
  powerSymbol,
  scaleBar,
} from '../../../src/drawing/symbols.ts';
import { hull, inkBoxes, textsOf } from './boxes.ts';

const reachOf = (marks: Parameters<typeof inkBoxes>[0]): number =>
  Math.max(...inkBoxes(marks).flatMap((b) => [-b.x0, -b.y0, b.x1, b.y1]));

describe('symbols', () => {
  it('write the number of jacks into the triangle, upright whichever way it points', () => {
    for (const turn of [0, 90, 180, 270]) {
      const marks = jackSymbol(4, 'ink', 'wall', turn);
      expect(textsOf(marks)).toEqual(['4']);
      for (const mark of marks) if (mark.op === 'text') expect(mark.turn ?? 0).toBe(0);
    }
  });

  it('tell jacks on ceilings and in floors from those in walls by a shape', () => {
    const ops = (mount: 'wall' | 'ceiling' | 'floor') =>
      jackSymbol(1, 'ink', mount).map((mark) => mark.op);
    expect(ops('wall')).toEqual(['line', 'text']);
    expect(ops('ceiling')).toEqual(['circle', 'line', 'text']);
    expect(ops('floor')).toEqual(['line', 'line', 'text']);
  });

  it('stay within the reach that label placement keeps clear', () => {
    expect(reachOf(powerSymbol())).toBeLessThanOrEqual(POWER_REACH + 0.1);
    expect(reachOf(crossingSymbol('core', true))).toBeLessThanOrEqual(CROSSING_REACH + 0.01);
    expect(reachOf(findingSymbol('error'))).toBeLessThanOrEqual(FINDING_REACH + 0.1);
    for (const north of [0, 45, 200])
      expect(reachOf(northArrow(north))).toBeLessThanOrEqual(NORTH_REACH + 0.5);
  });

  it('name each kind of hole by a letter, and mark a firestop by another shape', () => {
    expect(textsOf(crossingSymbol('sleeve', false))).toEqual(['S']);
    expect(textsOf(crossingSymbol('core', false))).toEqual(['C']);
    expect(textsOf(crossingSymbol('seal', false))).toEqual(['P']);
    expect(textsOf(crossingSymbol('none', true))).toEqual(['F']);
    expect(crossingSymbol('none', false)).toEqual([]);
    expect(crossingSymbol('sleeve', true)[0]!.op).not.toBe(crossingSymbol('sleeve', false)[0]!.op);
  });

  it('round a number in a ring and make it longer for a longer text', () => {
    expect(countBadge('7', 1.2, 'cable')[0]!.op).toBe('circle');
    const long = hull(
      inkBoxes(countBadge('128 B', 6, 'cable')).map((b): [number, number] => [b.x1, b.y1]),
    );
    expect(long.x1).toBeGreaterThan(3.5);
  });

  it('point north as many degrees clockwise from the top as the job says', () => {
    const letter = (north: number) => northArrow(north).find((mark) => mark.op === 'text')!;
    const at = (north: number) => (letter(north) as { at: readonly [number, number] }).at;
    expect(at(0)[0]).toBeCloseTo(0);
    expect(at(0)[1]).toBeLessThan(0);
    expect(at(90)[0]).toBeGreaterThan(0);
    expect(at(90)[1]).toBeCloseTo(0);
    expect(at(-90)[0]).toBeLessThan(0);
  });
});

describe('scale bar', () => {
  it.each([
    ['ft', 1 / 12],
    ['ft', 1 / 96],
    ['ft', 1 / 128],
    ['ft', 1 / 384],
    ['m', 1 / 20],
    ['m', 1 / 100],
    ['m', 1 / 500],
  ] as const)(
    'in %s at %f is as long on paper as its real length times the scale',
    (units, scale) => {
      const bar = scaleBar(scale, units, 38);
      const drawn = hull(
        bar.marks
          .filter((mark) => mark.op === 'line')
          .flatMap((mark) => (mark.op === 'line' ? mark.points : [])),
      );
      expect(drawn.x1 - drawn.x0).toBeCloseTo(bar.length * scale, 9);
      expect(bar.width).toBeCloseTo(bar.length * scale, 9);
      expect(bar.width).toBeLessThanOrEqual(38);
      expect(bar.width).toBeGreaterThan(12);
    },
  );

  it('writes the real length at its end, in the units of the job', () => {
    expect(textsOf(scaleBar(1 / 96, 'ft', 60).marks)).toEqual(['0', '4', '8', '16 ft']);
    expect(textsOf(scaleBar(1 / 100, 'm', 60).marks)).toEqual(['0', '1', '2', '4 m']);
  });
});

describe('check square', () => {
  it('is 2 in. wide and high, or 50 mm, line to line', () => {
    expect(checkSide('ft')).toBe(50.8);
    expect(checkSide('m')).toBe(50);
    for (const units of ['ft', 'm'] as const) {
      const [frame] = checkSquare(units);
      if (frame?.op !== 'line') throw new Error('the square is a line');
      const box = hull(frame.points);
      expect(box).toEqual({ x0: 0, y0: 0, x1: checkSide(units), y1: checkSide(units) });
    }
  });
});
