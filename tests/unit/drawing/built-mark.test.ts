import { expect, it } from 'vitest';
import type { Mark } from '../../../src/drawing/display.ts';
import { fontMeasure } from '../../../src/drawing/measure.ts';
import { planMarks } from '../../../src/drawing/plan-marks.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { NOT_BUILT } from '../../../src/plan/built.ts';
import { legendItems } from '../../../src/sheets/legend.ts';
import { inkBoxes, overlapping } from './boxes.ts';
import { NOTHING, planOf } from './small-plan.ts';

type Test = 'pass' | 'fail' | null | 'open';
const NAMES = { none: 0, tick: 1, cross: 2 } as const;

const planWith = (...tests: readonly Test[]) =>
  planOf({
    outlets: { O1: { at: [0, 0] } },
    jacks: Object.fromEntries(
      tests.map((test, i) => [
        `J${i}`,
        {
          ...{ outlet: 'O1', label: `A${i + 1}`, spare: true },
          built: test === 'open' ? null : { ...NOT_BUILT, by: 'KL', test },
        },
      ]),
    ),
  });

/** The label of the only outlet: its words, and the lines beside them. */
function labelOf(...tests: readonly Test[]): readonly Mark[] {
  const view = { level: 'L1', scale: 1 / 96, kinds, measure: fontMeasure };
  const marks = planMarks(planWith(...tests), NOTHING, view).layers.flatMap((l) => l.marks);
  return marks
    .flatMap((mark) => (mark.op === 'symbol' ? [mark.marks] : []))
    .find((inside) => inside.some((mark) => mark.op === 'text' && mark.text.startsWith('A1')))!;
}

it.each([
  ['nothing', ['open'], 'none'],
  ['one of two', ['pass', 'open'], 'none'],
  ['all', [null, 'pass'], 'tick'],
  ['all, with a pass', ['pass'], 'tick'],
  ['one that failed', ['pass', 'fail'], 'cross'],
] as const)('a label where %s is recorded has its mark beside it', (_, tests, mark) => {
  const label = labelOf(...tests);
  expect(label.filter(({ op }) => op === 'line').length).toBe(NAMES[mark]);
  // The two lines of a cross do cross.
  const apart = label.filter((one, i) => one.op === 'text' || i === 0);
  expect(overlapping(inkBoxes(apart))).toEqual([]);
});

it('the legend says what the marks mean, where there are any', () => {
  const words = (...tests: readonly Test[]) =>
    legendItems(
      {
        ...{ plan: planWith(...tests), survey: NOTHING, kinds },
        ...{ paper: 'letter', measure: fontMeasure, printed: '' },
      },
      'L1',
    ).map((item) => item.words);
  expect(words('pass')).toContain('Recorded as built');
  expect(words('fail')).toContain('Failed its test');
  expect(words('fail')).not.toContain('Recorded as built');
  for (const said of ['Recorded as built', 'Failed its test'])
    expect(words('open')).not.toContain(said);
});
