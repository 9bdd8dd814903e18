import { expect, test } from 'vitest';
import { axisOf, OFF_BEYOND, RIGHT_WITHIN, scaleOutcome } from '../../../src/desk/scale-outcome.ts';
import { makeRow } from '../../../src/plan/plan.ts';
import { t } from '../../../src/text/index.ts';

const picture = (more: object) =>
  makeRow('backgrounds', 'B1', {
    asset: '0123456789abcdef',
    width: 2000,
    height: 1000,
    mmPerPixel: 10,
    scale: { a: [0, 0], b: [1000, 0], length: 10_000 },
    ...more,
  });

/** A check of 1000 pixels, which the scale makes 10 m, along y. */
const checked = (length: number, more: object = {}) =>
  scaleOutcome(picture({ check: { a: [0, 0], b: [0, 1000], length }, ...more }));

test('without a scale or without a check there is no outcome', () => {
  expect(scaleOutcome(picture({}))).toBeNull();
  expect(checked(10_000, { scale: null })).toBeNull();
});

test('a drawing that measures more than was typed is too long by that share', () => {
  expect(checked(8000)).toMatchObject({ measured: 10_000, real: 8000, error: 0.25, by: '25 %' });
  expect(checked(12_500)?.error).toBeCloseTo(-0.2, 12);
});

test('the verdict changes just beyond each limit', () => {
  const at = (error: number) => checked(Math.round(10_000 / (1 + error)))?.verdict;
  expect(at(RIGHT_WITHIN - 0.0005)).toBe('right');
  expect(at(RIGHT_WITHIN + 0.0005)).toBe('near');
  expect(at(OFF_BEYOND - 0.0005)).toBe('near');
  expect(at(OFF_BEYOND + 0.0005)).toBe('off');
  expect(at(-OFF_BEYOND - 0.0005)).toBe('off');
});

test('a check the other way than the scale says something of both ways', () => {
  expect(checked(10_000)?.covers).toBe('both');
  const same = { check: { a: [0, 0], b: [800, 0], length: 8000 } };
  expect(scaleOutcome(picture(same))?.covers).toBe('one');
});

test('a check of a printed scale is not compared with a line that nobody drew', () => {
  const printed = { scale: null, paper: 800, ratio: 25 };
  expect(checked(10_000, printed)?.covers).toBe('printed');
  const words = t('base.said.covers-printed');
  expect(words).not.toMatch(/the one that set the scale/);
});

test('a quarter turn of the picture swaps across and down', () => {
  expect(axisOf({ turn: 0 }, [0, 0], [100, 10])).toBe('across');
  expect(axisOf({ turn: 90 }, [0, 0], [100, 10])).toBe('down');
  expect(axisOf({ turn: 180 }, [0, 0], [100, 10])).toBe('across');
  expect(axisOf({ turn: 270 }, [0, 0], [10, -100])).toBe('across');
  expect(axisOf({ turn: 0 }, [0, 0], [100, 100])).toBe('slant');
});
