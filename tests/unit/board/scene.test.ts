import { describe, expect, it } from 'vitest';
import type { SceneView } from '../../../src/board/scene.ts';
import { restingMaker, sceneBetween } from '../../../src/board/scene-maker.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { emptyPlan, makeRow, type Plan } from '../../../src/plan/plan.ts';

const view: SceneView = {
  level: 'L1',
  leg: 'devices',
  shown: {
    background: true,
    rooms: true,
    counts: true,
    labels: true,
    power: true,
    below: false,
    overview: true,
    ceiling: false,
  },
  scale: 0.05,
};

function plan(): Plan {
  const { tables } = emptyPlan();
  const device = makeRow('devices', 'D1', { kind: 'kiosk', at: [1000, 1000] });
  const other = makeRow('devices', 'D2', { kind: 'kiosk', at: [4000, 1000] });
  const wall = makeRow('walls', 'W1', { a: [0, 0], b: [5000, 0] });
  return {
    tables: {
      ...tables,
      devices: new Map([
        ['D1', device],
        ['D2', other],
      ]),
      walls: new Map([['W1', wall]]),
    },
  };
}

const moved = (before: Plan, at: [number, number]): Plan => ({
  tables: {
    ...before.tables,
    devices: new Map(before.tables.devices).set('D1', { ...before.tables.devices.get('D1')!, at }),
  },
});

describe('What a plate lacks', () => {
  it('is nothing where the plan is the same', () => {
    const before = plan();
    expect(sceneBetween(before, { tables: { ...before.tables } }, kinds, view)).toBeNull();
  });

  it('is the symbol that moved, where it is, and no other', () => {
    const before = plan();
    const scene = sceneBetween(before, moved(before, [2000, 3000]), kinds, view)!;
    expect([...scene.drawn]).toEqual([['devices/D1', [2000, 3000]]]);
  });

  it('is a wall that moved, without those that did not', () => {
    const before = plan();
    const wall = { ...before.tables.walls.get('W1')!, b: [6000, 0] as const };
    const walls = new Map([
      ['W1', wall],
      ['W2', before.tables.walls.get('W1')!],
    ]);
    const under: Plan = {
      tables: { ...before.tables, walls: new Map(walls).set('W1', before.tables.walls.get('W1')!) },
    };
    const now: Plan = { tables: { ...before.tables, walls } };
    const lines = sceneBetween(under, now, kinds, view)!.layers.flatMap(({ marks }) => marks);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatchObject({ op: 'line', points: expect.arrayContaining([[6062, 62]]) });
  });
});

describe('What rests during a gesture', () => {
  it('is the plan without what moves, and the same plan for as long as the same moves', () => {
    const before = plan();
    const resting = restingMaker();
    const first = resting(before, moved(before, [2000, 0]));
    expect([...first.tables.devices.keys()]).toEqual(['D2']);
    expect(resting(before, moved(before, [3000, 0]))).toBe(first);
  });
});
