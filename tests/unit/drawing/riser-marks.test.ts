import { describe, expect, it } from 'vitest';
import { renderMessage } from '../../../src/base/message.ts';
import { ghostMarks } from '../../../src/drawing/ghost-marks.ts';
import { fontMeasure } from '../../../src/drawing/measure.ts';
import { type PlanGroup, planMarks } from '../../../src/drawing/plan-marks.ts';
import { riserWords } from '../../../src/drawing/riser-marks.ts';
import { kinds } from '../../../src/kinds/index.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import type { Segment, Survey } from '../../../src/results/types.ts';
import { makeRun } from '../takeoff/make-run.ts';
import { textsOf } from './boxes.ts';
import { NOTHING, planOf } from './small-plan.ts';

const plan = planOf({
  levels: { L2: { name: 'Upper level', elevation: 4000 }, L3: { name: 'Attic', elevation: 8000 } },
  risers: { R1: { level: 'L1', upper: 'L2', name: 'East riser', size: '4 in.', at: [3000, 3000] } },
  walls: { W1: { level: 'L1', a: [0, 0], b: [6000, 0] } },
  zones: {
    Z1: {
      level: 'L1',
      outline: [
        [0, 0],
        [6000, 0],
        [6000, 6000],
      ],
    },
  },
  pins: {
    N1: {
      points: [
        [1000, 1000],
        [2000, 1000],
      ],
    },
  },
});

const drawn = (of: Plan, level: string, group: PlanGroup, survey: Survey | null = null) =>
  planMarks(of, survey, { level, scale: 1 / 96, kinds, measure: fontMeasure }).layers.find(
    (layer) => layer.group === group,
  )?.marks ?? [];

/** Cables that go by the riser. */
const surveyWith = (cables: number): Survey => ({
  ...NOTHING,
  runs: Array.from({ length: cables }, (_, i) =>
    makeRun({ label: `A${i + 1}`, segments: [{ riser: 'R1' } as Segment] }),
  ),
});

describe('a riser on the plan', () => {
  it('stands on both its levels, with its name, its size and where it leads, and on no other', () => {
    expect(textsOf(drawn(plan, 'L1', 'risers'))).toEqual([
      'East riser, 4 in.',
      'up to Upper level',
    ]);
    expect(textsOf(drawn(plan, 'L2', 'risers'))).toEqual([
      'East riser, 4 in.',
      'down to Ground level',
    ]);
    expect(drawn(plan, 'L3', 'risers')).toEqual([]);
  });

  it('points up on the lower and down on the upper', () => {
    const tip = (level: string): number => {
      const symbol = drawn(plan, level, 'risers')[0]!;
      if (symbol.op !== 'symbol') throw new Error('no symbol');
      const arrow = symbol.marks.find((mark) => mark.op === 'line' && mark.closed);
      return arrow?.op === 'line' ? arrow.points[0]![1] : 0;
    };
    expect(tip('L1')).toBeLessThan(0);
    expect(tip('L2')).toBe(-tip('L1'));
  });

  it('says how many cables go by it, none as well, once that is known', () => {
    const said = (cables: number) => textsOf(drawn(plan, 'L1', 'risers', surveyWith(cables)))[1];
    expect(said(0)).toBe('up to Upper level, 0 cables');
    expect(said(1)).toBe('up to Upper level, 1 cable');
    expect(said(12)).toBe('up to Upper level, 12 cables');
    expect(renderMessage(riserWords('Basement', false, null), 'ft')).toBe('down to Basement');
  });
});

describe('a pin on the plan', () => {
  it('stands at each of its places, numbered in order, and on its level alone', () => {
    expect(textsOf(drawn(plan, 'L1', 'pins'))).toEqual(['1', '2']);
    expect(drawn(plan, 'L2', 'pins')).toEqual([]);
  });
});

describe('the outline of another level', () => {
  it('is its rooms and walls, unfilled and without words', () => {
    const marks = ghostMarks(plan, 'L1');
    expect(marks).toHaveLength(2);
    expect(textsOf(marks)).toEqual([]);
    for (const mark of marks) expect(mark).not.toHaveProperty('style.fill');
    expect(ghostMarks(plan, 'L2')).toEqual([]);
  });
});
