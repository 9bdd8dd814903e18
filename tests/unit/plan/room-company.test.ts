import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import { bareParts, inBody } from '../../../src/plan/bare-parts.ts';
import { makeRow, refKey, type Wall } from '../../../src/plan/plan.ts';
import { withRoomCompany } from '../../../src/plan/room-company.ts';
import { planWith } from '../takeoff/make-run.ts';

const wall = (a: Point, b: Point, thickness = 120): Wall =>
  makeRow('walls', 'W1', { level: 'L1', a, b, thickness });

describe('the bare parts of a side from 0 to 9000', () => {
  const [a, b]: [Point, Point] = [
    [0, 0],
    [9000, 0],
  ];
  const bare = (...walls: Wall[]) =>
    bareParts(walls, a, b, inBody).map(([p, q]) => `${p[0]}-${q[0]}`);

  it.each([
    ['no wall', [], ['0-9000']],
    ['one along all of it', [wall([0, 0], [9000, 0])], []],
    ['one beyond both ends, drawn the other way', [wall([9500, 0], [-500, 0])], []],
    ['one in its middle', [wall([3000, 0], [4000, 0])], ['0-3000', '4000-9000']],
    [
      'two that overlap',
      [wall([2000, 0], [5000, 0]), wall([4000, 0], [6000, 0])],
      ['0-2000', '6000-9000'],
    ],
    [
      'one within another',
      [wall([2000, 0], [6000, 0]), wall([3000, 0], [4000, 0])],
      ['0-2000', '6000-9000'],
    ],
    ['one that only goes on from its end', [wall([9000, 0], [12_000, 0])], ['0-9000']],
    ['one that leaves a sliver', [wall([62, 0], [9000, 0])], []],
    ['one that leaves more than that', [wall([63, 0], [9000, 0])], ['0-63']],
    ['one that lies aside by half its thickness', [wall([0, 60], [9000, 60])], []],
    ['one that lies aside by more', [wall([0, 61], [9000, 61])], ['0-9000']],
    ['one with one end in its line alone', [wall([0, 0], [9000, 3000])], ['0-9000']],
    ['one with its other end in its line alone', [wall([0, 3000], [9000, 0])], ['0-9000']],
  ] as const)('with %s', (_, walls, parts) => {
    expect(bare(...walls)).toEqual(parts);
  });

  it('are all of a side that is shorter than a sliver, where nothing stands', () => {
    expect(bareParts([], [0, 0], [40, 0])).toHaveLength(1);
  });
});

describe('what goes along with a room', () => {
  const box = (x0: number, x1: number): Point[] => [
    [x0, 0],
    [x1, 0],
    [x1, 3000],
    [x0, 3000],
  ];
  const plan = planWith({
    zones: { Z1: { outline: box(0, 4000) }, Z2: { outline: box(4000, 9000) } },
    walls: {
      W1: { a: [0, 0], b: [0, 3000] },
      W2: { a: [4000, 0], b: [4000, 3000] },
      W3: { a: [0, 0], b: [9000, 0] },
      W4: { a: [0, 0], b: [0, 5000] },
    },
    closets: { C1: { at: [1000, 1000] }, C2: { at: [5000, 1000] } },
    powers: { E1: { at: [0, 1000] }, E2: { at: [4000, 1000] } },
    devices: {
      D1: { kind: 'phone', at: [2000, 1000] },
      D2: { kind: 'phone', at: [5000, 1000] },
    },
    outlets: {
      O1: { at: [2000, 60], wall: 'W3' },
      O2: { at: [2500, 60], wall: 'W3' },
      O3: { at: [3000, 1500], wall: null },
      O4: { at: [3500, 60], wall: 'W3' },
    },
    jacks: {
      J1: { outlet: 'O1', label: 'A1', device: 'D1' },
      J2: { outlet: 'O2', label: 'A2', spare: true },
      J3: { outlet: 'O3', label: 'A3', spare: true },
      J4: { outlet: 'O4', label: 'A4', device: 'D2' },
    },
    pathways: {
      P1: {
        points: [
          [500, 500],
          [3000, 500],
        ],
      },
      P2: {
        points: [
          [500, 500],
          [5000, 500],
        ],
      },
    },
    notes: {
      T1: { at: [1000, 2000], text: 'In', to: null },
      T2: { at: [1000, 2000], text: 'Out', to: [5000, 2000] },
    },
  });
  const company = (...ids: string[]) =>
    withRoomCompany(
      plan,
      ids.map((id) => ({ table: 'zones' as const, id })),
    )
      .map(refKey)
      .sort();

  it('is what stands in it as a whole, walls that are its alone, and outlets of its devices', () => {
    expect(company('Z1')).toEqual(
      [
        ...['zones/Z1', 'walls/W1', 'closets/C1', 'powers/E1', 'devices/D1'],
        ...['outlets/O1', 'outlets/O3', 'pathways/P1', 'notes/T1'],
      ].sort(),
    );
  });

  it('is all between two rooms that go together', () => {
    const both = company('Z1', 'Z2');
    for (const ref of ['walls/W2', 'walls/W3', 'powers/E2', 'closets/C2', 'devices/D2'])
      expect(both).toContain(ref);
    expect(both).not.toContain('walls/W4');
  });

  it('is nothing where no room is picked', () => {
    const refs = [{ table: 'closets' as const, id: 'C1' }];
    expect(withRoomCompany(plan, refs)).toBe(refs);
  });
});
