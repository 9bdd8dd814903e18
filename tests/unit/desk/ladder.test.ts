import fc from 'fast-check';
import { expect, test } from 'vitest';
import { barAt, barPaths, markWords, pitchFor } from '../../../src/desk/ladder/bars.ts';
import { labelledBars, ladderRows, ladderScale } from '../../../src/desk/ladder/rows.ts';
import { part, runOf } from './site.ts';

const run = (jack: string, label: string, across: number, more = {}) =>
  runOf(jack, label, [part('up', 2000), part('across', across), part('closet-loop', 3000)], more);

test('bars stand longest first, equal ones by label as people read it', () => {
  const rows = ladderRows(
    [run('J1', 'A10', 5000), run('J2', 'A2', 5000), run('J3', 'B1', 9000)],
    'length',
  );
  expect(rows.map((row) => row.label)).toEqual(['B1', 'A2', 'A10']);
  expect(rows[0]).toMatchObject({ vertical: 2000, along: 9000, slack: 3000, cable: 14_000 });
});

test('a mark of the scale is short enough to stand beside it', () => {
  const words = [40_000, 500].map((mm) => markWords(mm, 'm'));
  expect([...words, markWords(30_480, 'ft')]).toEqual(['40 m', '0.5 m', "100'"]);
});

test('by label the bars stand in the order of the labels', () => {
  const rows = ladderRows([run('J1', 'A10', 9000), run('J2', 'A2', 5000)], 'label');
  expect(rows.map((row) => row.label)).toEqual(['A2', 'A10']);
});

test('a limit near the bars is inside the scale, one far above is said in words', () => {
  const near = ladderScale(ladderRows([run('J1', 'A1', 75_000)], 'length'), 'm');
  expect(near.limitInside).toBe(true);
  expect(near.top).toBeGreaterThan(90_000);
  const far = ladderScale(ladderRows([run('J1', 'A1', 15_000)], 'length'), 'm');
  expect(far).toMatchObject({ limitInside: false, limit: 90_000 });
  expect(far.top).toBeLessThan(40_000);
});

test('the lowest of different limits decides', () => {
  const rows = ladderRows(
    [run('J1', 'A1', 60_000), run('J2', 'A2', 1000, { limit: 70_000 })],
    'length',
  );
  expect(ladderScale(rows, 'm').limit).toBe(70_000);
});

test('no bar stands out of the scale, and its marks are round lengths inside it', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 0, max: 200_000 }), { maxLength: 30 }),
      fc.constantFrom('ft' as const, 'm' as const),
      (lengths, units) => {
        const rows = ladderRows(
          lengths.map((mm, i) => run(`J${i}`, `A${i}`, mm)),
          'length',
        );
        const scale = ladderScale(rows, units);
        for (const row of rows) expect(row.cable).toBeLessThanOrEqual(scale.top);
        expect(scale.marks.length).toBeGreaterThan(0);
        expect(scale.marks.length).toBeLessThanOrEqual(8);
        for (const mark of scale.marks) {
          expect(mark).toBeLessThanOrEqual(scale.top);
          expect((mark / (units === 'ft' ? 304.8 : 1000)) % 1).toBeCloseTo(0, 6);
        }
      },
    ),
    { seed: 7, numRuns: 200 },
  );
});

test('without runs there is no limit to draw', () => {
  expect(ladderScale([], 'ft')).toMatchObject({ limit: null, limitInside: false });
});

test('labels never touch, and what is pointed at and picked comes first', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 300 }),
      fc.array(fc.integer({ min: -1, max: 320 }), { maxLength: 10 }),
      fc.double({ min: 0.2, max: 9, noNaN: true }),
      (count, first, room) => {
        const labelled = [...labelledBars(count, first, room)].sort((a, b) => a - b);
        labelled.forEach((at, i) => {
          expect(at).toBeLessThan(count);
          if (i > 0) expect(at - labelled[i - 1]!).toBeGreaterThanOrEqual(room);
        });
        const most = first.find((i) => i >= 0 && i < count);
        if (most !== undefined) expect(labelled).toContain(most);
      },
    ),
    { seed: 7, numRuns: 300 },
  );
});

test('a bar is stacked from slack over up and down to along, as tall as its cable', () => {
  const rows = ladderRows([run('J1', 'A1', 5000)], 'length');
  const paths = barPaths(
    rows,
    { top: 10_000, marks: [], limit: 90_000, limitInside: false },
    {
      width: 20,
      height: 100,
      pitch: 20,
    },
  );
  expect(paths.slack).toBe('M2 70h16v30h-16z');
  expect(paths.vertical).toBe('M2 50h16v20h-16z');
  expect(paths.along).toBe('M2 0h16v50h-16z');
  expect(paths.limits).toBe('');
});

test('few bars stay slim and many scroll rather than vanish', () => {
  expect(pitchFor(2, 800)).toBe(26);
  expect(pitchFor(50, 800)).toBe(16);
  expect(pitchFor(500, 800)).toBe(8);
});

test('the bar under a place is found, and none beside them', () => {
  expect(barAt(0, 10, 3)).toBe(0);
  expect(barAt(29.9, 10, 3)).toBe(2);
  expect(barAt(30, 10, 3)).toBe(-1);
  expect(barAt(-1, 10, 3)).toBe(-1);
});
