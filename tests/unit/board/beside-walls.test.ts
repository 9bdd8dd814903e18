import { describe, expect, it } from 'vitest';
import { besideWalls } from '../../../src/board/beside-walls.ts';
import { Draft } from '../../../src/plan/change.ts';
import { emptyPlan, makeRow } from '../../../src/plan/plan.ts';

describe('a device that snaps beside a wall', () => {
  const draft = new Draft(emptyPlan());
  draft.put('walls', makeRow('walls', 'W1', { a: [0, 0], b: [5000, 0], thickness: 100 }));
  const { plan } = draft;
  const place = (at: [number, number], raw: [number, number]) => besideWalls(plan, 'L1', at, raw);

  it('keeps the snapped place on its own side of the wall', () => {
    expect(place([1000, 600], [1100, 400])).toEqual([1000, 600]);
    expect(place([1000, 51], [1100, 400])).toEqual([1000, 51]);
  });

  it('stays where the pointer is when snapping would take it into the wall or behind it', () => {
    expect(place([1000, 0], [1100.4, 400])).toEqual([1100, 400]);
    expect(place([1000, 50], [1100, 400])).toEqual([1100, 400]);
    expect(place([1000, -600], [1100, 400])).toEqual([1100, 400]);
  });

  it('passes round the end of a wall, and snaps where the pointer is in the wall itself', () => {
    expect(place([6000, -600], [6000, 400])).toEqual([6000, -600]);
    expect(place([1000, -600], [1100, 10])).toEqual([1000, -600]);
  });
});
