import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { checkWhole } from '../../../src/plan/integrity.ts';
import { emptyPlan, jacksOf, type Plan, type Ref } from '../../../src/plan/plan.ts';
import { device, labels, outletOf, refusal, step } from './steps.ts';

const DEVICE: Ref = { table: 'devices', id: 'D1' };

const room = (): Plan =>
  step(emptyPlan(), 'draw-zone', {
    level: 'L1',
    outline: [
      [0, 0],
      [9000, 0],
      [9000, 6000],
      [0, 6000],
    ],
    walls: true,
  });
const station = (): Plan =>
  step(room(), 'place-device', { level: 'L1', kind: 'order-station', at: [1000, 600] });

describe('Copies', () => {
  it('of a device have an outlet and a jack of their own, with the next label', () => {
    const plan = step(station(), 'duplicate', { refs: [DEVICE], by: [2000, 0] });
    expect(device(plan, 'D2').at).toEqual([3000, 600]);
    expect(outletOf(plan, 'D2').at).toEqual([3000, 62]);
    expect(labels(plan)).toEqual(['A1', 'A2']);
  });

  it('stand in a row, each as far from the last', () => {
    const plan = step(station(), 'duplicate', { refs: [DEVICE], by: [1500, 100], count: 3 });
    expect([...plan.tables.devices.values()].map((d) => d.at)).toEqual([
      [1000, 600],
      [2500, 700],
      [4000, 800],
      [5500, 900],
    ] satisfies Point[]);
    expect(new Set(labels(plan)).size).toBe(4);
  });

  it('have as many jacks as what was copied', () => {
    const two = step(station(), 'add-jack', { outlet: 'O1' });
    const plan = step(two, 'duplicate', { refs: [DEVICE], by: [2000, 0] });
    expect(jacksOf(plan, device(plan, 'D2')).map((jack) => jack.label)).toEqual(['A2', 'A2-2']);
  });

  it('go on sharing a jack when the host is copied too, and get one of their own when it is not', () => {
    const shared = step(station(), 'place-device', {
      level: 'L1',
      kind: 'receipt-printer',
      at: [1300, 600],
    });
    expect(device(shared, 'D2').host).toBe('D1');
    const printer: Ref = { table: 'devices', id: 'D2' };
    const both = step(shared, 'duplicate', { refs: [printer, DEVICE], by: [3000, 0] });
    expect(both.tables.jacks.size).toBe(2);
    const copies = [...both.tables.devices.values()].slice(2);
    expect(copies.map((d) => [d.kind, d.host === null])).toEqual([
      ['order-station', true],
      ['receipt-printer', false],
    ]);
    expect(copies[1]?.host).toBe(copies[0]?.id);
    const alone = step(shared, 'duplicate', { refs: [printer], by: [3000, 0] });
    expect(device(alone, 'D3').host).toBeNull();
    expect(jacksOf(alone, device(alone, 'D3'))).toHaveLength(1);
  });

  it('of a device and its outlet together are one device with one outlet', () => {
    const refs: Ref[] = [DEVICE, { table: 'outlets', id: 'O1' }];
    const plan = step(station(), 'duplicate', { refs, by: [2000, 0] });
    expect(plan.tables.outlets.size).toBe(2);
  });

  it('of an outlet by itself hold spare jacks, and hang on the wall that they come to', () => {
    const refs: Ref[] = [{ table: 'outlets', id: 'O1' }];
    const plan = step(station(), 'duplicate', { refs, by: [3000, 100] });
    const outlet = plan.tables.outlets.get('O2')!;
    expect(outlet.at).toEqual([4000, 62]);
    expect([...plan.tables.jacks.values()].at(-1)).toMatchObject({ spare: true, label: 'A2' });
  });

  it('of rooms, walls and pathways lie aside, and leave a sound plan', () => {
    const refs = [...room().tables.walls.keys()].map((id): Ref => ({ table: 'walls', id }));
    const plan = step(room(), 'duplicate', {
      refs: [...refs, { table: 'zones', id: 'Z1' }],
      by: [0, 7000],
    });
    expect(plan.tables.walls.size).toBe(8);
    expect(plan.tables.zones.get('Z2')?.outline[0]).toEqual([0, 7000]);
    expect(checkWhole(plan, new Set(kinds.keys()), new Map())).toEqual([]);
  });

  it('are refused for nothing, too many, and too far away', () => {
    expect(refusal(room(), 'duplicate', { refs: [], by: [1, 0] })).toMatch(/nothing/i);
    expect(refusal(station(), 'duplicate', { refs: [DEVICE], by: [1, 0], count: 0 })).toMatch(
      /1 and/,
    );
    expect(refusal(station(), 'duplicate', { refs: [DEVICE], by: [40_000_000, 0] })).toMatch(/far/);
  });
});
