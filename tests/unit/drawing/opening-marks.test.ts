import { describe, expect, it } from 'vitest';
import type { Mark } from '../../../src/drawing/display.ts';
import { fontMeasure } from '../../../src/drawing/measure.ts';
import { dimensionLine, openingOutline } from '../../../src/drawing/opening-marks.ts';
import { planMarks } from '../../../src/drawing/plan-marks.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { Draft } from '../../../src/plan/change.ts';
import { emptyPlan, makeRow, type Plan } from '../../../src/plan/plan.ts';

const view = { level: 'L1', scale: 1 / 96, kinds, measure: fontMeasure } as const;
const marksOf = (plan: Plan, group: 'openings' | 'notes'): readonly Mark[] =>
  planMarks(plan, null, view).layers.find((layer) => layer.group === group)?.marks ?? [];
const wall = makeRow('walls', 'W1', { a: [0, 0], b: [4000, 0], thickness: 100 });

function withOpening(fields: object): Plan {
  const draft = new Draft(emptyPlan());
  draft.put('walls', wall);
  draft.put(
    'openings',
    makeRow('openings', 'G1', { wall: 'W1', along: 2000, width: 1000, ...fields }),
  );
  return draft.plan;
}

const points = (marks: readonly Mark[]) =>
  marks.flatMap((mark) => (mark.op === 'line' ? mark.points : []));

describe('The drawing of an opening', () => {
  it('cuts the wall over its width', () => {
    const opening = withOpening({}).tables.openings.get('G1')!;
    expect(openingOutline(wall, opening)).toEqual([
      [1500, -50],
      [2500, -50],
      [2500, 50],
      [1500, 50],
    ]);
    const [cut] = marksOf(withOpening({ kind: 'opening' }), 'openings');
    expect(cut).toMatchObject({ op: 'line', closed: true, style: { fill: 'paper' } });
  });

  it.each([
    ['right', 1],
    ['left', -1],
  ])('shows the leaf of a door to the %s, as long as the door is wide', (side, way) => {
    const ys = points(marksOf(withOpening({ side }), 'openings')).map(([, y]) => y * way);
    expect(Math.max(...ys)).toBeCloseTo(50 + 1000, -1);
    expect(Math.min(...ys)).toBeGreaterThan(-60);
  });

  it('hangs the leaf at the end that is said', () => {
    const tip = (hinge: string) =>
      points(marksOf(withOpening({ hinge }), 'openings')).find(([, y]) => y > 1000)![0];
    expect(tip('a')).toBeCloseTo(1500);
    expect(tip('b')).toBeCloseTo(2500);
  });
});

describe('The drawing of a dimension line', () => {
  it('stands to the left of its way where aside is above zero, with its length', () => {
    const row = makeRow('dimensions', 'M1', { a: [0, 0], b: [3048, 0], aside: 500 });
    expect(dimensionLine(row)).toEqual([
      [0, -500],
      [3048, -500],
    ]);
    const draft = new Draft(emptyPlan());
    draft.put('dimensions', row);
    expect(JSON.stringify(marksOf(draft.plan, 'notes'))).toContain(`"text":"10'"`);
  });
});

describe('The drawing of a note', () => {
  it('has each line of its words, and a line from the edge of its box to what it is about', () => {
    const draft = new Draft(emptyPlan());
    draft.put(
      'notes',
      makeRow('notes', 'T1', { at: [0, 0], text: 'Mind\nthe hood', to: [5000, 0] }),
    );
    const marks = marksOf(draft.plan, 'notes');
    const text = JSON.stringify(marks);
    expect(text).toContain('"Mind"');
    expect(text).toContain('"the hood"');
    const line = marks.find((mark) => mark.op === 'line');
    expect(line?.op === 'line' && line.points[1]).toEqual([5000, 0]);
    expect(line?.op === 'line' && line.points[0]![0]).toBeGreaterThan(300);
  });
});
