import { describe, expect, it } from 'vitest';
import {
  labelParts,
  makeLabel,
  nextCable,
  nextNumber,
  renumbered,
} from '../../../src/plan/labels.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import { ask, labels, refusal, step } from './steps.ts';

/** A blank sheet with a room of area B in its west half and an order station at each of these places. */
function stations(...places: [number, number][]): Plan {
  const outline: [number, number][] = [
    [0, 0],
    [5000, 0],
    [5000, 8000],
    [0, 8000],
  ];
  let plan = step(emptyPlan(), 'draw-zone', { level: 'L1', outline, look: { area: 'B' } });
  for (const at of places)
    plan = step(plan, 'place-device', { level: 'L1', kind: 'order-station', at });
  return plan;
}

describe('a label', () => {
  it.each([
    ['A3', { area: 'A', number: 3, cable: 1 }],
    ['B12-2', { area: 'B', number: 12, cable: 2 }],
  ])('%s says its area, its number and its cable', (label, parts) => {
    expect(labelParts(label)).toEqual(parts);
    expect(makeLabel(parts.area, parts.number, parts.cable)).toBe(label);
  });

  it('takes the letter of the room it stands in, or of the level where no room is', () => {
    expect(labels(stations([1000, 1000], [9000, 1000], [2000, 2000]))).toEqual(['B1', 'A1', 'B2']);
  });

  it('is one above the highest number, and no number comes back after a deletion below it', () => {
    const plan = stations([1000, 1000], [2000, 1000], [3000, 1000]);
    const less = step(plan, 'delete', { refs: [{ table: 'devices', id: 'D2' }] });
    expect(nextNumber(less, 'B')).toBe(4);
    expect(nextNumber(less, 'C')).toBe(1);
  });

  it('is the lowest that is free once somebody has given the highest that there is', () => {
    const plan = stations([1000, 1000], [2000, 1000], [3000, 1000]);
    const fields = { label: 'B9999' };
    const high = step(plan, 'edit', { table: 'jacks', id: 'J2', fields });
    const more = step(high, 'place-device', {
      level: 'L1',
      kind: 'order-station',
      at: [4000, 4000],
    });
    expect(labels(more)).toEqual(['B1', 'B9999', 'B3', 'B2']);
  });
});

describe('a further jack', () => {
  it('carries the number of its device and the next cable', () => {
    let plan = stations([1000, 1000]);
    plan = step(plan, 'add-jack', { outlet: 'O1' });
    plan = step(plan, 'add-jack', { outlet: 'O1' });
    expect(labels(plan)).toEqual(['B1', 'B1-2', 'B1-3']);
    expect([...plan.tables.jacks.values()].every((jack) => jack.device === 'D1')).toBe(true);
  });

  it('on another outlet of the same device keeps the number', () => {
    expect(labels(step(stations([1000, 1000]), 'give-jack', { device: 'D1' }))).toEqual([
      'B1',
      'B1-2',
    ]);
  });

  it('as a spare gets a number of its own', () => {
    const plan = step(stations([1000, 1000]), 'add-jack', { outlet: 'O1', spare: true });
    expect(plan.tables.jacks.get('J2')).toMatchObject({ label: 'B2', device: null, spare: true });
  });

  it('counts every jack with that number, wherever it hangs', () => {
    let plan = step(stations([1000, 1000], [2000, 2000]), 'edit', {
      table: 'jacks',
      id: 'J2',
      fields: { label: 'B1-7' },
    });
    expect(nextCable(plan, 'B1')).toBe(8);
    expect(nextCable(plan, 'A1')).toBe(1);
    plan = step(plan, 'add-jack', { outlet: 'O1' });
    expect(labels(plan)).toContain('B1-8');
  });

  it('is refused beyond two digits, in words', () => {
    const plan = step(stations([1000, 1000]), 'edit', {
      table: 'jacks',
      id: 'J1',
      fields: { label: 'B1-99' },
    });
    expect(refusal(plan, 'add-jack', { outlet: 'O1' })).toBe('One device can have 99 jacks.');
    expect(refusal(plan, 'give-jack', { device: 'D1' })).toBe('One device can have 99 jacks.');
  });
});

describe('renumbering', () => {
  it('goes clockwise from the north-west in each area', () => {
    // Placed in the order north-east, south-west, north-west, south-east.
    const plan = stations([4000, 1000], [1000, 7000], [1000, 1000], [4000, 7000]);
    const next = renumbered(plan);
    expect(['J1', 'J2', 'J3', 'J4'].map((id) => next.get(id))).toEqual(['B2', 'B4', 'B1', 'B3']);
  });

  it('keeps the cables of one device together and changes nothing the second time', () => {
    let plan = stations([4000, 7000], [1000, 1000]);
    plan = step(plan, 'add-jack', { outlet: 'O1' });
    plan = step(plan, 'renumber', {});
    expect(labels(plan)).toEqual(['B2', 'B1', 'B2-2']);
    expect(refusal(plan, 'renumber', {})).toContain('already');
  });

  it('says how many labels changed', () => {
    const outcome = ask(stations([4000, 7000], [1000, 1000]), 'renumber', {});
    expect(outcome.ok && outcome.notice?.params.count).toBe(2);
    expect(outcome.ok && outcome.notice?.params.built).toBeUndefined();
  });

  it('says how many of them are on cables that are built', () => {
    const plan = stations([4000, 7000], [1000, 1000]);
    const [jack] = [...plan.tables.jacks.keys()];
    const built = step(plan, 'record', { records: [{ jack: jack!, fields: { by: 'KL' } }] });
    const outcome = ask(built, 'renumber', {});
    expect(outcome.ok && outcome.notice?.params).toEqual({ count: 2, built: 1 });
  });
});
