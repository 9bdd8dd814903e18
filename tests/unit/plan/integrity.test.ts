import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kinds } from '../../../src/kinds/index.ts';
import { apply } from '../../../src/plan/change.ts';
import { checkWhole } from '../../../src/plan/integrity.ts';
import { emptyPlan, makeRow, type Plan, type Ref } from '../../../src/plan/plan.ts';
import { SINGLETONS, TABLES, type TableName } from '../../../src/plan/schema.ts';
import { planOf } from '../../samples/plan-of.ts';
import { readSite } from '../../samples/site.ts';
import { ask, device, refusal, step } from './steps.ts';

const known = new Set(kinds.keys());
const restaurant = planOf(readSite('restaurant'));
const codes = (plan: Plan) => checkWhole(plan, known, new Map()).map((i) => `${i.code} ${i.path}`);

/** Puts a row as it is, past every command. */
const put = (plan: Plan, table: TableName, id: string, fields: object): Plan => ({
  tables: {
    ...plan.tables,
    [table]: new Map([
      ...(plan.tables[table] as ReadonlyMap<string, unknown>),
      [id, makeRow(table, id, fields as never)],
    ]),
  },
});

describe('a whole plan', () => {
  it('is sound when it is blank and when it is a drawn restaurant', () => {
    expect(codes(emptyPlan())).toEqual([]);
    expect(codes(restaurant)).toEqual([]);
  });

  it.each([
    ['dangling-id walls.W1.level', 'walls', { level: 'L9', a: [0, 0], b: [1, 0] }],
    ['no-length walls.W1', 'walls', { a: [5, 5], b: [5, 5] }],
    [
      'no-length pathways.W1',
      'pathways',
      {
        points: [
          [1, 1],
          [1, 1],
        ],
      },
    ],
    [
      'no-area zones.W1.outline',
      'zones',
      {
        outline: [
          [0, 0],
          [5, 5],
          [9, 9],
        ],
      },
    ],
    [
      'no-area keepouts.W1.outline',
      'keepouts',
      {
        outline: [
          [0, 0],
          [5, 0],
          [9, 0],
        ],
      },
    ],
    ['unknown-kind devices.W1.kind', 'devices', { kind: 'teapot', at: [0, 0] }],
    ['shares-twice devices.W1.host', 'devices', { kind: 'kiosk', at: [0, 0], host: 'W1' }],
    ['dangling-id outlets.W1.wall', 'outlets', { at: [0, 0], wall: 'W7' }],
    ['dangling-id jacks.W1.outlet', 'jacks', { outlet: 'O1', label: 'A1' }],
    [
      'no-picture backgrounds.W1.asset',
      'backgrounds',
      { asset: '0123456789abcdef', width: 5, height: 5 },
    ],
  ] as const)('has a fault: %s', (fault, table, fields) => {
    expect(codes(put(emptyPlan(), table, 'W1', fields))).toEqual([fault]);
  });

  it('says so when it has no level', () => {
    expect(codes({ tables: { ...emptyPlan().tables, levels: new Map() } })).toEqual([
      'no-level levels',
    ]);
  });

  it('does not let a device share with one that shares', () => {
    let plan = put(emptyPlan(), 'devices', 'D1', { kind: 'order-station', at: [0, 0] });
    plan = put(plan, 'devices', 'D2', { kind: 'receipt-printer', at: [0, 0], host: 'D1' });
    plan = put(plan, 'devices', 'D3', { kind: 'receipt-printer', at: [0, 0], host: 'D2' });
    expect(codes(plan)).toEqual(['shares-twice devices.D3.host']);
  });
});

describe('removal', () => {
  const two = (): Plan => {
    let plan = step(emptyPlan(), 'draw-walls', {
      level: 'L1',
      points: [
        [0, 0],
        [6000, 0],
      ],
    });
    plan = step(plan, 'place-device', { level: 'L1', kind: 'order-station', at: [1000, 500] });
    return step(plan, 'place-device', { level: 'L1', kind: 'receipt-printer', at: [1500, 500] });
  };

  it('of a device takes its jacks and the outlet that they leave empty', () => {
    const plan = step(two(), 'delete', { refs: [{ table: 'devices', id: 'D1' }] });
    expect(plan.tables.jacks.size).toBe(0);
    expect(plan.tables.outlets.size).toBe(0);
    expect(device(plan, 'D2').host).toBeNull();
  });

  it('of a device leaves an outlet at which a spare hangs', () => {
    const plan = step(step(two(), 'add-jack', { outlet: 'O1', spare: true }), 'delete', {
      refs: [{ table: 'devices', id: 'D1' }],
    });
    expect([...plan.tables.jacks.keys()]).toEqual(['J2']);
    expect(plan.tables.outlets.size).toBe(1);
  });

  it('of the last jack takes the outlet, of one of two does not', () => {
    const plan = step(two(), 'add-jack', { outlet: 'O1' });
    const one = step(plan, 'delete', { refs: [{ table: 'jacks', id: 'J1' }] });
    expect(one.tables.outlets.size).toBe(1);
    const none = step(plan, 'delete', {
      refs: [
        { table: 'jacks', id: 'J1' },
        { table: 'jacks', id: 'J2' },
      ],
    });
    expect(none.tables.outlets.size).toBe(0);
    expect(none.tables.devices.size).toBe(2);
  });

  it('of an outlet takes its jacks and leaves its device', () => {
    const plan = step(two(), 'delete', { refs: [{ table: 'outlets', id: 'O1' }] });
    expect([plan.tables.jacks.size, plan.tables.devices.size]).toEqual([0, 2]);
  });

  it('of a wall lets its outlets forget it', () => {
    const plan = step(two(), 'delete', { refs: [{ table: 'walls', id: 'W1' }] });
    expect(plan.tables.outlets.get('O1')).toMatchObject({ wall: null });
  });

  it('of a closet lets the jacks forget that they were told to go there', () => {
    let plan = step(two(), 'place-closet', { level: 'L1', at: [5000, 500] });
    plan = step(plan, 'edit', { table: 'jacks', id: 'J1', fields: { closet: 'C1' } });
    plan = step(plan, 'delete', { refs: [{ table: 'closets', id: 'C1' }] });
    expect(plan.tables.jacks.get('J1')?.closet).toBeNull();
  });

  it('of a level takes all that stands on it, and the last level stays', () => {
    const plan = put(two(), 'levels', 'L2', { name: 'Upper level' });
    const left = step(plan, 'delete', { refs: [{ table: 'levels', id: 'L1' }] });
    const counts = TABLES.filter((t) => ![...SINGLETONS, 'levels'].includes(t as never)).map(
      (table) => left.tables[table].size,
    );
    expect(counts.every((n) => n === 0)).toBe(true);
    expect(refusal(left, 'delete', { refs: [{ table: 'levels', id: 'L2' }] })).toContain('level');
  });

  it('passes over what is not there, and says when nothing is left to delete', () => {
    expect(refusal(two(), 'delete', { refs: [{ table: 'walls', id: 'W9' }] })).toContain('nothing');
    expect(refusal(two(), 'delete', { refs: [{ table: 'job', id: 'job' }] })).toContain('nothing');
  });

  it('of any rows of a restaurant leaves a sound plan without empty outlets', () => {
    const refs: Ref[] = TABLES.filter((t) => !(SINGLETONS as readonly string[]).includes(t))
      .filter((t) => t !== 'levels')
      .flatMap((table) => [...restaurant.tables[table].keys()].map((id) => ({ table, id })));
    fc.assert(
      fc.property(fc.subarray(refs, { minLength: 1 }), (some) => {
        const outcome = ask(restaurant, 'delete', { refs: some });
        if (!outcome.ok) throw new Error('nothing was deleted');
        const plan = apply(restaurant, outcome.changes);
        expect(codes(plan)).toEqual([]);
        for (const ref of some) expect(plan.tables[ref.table].has(ref.id)).toBe(false);
        const used = new Set([...plan.tables.jacks.values()].map((jack) => jack.outlet));
        expect([...plan.tables.outlets.keys()].filter((id) => !used.has(id))).toEqual([]);
      }),
      { seed: 862, numRuns: 60 },
    );
  });
});
