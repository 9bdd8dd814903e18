import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import { Draft } from '../../../src/plan/change.ts';
import type { Edge } from '../../../src/plan/commands/align.ts';
import { emptyPlan, makeRow, type Plan, type Ref } from '../../../src/plan/plan.ts';
import { ask, device, labels, refusal, step } from './steps.ts';

const devicesAt = (...places: Point[]): Plan =>
  places.reduce(
    (plan, at) => step(plan, 'place-device', { level: 'L1', kind: 'order-station', at }),
    emptyPlan(),
  );
const refs = (plan: Plan): Ref[] =>
  [...plan.tables.devices.keys()].map((id) => ({ table: 'devices', id }));
const places = (plan: Plan) => [...plan.tables.devices.values()].map(({ at }) => at);
const THREE: Point[] = [
  [0, 0],
  [1000, 700],
  [3000, 100],
];

describe('Aligning', () => {
  it.each<[Edge, Point[]]>([
    [
      'left',
      [
        [0, 0],
        [0, 700],
        [0, 100],
      ],
    ],
    [
      'right',
      [
        [3000, 0],
        [3000, 700],
        [3000, 100],
      ],
    ],
    [
      'top',
      [
        [0, 0],
        [1000, 0],
        [3000, 0],
      ],
    ],
    [
      'bottom',
      [
        [0, 700],
        [1000, 700],
        [3000, 700],
      ],
    ],
    [
      'across',
      [
        [0, 350],
        [1000, 350],
        [3000, 350],
      ],
    ],
    [
      'down',
      [
        [1500, 0],
        [1500, 700],
        [1500, 100],
      ],
    ],
  ])('at %s brings all of them to one line', (edge, expected) => {
    const plan = devicesAt(...THREE);
    expect(places(step(plan, 'align', { refs: refs(plan), edge }))).toEqual(expected);
  });

  it('needs two things, and says so when they are in line already', () => {
    const one = devicesAt([0, 0]);
    expect(refusal(one, 'align', { refs: refs(one), edge: 'left' })).toContain('two things');
    const two = devicesAt([0, 0], [0, 2000]);
    expect(refusal(two, 'align', { refs: refs(two), edge: 'left' })).toContain('already');
  });

  it('leaves what is locked, and lines the others up with it', () => {
    let plan = devicesAt(...THREE);
    plan = step(plan, 'lock', { refs: [refs(plan)[0]!], locked: true });
    expect(places(step(plan, 'align', { refs: refs(plan), edge: 'right' }))).toEqual([
      [0, 0],
      [3000, 700],
      [3000, 100],
    ]);
  });
});

describe('Spreading', () => {
  it('puts the middles equally far from one another, the outermost as they were', () => {
    const plan = devicesAt([0, 0], [3000, 0], [700, 50]);
    expect(places(step(plan, 'distribute', { refs: refs(plan), along: 'x' }))).toEqual([
      [0, 0],
      [3000, 0],
      [1500, 50],
    ]);
  });
});

describe('Turning', () => {
  it('by a quarter turns places about their middle and each device with them', () => {
    const plan = devicesAt([0, 0], [2000, 0]);
    const turned = step(plan, 'rotate', { refs: refs(plan), by: 90 });
    expect(places(turned)).toEqual([
      [1000, -1000],
      [1000, 1000],
    ]);
    expect(device(turned, 'D1').turn).toBe(90);
  });

  it('four times by a quarter gives the same plan', () => {
    const plan = devicesAt(...THREE);
    let turned = plan;
    for (let i = 0; i < 4; i++) turned = step(turned, 'rotate', { refs: refs(plan), by: 90 });
    expect(places(turned)).toEqual(places(plan));
  });

  it('turns walls with their doors and the outlets on them', () => {
    const draft = new Draft(emptyPlan());
    draft.put('walls', makeRow('walls', 'W1', { a: [0, 0], b: [4000, 0] }));
    draft.put('openings', makeRow('openings', 'G1', { wall: 'W1', along: 1000 }));
    draft.put('outlets', makeRow('outlets', 'O1', { at: [3000, 62], wall: 'W1', placed: 'hand' }));
    const plan = step(draft.plan, 'rotate', { refs: [{ table: 'walls', id: 'W1' }], by: 90 });
    expect(plan.tables.walls.get('W1')).toMatchObject({ a: [2000, -2000], b: [2000, 2000] });
    expect(plan.tables.openings.get('G1')!.along).toBe(1000);
    expect(plan.tables.outlets.get('O1')!.at).toEqual([1938, 1000]);
  });

  it('by no angle is refused', () => {
    const plan = devicesAt([0, 0]);
    expect(refusal(plan, 'rotate', { refs: refs(plan), by: 360 })).toContain('angle');
    expect(refusal(plan, 'rotate', { refs: refs(plan), by: Number.NaN })).toContain('angle');
  });
});

describe('Mirroring', () => {
  it('swaps left and right about the middle, and again gives the same', () => {
    const plan = devicesAt([0, 0], [1000, 500], [3000, 0]);
    const call = { refs: refs(plan), across: 'x' } as const;
    const mirrored = step(plan, 'mirror', call);
    expect(places(mirrored)).toEqual([
      [3000, 0],
      [2000, 500],
      [0, 0],
    ]);
    expect(places(step(mirrored, 'mirror', call))).toEqual(places(plan));
  });

  it('lets doors open to the other side of the wall', () => {
    const draft = new Draft(emptyPlan());
    draft.put('walls', makeRow('walls', 'W1', { a: [0, 0], b: [4000, 0] }));
    draft.put('openings', makeRow('openings', 'G1', { wall: 'W1', along: 1000, side: 'left' }));
    const plan = step(draft.plan, 'mirror', { refs: [{ table: 'walls', id: 'W1' }], across: 'x' });
    expect(plan.tables.openings.get('G1')!.side).toBe('right');
  });
});

describe('One of these every so far along a line', () => {
  it('stands at the first end and every step up to the other', () => {
    const plan = devicesAt([500, 500]);
    const args = { refs: refs(plan), a: [0, 0] as Point, b: [5000, 0] as Point, step: 1219 };
    const row = step(plan, 'repeat-along', args);
    expect(places(row).map(([x]) => x)).toEqual([0, 1219, 2438, 3657, 4876]);
    expect(labels(row)).toEqual(['A1', 'A2', 'A3', 'A4', 'A5']);
  });

  it('reaches the end of a line that is a whole number of steps', () => {
    const plan = devicesAt([0, 0]);
    const args = { refs: refs(plan), a: [0, 0] as Point, b: [3000, 4000] as Point, step: 1000 };
    expect(places(step(plan, 'repeat-along', args)).at(-1)).toEqual([3000, 4000]);
  });

  it('is refused on a line shorter than a step, and for more than can be made', () => {
    const plan = devicesAt([0, 0]);
    const args = { refs: refs(plan), a: [0, 0] as Point, b: [1000, 0] as Point };
    expect(refusal(plan, 'repeat-along', { ...args, step: 1001 })).toContain('shorter');
    expect(refusal(plan, 'repeat-along', { ...args, step: 4 })).toContain('200');
    expect(refusal(plan, 'repeat-along', { ...args, step: 0 })).toContain('how far apart');
  });
});

describe('Replacing a kind', () => {
  it('keeps place and label, and takes the height and cord of the new kind', () => {
    const plan = devicesAt([0, 0]);
    const next = step(plan, 'replace-kind', { refs: refs(plan), kind: 'kitchen-screen' });
    expect(device(next, 'D1')).toMatchObject({ kind: 'kitchen-screen', at: [0, 0] });
    expect(labels(next)).toEqual(['A1']);
  });

  it('gives a jack of its own to what shared one and may not any more', () => {
    let plan = devicesAt([0, 0]);
    plan = step(plan, 'place-device', { level: 'L1', kind: 'receipt-printer', at: [300, 0] });
    expect(device(plan, 'D2').host).toBe('D1');
    const one: Ref[] = [{ table: 'devices', id: 'D2' }];
    const next = step(plan, 'replace-kind', { refs: one, kind: 'access-point' });
    expect(device(next, 'D2').host).toBeNull();
    expect(labels(next)).toEqual(['A1', 'A2']);
  });
});

describe('An opening', () => {
  const walled = (): Plan =>
    step(emptyPlan(), 'draw-walls', {
      level: 'L1',
      points: [
        [0, 0],
        [4000, 0],
      ],
    });

  it('stands in the wall where it was placed, and opens to the side of the pointer', () => {
    const plan = step(walled(), 'place-opening', { level: 'L1', kind: 'door', at: [1500, 200] });
    expect(plan.tables.openings.get('G1')).toMatchObject({
      wall: 'W1',
      along: 1500,
      side: 'right',
    });
    const other = step(walled(), 'place-opening', { level: 'L1', kind: 'door', at: [1500, -200] });
    expect(other.tables.openings.get('G1')!.side).toBe('left');
  });

  it('is held within the wall, and refused beside it, on another one, or in a wall too short', () => {
    const at = (x: number, y = 0, width = 914) =>
      ask(walled(), 'place-opening', { level: 'L1', kind: 'door', at: [x, y], width });
    const held = at(-200);
    expect(held.ok && (held.changes[0]!.after as unknown as { along: number }).along).toBe(457);
    expect(at(2000, 2000).ok).toBe(false);
    expect(at(2000, 0, 4100).ok).toBe(false);
    const plan = step(walled(), 'place-opening', { level: 'L1', kind: 'door', at: [2000, 0] });
    expect(
      refusal(plan, 'place-opening', { level: 'L1', kind: 'window', at: [2500, 0] }),
    ).toContain('already');
  });

  it('makes an outlet that hung there by itself move aside', () => {
    let plan = step(walled(), 'place-device', {
      level: 'L1',
      kind: 'order-station',
      at: [2000, 300],
    });
    expect(plan.tables.outlets.get('O1')!.at).toEqual([2000, 62]);
    plan = step(plan, 'place-opening', { level: 'L1', kind: 'door', at: [2000, 0] });
    const [x] = plan.tables.outlets.get('O1')!.at;
    expect(Math.abs(x - 2000)).toBeGreaterThanOrEqual(457 + 100 - 1);
  });

  it('slides along its wall, goes to another where it is put there, and goes with its wall', () => {
    let plan = step(walled(), 'place-opening', { level: 'L1', kind: 'door', at: [2000, 0] });
    plan = step(plan, 'draw-walls', {
      level: 'L1',
      points: [
        [0, 3000],
        [4000, 3000],
      ],
    });
    const opening: Ref[] = [{ table: 'openings', id: 'G1' }];
    const slid = step(plan, 'move', { refs: opening, by: [500, 30] });
    expect(slid.tables.openings.get('G1')).toMatchObject({ wall: 'W1', along: 2500 });
    const over = step(plan, 'move', { refs: opening, by: [500, 2900] });
    expect(over.tables.openings.get('G1')).toMatchObject({ wall: 'W2', along: 2500 });
    const gone = step(plan, 'delete', { refs: [{ table: 'walls', id: 'W1' }] });
    expect(gone.tables.openings.size).toBe(0);
  });
});

describe('Copies on another level', () => {
  it('stand there with jacks of their own', () => {
    let plan = devicesAt([0, 0]);
    plan = step(plan, 'add-level', { from: 'L1', side: 'above' });
    const to = [...plan.tables.levels.keys()].find((id) => id !== 'L1')!;
    plan = step(plan, 'duplicate', { refs: refs(plan), by: [0, 0], level: to });
    expect(device(plan, 'D2')).toMatchObject({ level: to, at: [0, 0] });
    const outlet = [...plan.tables.outlets.values()].at(-1)!;
    expect(outlet.level).toBe(to);
  });
});

describe('A room that is drawn with walls', () => {
  const first = (): Plan =>
    step(emptyPlan(), 'draw-zone', {
      level: 'L1',
      outline: [
        [0, 0],
        [4000, 0],
        [4000, 3000],
        [0, 3000],
      ],
      walls: true,
    });
  const second = (x: number, y: number) =>
    ({
      level: 'L1',
      outline: [
        [4000 + x, y],
        [8000, y],
        [8000, 3000],
        [4000 + x, 3000],
      ],
      walls: true,
    }) as const;

  it.each([
    [0, 0],
    [62, 0],
    [-150, 40],
    [152, -100],
    [200, 0],
  ])('uses the wall beside it, drawn %i mm off', (x, y) => {
    const outcome = ask(first(), 'draw-zone', second(x, y));
    const plan = step(first(), 'draw-zone', second(x, y));
    expect(plan.tables.walls.size).toBe(7);
    expect(outcome.ok && outcome.notice?.text).toContain('already there');
    expect(plan.tables.zones.get('Z2')!.outline.map(String)).toEqual(
      expect.arrayContaining(['4000,0', '4000,3000']),
    );
  });

  it('gets a wall of its own where the other is farther than half a foot from the face', () => {
    const plan = step(first(), 'draw-zone', second(62 + 152 + 1, 0));
    expect(plan.tables.walls.size).toBe(8);
    const outcome = ask(emptyPlan(), 'draw-zone', second(0, 0));
    expect(outcome.ok && outcome.notice).toBeUndefined();
  });

  it('inside the same walls adds none', () => {
    const outcome = ask(first(), 'draw-zone', {
      level: 'L1',
      outline: [
        [62, 62],
        [3938, 62],
        [3938, 2938],
        [62, 2938],
      ],
      walls: true,
    });
    expect(outcome.ok && outcome.changes.filter(({ table }) => table === 'walls')).toEqual([]);
    expect(outcome.ok && outcome.notice?.params).toMatchObject({ count: 4 });
  });
});

describe('A room between walls', () => {
  const walls = (end: number): Plan =>
    step(emptyPlan(), 'draw-walls', {
      level: 'L1',
      points: [
        [0, 0],
        [4000, 0],
        [4000, 3000],
        [0, 3000],
        [0, end],
      ],
    });

  it('is drawn round the place, along the middle lines', () => {
    const plan = step(walls(0), 'fill-room', { level: 'L1', at: [1000, 1000] });
    expect(plan.tables.zones.get('Z1')!.outline.map(String).sort()).toEqual([
      '0,0',
      '0,3000',
      '4000,0',
      '4000,3000',
    ]);
    expect(refusal(plan, 'fill-room', { level: 'L1', at: [2000, 1000] })).toContain('already');
  });

  it('is refused where the walls do not close, with the width of the gap', () => {
    expect(refusal(walls(1500), 'fill-room', { level: 'L1', at: [1000, 1000] })).toContain(
      '4\'-6"',
    );
    expect(refusal(walls(0), 'fill-room', { level: 'L1', at: [9000, 1000] })).toContain(
      'No walls close',
    );
  });
});
