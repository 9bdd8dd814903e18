import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hitAt, hitBox, hitIndex } from '../../../src/board/hit.ts';
import { wallCorners } from '../../../src/geometry/nearest.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { Draft } from '../../../src/plan/change.ts';
import { emptyPlan, makeRow, type Plan } from '../../../src/plan/plan.ts';
import { roomPlan } from './driver.ts';

const at = fc.tuple(fc.integer({ min: 0, max: 9000 }), fc.integer({ min: 0, max: 9000 }));

const plans = fc
  .tuple(fc.array(fc.tuple(at, at), { maxLength: 12 }), fc.array(at, { maxLength: 12 }))
  .map(([walls, closets]): Plan => {
    const draft = new Draft(emptyPlan());
    for (const [a, b] of walls)
      if (a[0] !== b[0] || a[1] !== b[1])
        draft.put('walls', makeRow('walls', draft.fresh('walls'), { a, b }));
    for (const p of closets)
      draft.put('closets', makeRow('closets', draft.fresh('closets'), { at: p }));
    return draft.plan;
  });

const run = { seed: 99, numRuns: 120 };

describe('A hit', () => {
  it('finds every closet whose symbol or reach holds the place, nearest first, and no other', () => {
    fc.assert(
      fc.property(plans, at, fc.boolean(), (plan, p, touch) => {
        const far = (touch ? 22 : 5) * 10 + 120;
        const expected = [...plan.tables.closets.values()]
          .map(({ id, at: q }) => ({ id, d: Math.hypot(q[0] - p[0], q[1] - p[1]) }))
          .filter(({ d }) => d <= far)
          .map(({ d }) => d)
          .sort((a, b) => a - b);
        const got = hitAt(hitIndex(plan, 'L1'), p, 10, touch)
          .filter((ref) => ref.table === 'closets')
          .map(({ id }) => {
            const q = plan.tables.closets.get(id)!.at;
            return Math.hypot(q[0] - p[0], q[1] - p[1]);
          });
        expect(got).toEqual(expected);
      }),
      run,
    );
  });

  it('finds a thing where its symbol is drawn, when that stands aside from its place', () => {
    const index = hitIndex(roomPlan(), 'L1');
    const drawn = new Map<string, Point>([['devices/D1', [4500, 2500]]]);
    expect(hitAt(index, [4500, 2500], 10, false, drawn)[0]).toEqual({ table: 'devices', id: 'D1' });
    expect(hitAt(index, [4500, 2500], 10, false)[0]).toEqual({ table: 'zones', id: 'Z1' });
  });

  it('takes the smaller of two rooms that lie over one another', () => {
    const draft = new Draft(roomPlan());
    draft.put(
      'zones',
      makeRow('zones', 'Z2', {
        outline: [
          [4000, 1000],
          [7000, 1000],
          [7000, 3000],
          [4000, 3000],
        ],
      }),
    );
    expect(hitAt(hitIndex(draft.plan, 'L1'), [5000, 2000], 10, false)[0]?.id).toBe('Z2');
  });

  it('sees nothing of another level', () => {
    expect(hitAt(hitIndex(roomPlan(), 'L9'), [3000, 600], 10, true)).toEqual([]);
  });
});

describe('A box', () => {
  const corner = (a: Point, b: Point) => ({
    x0: Math.min(a[0], b[0]),
    y0: Math.min(a[1], b[1]),
    x1: Math.max(a[0], b[0]),
    y1: Math.max(a[1], b[1]),
  });

  it('holds the walls whose corners all lie in it', () => {
    fc.assert(
      fc.property(plans, at, at, (plan, a, b) => {
        const box = corner(a, b);
        const expected = [...plan.tables.walls.values()]
          .filter((wall) =>
            wallCorners(wall.a, wall.b, wall.thickness).every(
              ([x, y]) => x >= box.x0 && x <= box.x1 && y >= box.y0 && y <= box.y1,
            ),
          )
          .map(({ id }) => id);
        const got = hitBox(hitIndex(plan, 'L1'), a, b, false)
          .filter((ref) => ref.table === 'walls')
          .map(({ id }) => id);
        expect(got).toEqual(expected);
      }),
      run,
    );
  });

  it('touches the walls that have a point in it, and no other: found by trying many points', () => {
    fc.assert(
      fc.property(plans, at, at, (plan, a, b) => {
        const box = corner(a, b);
        const touched = new Set(
          hitBox(hitIndex(plan, 'L1'), a, b, true).map((ref) => `${ref.table} ${ref.id}`),
        );
        for (const wall of plan.tables.walls.values()) {
          const gap = leastGap(wallCorners(wall.a, wall.b, wall.thickness), box);
          // The points stand at most 330 mm apart along the longest wall, 31 across.
          if (gap === 0) expect(touched).toContain(`walls ${wall.id}`);
          if (gap > 340) expect(touched).not.toContain(`walls ${wall.id}`);
        }
      }),
      run,
    );
  });
});

/** How far points all over a wall stand from a box at the least, along the worse axis. */
function leastGap(
  [p, q, , s]: readonly Point[],
  box: { x0: number; y0: number; x1: number; y1: number },
): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= 40; i++)
    for (let j = 0; j <= 4; j++) {
      const x = p![0] + ((q![0] - p![0]) * i) / 40 + ((s![0] - p![0]) * j) / 4;
      const y = p![1] + ((q![1] - p![1]) * i) / 40 + ((s![1] - p![1]) * j) / 4;
      const gap = Math.max(box.x0 - x, x - box.x1, box.y0 - y, y - box.y1, 0);
      least = Math.min(least, gap);
    }
  return least;
}
