import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apply, Draft } from '../../../src/plan/change.ts';
import { nearestFace } from '../../../src/plan/outlet-place.ts';
import { emptyPlan, makeRow, onLevel, type Plan } from '../../../src/plan/plan.ts';
import { wallsNear } from '../../../src/plan/walls-near.ts';

const place = fc.tuple(fc.integer({ min: 0, max: 9000 }), fc.integer({ min: 0, max: 9000 }));
const wall = fc.record({
  level: fc.constantFrom('L1', 'L2'),
  a: place,
  b: place,
  thickness: fc.integer({ min: 50, max: 600 }),
});
type Drawn = typeof wall extends fc.Arbitrary<infer W> ? W : never;

function planWith(walls: readonly Drawn[]): Plan {
  const plan = emptyPlan();
  const rows = walls.map((row, i) => [`W${i}`, makeRow('walls', `W${i}`, row)] as const);
  return { tables: { ...plan.tables, walls: new Map(rows) } };
}

describe('Walls near a place', () => {
  it('have the same nearest face as all of them', () => {
    fc.assert(
      fc.property(
        fc.array(wall, { maxLength: 30 }),
        place,
        fc.integer({ min: 0, max: 4000 }),
        (walls, at, reach) => {
          const plan = planWith(walls);
          const near = wallsNear(plan, 'L1', at, reach);
          expect(nearestFace(near, at, reach)).toEqual(
            nearestFace(onLevel(plan, 'walls', 'L1'), at, reach),
          );
        },
      ),
      { seed: 11, numRuns: 500 },
    );
  });

  it('are few of many', () => {
    const plan = planWith(
      Array.from({ length: 200 }, (_, i) => ({
        level: 'L1',
        a: [i * 1000, 0] as [number, number],
        b: [i * 1000, 5000] as [number, number],
        thickness: 100,
      })),
    );
    expect(wallsNear(plan, 'L1', [50_000, 100], 1200).map(({ id }) => id)).toEqual([
      'W49',
      'W50',
      'W51',
    ]);
  });

  it('are those of a plan in hand, as they change', () => {
    const plan = planWith([{ level: 'L1', a: [0, 0], b: [1000, 0], thickness: 100 }]);
    expect(wallsNear(plan, 'L1', [0, 0], 500)).toHaveLength(1);
    const draft = new Draft(plan);
    draft.patch('walls', 'W0', { b: [2000, 0] });
    expect(wallsNear(draft.plan, 'L1', [0, 0], 500)[0]?.b).toEqual([2000, 0]);
    draft.patch('walls', 'W0', { b: [3000, 0] });
    expect(wallsNear(draft.plan, 'L1', [0, 0], 500)[0]?.b).toEqual([3000, 0]);
    const after = apply(plan, draft.changes());
    draft.remove({ table: 'walls', id: 'W0' });
    expect(wallsNear(draft.plan, 'L1', [0, 0], 500)).toEqual([]);
    expect(wallsNear(after, 'L1', [0, 0], 500)[0]?.b).toEqual([3000, 0]);
  });
});
