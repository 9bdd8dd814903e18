import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { groupBy } from '../../../src/base/group.ts';
import { compareLabels } from '../../../src/base/labels.ts';

describe('the natural order of labels', () => {
  it('counts numbers as numbers', () => {
    const labels = ['B1', 'A10', 'A2-10', 'A2', 'A2-9', 'A1'];
    expect(labels.sort(compareLabels)).toEqual(['A1', 'A2', 'A2-9', 'A2-10', 'A10', 'B1']);
  });

  it('is an order: of two labels one stands first, and that carries over to a third', () => {
    const label = fc.stringMatching(/^[A-C]?[0-9]{0,3}(-[0-9]{1,2})?$/);
    fc.assert(
      fc.property(label, label, label, (a, b, c) => {
        expect(Math.sign(compareLabels(a, b))).toBe(-Math.sign(compareLabels(b, a)) || 0);
        expect(compareLabels(a, b) === 0).toBe(a === b);
        if (compareLabels(a, b) <= 0 && compareLabels(b, c) <= 0)
          expect(compareLabels(a, c)).toBeLessThanOrEqual(0);
      }),
      { seed: 31, numRuns: 2000 },
    );
  });
});

describe('grouping', () => {
  it('keeps groups and items in the order in which they come', () => {
    const groups = groupBy(['b1', 'a1', 'b2'], (word) => word[0]);
    expect([...groups]).toEqual([
      ['b', ['b1', 'b2']],
      ['a', ['a1']],
    ]);
  });
});
