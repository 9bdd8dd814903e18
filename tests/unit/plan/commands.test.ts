import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { apply, invert } from '../../../src/plan/change.ts';
import { readPlan, writePlan } from '../../../src/plan/codec.ts';
import type { CommandName } from '../../../src/plan/commands/index.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import { ask, device, labels, outletOf, refusal, step } from './steps.ts';

const at = (x: number, y: number): Point => [x, y];

/** A sheet with one wall 100 thick along y = 0, from x = 0 to x = 10 m: its faces lie at y = -50 and y = 50. */
const walled = (): Plan =>
  step(emptyPlan(), 'draw-walls', {
    level: 'L1',
    points: [at(0, 0), at(10_000, 0)],
    look: { thickness: 100 },
  });

const station = (plan: Plan, place: Point): Plan =>
  step(plan, 'place-device', { level: 'L1', kind: 'order-station', at: place });

describe('placing a device', () => {
  it('puts its outlet on the nearer face of the nearest wall', () => {
    expect(outletOf(station(walled(), at(3000, 700)), 'D1')).toMatchObject({
      at: [3000, 50],
      wall: 'W1',
      mount: 'wall',
      placed: 'auto',
    });
    expect(outletOf(station(walled(), at(3000, -700)), 'D1').at).toEqual([3000, -50]);
  });

  it('takes the wall up to the last millimetre that its cord reaches, and not one further', () => {
    const cord = kinds.get('order-station')!.cord;
    expect(outletOf(station(walled(), at(3000, 50 + cord)), 'D1').wall).toBe('W1');
    expect(outletOf(station(walled(), at(3000, 51 + cord)), 'D1')).toMatchObject({
      wall: null,
      mount: 'pole',
      at: [3000, 51 + cord],
    });
  });

  it('counts the difference in height against the reach of the cord', () => {
    // A kiosk's port is at 1120, its outlet at 457: 663 up, so 2134 of cord reach sqrt(2134² - 663²) = 2028 sideways.
    const place = (y: number) =>
      outletOf(
        step(walled(), 'place-device', { level: 'L1', kind: 'kiosk', at: at(3000, y) }),
        'D1',
      );
    expect(place(50 + 2028).wall).toBe('W1');
    expect(place(50 + 2029).wall).toBeNull();
  });

  it('puts the outlet at the device, on a wall to come, where no wall is drawn at all', () => {
    expect(outletOf(station(emptyPlan(), at(3000, 700)), 'D1')).toMatchObject({
      at: [3000, 700],
      mount: 'wall',
      wall: null,
    });
  });

  it('hangs what belongs on a ceiling at the height of the ceiling there', () => {
    const outline = [at(0, 0), at(5000, 0), at(5000, 5000), at(0, 5000)];
    let plan = step(emptyPlan(), 'draw-zone', {
      level: 'L1',
      outline,
      look: { ceiling: { kind: 'tile', height: 2600 } },
    });
    plan = step(plan, 'place-device', { level: 'L1', kind: 'access-point', at: at(1000, 1000) });
    expect(outletOf(plan, 'D1')).toMatchObject({ mount: 'ceiling', height: 2600 });
    expect(device(plan, 'D1').height).toBe(2600);
  });

  it('refuses a kind that nobody knows', () => {
    const args = { level: 'L1', kind: 'teapot', at: at(0, 0) };
    expect(refusal(emptyPlan(), 'place-device', args)).toContain('teapot');
  });
});

describe('sharing a jack', () => {
  const printer = (plan: Plan, x: number, alone = false): Plan =>
    step(plan, 'place-device', { level: 'L1', kind: 'receipt-printer', at: at(x, 500), alone });

  it('comes by itself for a printer beside a station, within 900 mm', () => {
    const plan = printer(station(walled(), at(1000, 500)), 1900);
    expect(device(plan, 'D2').host).toBe('D1');
    expect(labels(plan)).toEqual(['A1']);
    expect(device(printer(station(walled(), at(1000, 500)), 1901), 'D2').host).toBeNull();
  });

  it('can be declined', () => {
    expect(labels(printer(station(walled(), at(1000, 500)), 1500, true))).toEqual(['A1', 'A2']);
  });

  it('does not come from a station that has no jack', () => {
    const plan = step(station(walled(), at(1000, 500)), 'delete', {
      refs: [{ table: 'outlets', id: 'O1' }],
    });
    expect(device(printer(plan, 1500), 'D2').host).toBeNull();
    const alone = printer(plan, 1500, true);
    expect(refusal(alone, 'share-jack', { device: 'D2', host: 'D1' })).toContain('cannot share');
  });

  it('takes the jack away that the device had, and giving one brings it back', () => {
    let plan = printer(station(walled(), at(1000, 500)), 1500, true);
    plan = step(plan, 'share-jack', { device: 'D2', host: 'D1' });
    expect([labels(plan), plan.tables.outlets.size]).toEqual([['A1'], 1]);
    plan = step(plan, 'give-jack', { device: 'D2' });
    expect([labels(plan), device(plan, 'D2').host]).toEqual([['A1', 'A2'], null]);
  });

  it('hands on to the host whoever shared the jack that goes', () => {
    let plan = printer(station(walled(), at(1000, 500)), 1500);
    plan = station(plan, at(5000, 500));
    plan = step(plan, 'edit', { table: 'devices', id: 'D1', fields: { kind: 'card-terminal' } });
    plan = step(plan, 'share-jack', { device: 'D1', host: 'D3' });
    expect([device(plan, 'D1').host, device(plan, 'D2').host]).toEqual(['D3', 'D3']);
  });

  it('is refused between kinds that do not share, with itself, and with one that shares', () => {
    let plan = station(station(walled(), at(1000, 500)), at(2000, 500));
    expect(refusal(plan, 'share-jack', { device: 'D1', host: 'D2' })).toContain('cannot share');
    expect(refusal(plan, 'share-jack', { device: 'D1', host: 'D1' })).toContain('cannot share');
    plan = printer(printer(plan, 1000), 5000, true);
    expect(refusal(plan, 'share-jack', { device: 'D4', host: 'D3' })).toContain('cannot share');
  });
});

describe('placing network closets', () => {
  const names = (plan: Plan) => [...plan.tables.closets.values()].map((closet) => closet.name);
  const closet = (plan: Plan) => step(plan, 'place-closet', { level: 'L1', at: at(0, 0) });

  it('gives each further one a name that no other has, whichever went before', () => {
    let plan = closet(closet(closet(emptyPlan())));
    expect(names(plan)).toEqual(['Network closet', 'Network closet 2', 'Network closet 3']);
    plan = closet(step(plan, 'delete', { refs: [{ table: 'closets', id: 'C2' }] }));
    expect(new Set(names(plan)).size).toBe(3);
  });
});

describe('moving', () => {
  const moved = (plan: Plan, table: 'devices' | 'outlets' | 'walls', id: string, by: Point): Plan =>
    step(plan, 'move', { refs: [{ table, id }], by });

  it('a device takes its outlet along the wall', () => {
    const plan = moved(station(walled(), at(3000, 700)), 'devices', 'D1', at(2000, 100));
    expect(outletOf(plan, 'D1')).toMatchObject({ at: [5000, 50], placed: 'auto' });
  });

  it('an outlet by hand drops it on the nearest face, and from then on it stays there', () => {
    let plan = moved(station(walled(), at(3000, 700)), 'outlets', 'O1', at(500, 90));
    expect(outletOf(plan, 'D1')).toMatchObject({ at: [3500, 50], placed: 'hand', wall: 'W1' });
    plan = moved(plan, 'devices', 'D1', at(2000, 0));
    expect(outletOf(plan, 'D1').at).toEqual([3500, 50]);
  });

  it('an outlet away from all walls lets go of its wall', () => {
    const plan = moved(station(walled(), at(3000, 700)), 'outlets', 'O1', at(0, 3000));
    expect(outletOf(plan, 'D1')).toMatchObject({ at: [3000, 3050], wall: null });
  });

  it('a station takes along the printer that shares its jack', () => {
    let plan = station(walled(), at(3000, 500));
    plan = step(plan, 'place-device', { level: 'L1', kind: 'receipt-printer', at: at(3500, 500) });
    plan = moved(plan, 'devices', 'D1', at(1000, 0));
    expect(device(plan, 'D2').at).toEqual([4500, 500]);
  });

  it('a wall takes its outlets along, those placed by hand too', () => {
    let plan = moved(station(walled(), at(3000, 700)), 'outlets', 'O1', at(500, 0));
    plan = moved(plan, 'walls', 'W1', at(0, 300));
    expect(outletOf(plan, 'D1')).toMatchObject({ at: [3500, 350], wall: 'W1' });
  });

  it('a device and its outlet together tears the outlet off its wall and hangs it on the next', () => {
    let plan = step(walled(), 'draw-walls', {
      level: 'L1',
      points: [at(0, 4000), at(10_000, 4000)],
      look: { thickness: 100 },
    });
    plan = station(plan, at(3000, 700));
    const refs = [
      { table: 'devices' as const, id: 'D1' },
      { table: 'outlets' as const, id: 'O1' },
    ];
    expect(outletOf(step(plan, 'move', { refs, by: at(0, 1500) }), 'D1').wall).toBeNull();
    expect(outletOf(step(plan, 'move', { refs, by: at(0, 3900) }), 'D1').wall).toBe('W2');
    expect(outletOf(step(plan, 'move', { refs, by: at(1000, 0) }), 'D1').wall).toBe('W1');
  });

  it('nothing, or beyond what a plan can hold, is refused', () => {
    expect(refusal(walled(), 'move', { refs: [], by: at(1, 1) })).toContain('nothing');
    const refs = [{ table: 'walls' as const, id: 'W1' }];
    expect(refusal(walled(), 'move', { refs, by: at(33_000_000, 0) })).toContain('farther');
  });
});

describe('walls that come and go', () => {
  it('draw outlets to them that nobody placed by hand', () => {
    let plan = station(emptyPlan(), at(3000, 700));
    plan = step(plan, 'draw-walls', { level: 'L1', points: [at(0, 0), at(10_000, 0)] });
    expect(outletOf(plan, 'D1')).toMatchObject({ wall: 'W1', at: [3000, 62] });
  });

  it('turn the outlets out of their reach into drops from the ceiling, and back', () => {
    let plan = station(emptyPlan(), at(3000, 9000));
    plan = step(plan, 'draw-walls', { level: 'L1', points: [at(0, 0), at(10_000, 0)] });
    expect(outletOf(plan, 'D1').mount).toBe('pole');
    plan = step(plan, 'delete', { refs: [{ table: 'walls', id: 'W1' }] });
    expect(outletOf(plan, 'D1').mount).toBe('wall');
  });

  it('of another thickness keep what hangs on them on their face', () => {
    let plan = step(station(walled(), at(3000, 700)), 'move', {
      refs: [{ table: 'outlets', id: 'O1' }],
      by: at(500, 0),
    });
    plan = step(plan, 'edit', { table: 'walls', id: 'W1', fields: { thickness: 200 } });
    expect(outletOf(plan, 'D1')).toMatchObject({ at: [3500, 100], placed: 'hand', wall: 'W1' });
  });
});

describe('drawing', () => {
  const square = (x: number, size: number): Point[] => [
    at(x, 0),
    at(x + size, 0),
    at(x + size, size),
    at(x, size),
  ];
  const ends = (plan: Plan) =>
    [...plan.tables.walls.values()].map((w) => [w.a, w.b].map(String).sort().join(' '));

  it('a room with walls draws none where one stands, also where it covers only a part', () => {
    let plan = step(emptyPlan(), 'draw-zone', {
      level: 'L1',
      outline: square(0, 3000),
      walls: true,
    });
    plan = step(plan, 'draw-zone', { level: 'L1', outline: square(3000, 4000), walls: true });
    expect(plan.tables.walls.size).toBe(8);
    expect(ends(plan)).toContain('3000,3000 3000,4000');
    expect(ends(plan)).not.toContain('3000,0 3000,4000');
    plan = step(plan, 'draw-zone', { level: 'L1', outline: square(3000, 4000), walls: true });
    expect(plan.tables.walls.size).toBe(8);
  });

  it('gives each room the next free area letter', () => {
    let plan = step(emptyPlan(), 'draw-zone', { level: 'L1', outline: square(0, 3000) });
    plan = step(plan, 'draw-zone', { level: 'L1', outline: square(3000, 3000) });
    expect([...plan.tables.zones.values()].map((zone) => zone.area)).toEqual(['A', 'B']);
  });

  it('passes over points that repeat, and refuses what has no length or no area', () => {
    const points = [at(0, 0), at(0, 0), at(5, 0), at(5, 0)];
    expect(step(emptyPlan(), 'draw-walls', { level: 'L1', points }).tables.walls.size).toBe(1);
    const nowhere = { level: 'L1', points: [at(1, 1), at(1, 1), at(1, 1)] };
    expect(refusal(emptyPlan(), 'draw-walls', { ...nowhere, closed: true })).toContain('two ends');
    expect(refusal(emptyPlan(), 'draw-pathway', { ...nowhere, kind: 'tray' })).toContain(
      'two ends',
    );
    const line = { level: 'L1', outline: [at(0, 0), at(1, 1), at(2, 2)] };
    expect(refusal(emptyPlan(), 'draw-zone', line)).toContain('three corners');
    expect(refusal(emptyPlan(), 'draw-keepout', line)).toContain('three corners');
  });
});

describe('editing a field', () => {
  it.each([
    ['a value out of range', 'walls', 'W1', { thickness: 0 }],
    ['a field that is not there', 'walls', 'W1', { colour: 'red' }],
    ['a row that is not there', 'walls', 'W9', { thickness: 100 }],
    ['a wall without length', 'walls', 'W1', { b: [0, 0] }],
    ['a level that is not there', 'walls', 'W1', { level: 'L7' }],
    ['a kind that nobody knows', 'devices', 'D1', { kind: 'teapot' }],
    ['a device that would share with itself', 'devices', 'D1', { host: 'D1' }],
    ['a label that is none', 'jacks', 'J1', { label: '12' }],
  ] as const)('refuses %s', (_, table, id, fields) => {
    expect(refusal(station(walled(), at(3000, 700)), 'edit', { table, id, fields })).not.toBe('');
  });

  it('of an outlet counts as placing it by hand', () => {
    const plan = step(station(walled(), at(3000, 700)), 'edit', {
      table: 'outlets',
      id: 'O1',
      fields: { height: 300 },
    });
    expect(outletOf(plan, 'D1')).toMatchObject({ height: 300, placed: 'hand' });
  });
});

describe('a background', () => {
  const picture = (): Plan =>
    step(emptyPlan(), 'add-background', {
      level: 'L1',
      name: 'Plan',
      asset: '0123456789abcdef',
      width: 1000,
      height: 500,
    });
  const row = (plan: Plan) => plan.tables.backgrounds.get('B1')!;

  it('is laid 20 m wide until its scale is set', () => {
    expect(row(picture()).mmPerPixel).toBe(20);
  });

  it('takes its scale from a known length, whose first end stays in place', () => {
    // 200 pixels lie between the ends: 4000 mm at 20 mm a pixel; they are really 3000 mm.
    const plan = step(picture(), 'set-scale', {
      background: 'B1',
      a: at(2000, 2000),
      b: at(6000, 2000),
      length: 3000,
    });
    expect(row(plan)).toMatchObject({ mmPerPixel: 15, origin: [500, 500] });
    expect(row(plan).scale).toEqual({ a: [100, 100], b: [300, 100], length: 3000 });
  });

  it('comes back to where it lay after four quarter turns', () => {
    let plan = picture();
    for (let i = 0; i < 4; i++) plan = step(plan, 'turn-background', { background: 'B1' });
    expect(row(plan)).toEqual(row(picture()));
    const once = row(step(picture(), 'turn-background', { background: 'B1' }));
    expect(once).toMatchObject({ turn: 90, origin: [5000, -5000] });
  });

  it('refuses a scale from a line that is too short, or without a length', () => {
    const line = { background: 'B1', a: at(0, 0), b: at(300, 0) };
    expect(refusal(picture(), 'set-scale', { ...line, length: 300 })).toContain('too short');
    expect(refusal(picture(), 'set-scale', { ...line, b: at(3000, 0), length: 0 })).toContain(
      'Type',
    );
    expect(refusal(picture(), 'check-scale', { ...line, length: 300 })).toContain('longer');
  });
});

describe('any row of commands', () => {
  const near = fc.integer({ min: -4000, max: 9000 });
  const place = fc.tuple(near, near);
  const n = fc.integer({ min: 1, max: 4 });
  const refs = fc.array(
    fc.tuple(fc.constantFrom('devices', 'outlets', 'walls', 'zones', 'jacks', 'powers'), n),
    { minLength: 1, maxLength: 4 },
  );
  const steps: fc.Arbitrary<readonly [CommandName, unknown]> = fc.oneof(
    fc.tuple(
      fc.constant('place-device' as const),
      fc.record({
        level: fc.constant('L1'),
        kind: fc.constantFrom(...kinds.keys()),
        at: place,
        alone: fc.boolean(),
      }),
    ),
    fc.tuple(
      fc.constant('draw-walls' as const),
      fc.record({
        level: fc.constant('L1'),
        points: fc.array(place, { maxLength: 4 }),
        closed: fc.boolean(),
      }),
    ),
    fc.tuple(
      fc.constant('draw-zone' as const),
      fc.record({
        level: fc.constant('L1'),
        outline: fc.array(place, { maxLength: 5 }),
        walls: fc.boolean(),
      }),
    ),
    fc.tuple(
      fc.constant('move' as const),
      fc.record({
        refs: refs.map((list) => list.map(([table, i]) => ({ table, id: idOf(table, i) }))),
        by: place,
      }),
    ),
    fc.tuple(
      fc.constant('delete' as const),
      fc.record({
        refs: refs.map((list) => list.map(([table, i]) => ({ table, id: idOf(table, i) }))),
      }),
    ),
    fc.tuple(
      fc.constant('add-jack' as const),
      fc.record({ outlet: n.map((i) => `O${i}`), spare: fc.boolean() }),
    ),
    fc.tuple(fc.constant('give-jack' as const), fc.record({ device: n.map((i) => `D${i}`) })),
    fc.tuple(
      fc.constant('share-jack' as const),
      fc.record({ device: n.map((i) => `D${i}`), host: n.map((i) => `D${i}`) }),
    ),
    fc.tuple(
      fc.constant('place-spare' as const),
      fc.record({ level: fc.constant('L1'), at: place }),
    ),
    fc.tuple(
      fc.constant('edit' as const),
      fc.record({
        table: fc.constant('walls'),
        id: n.map((i) => `W${i}`),
        fields: fc.record({ a: place, thickness: fc.integer({ min: 0, max: 300 }) }),
      }),
    ),
    fc.tuple(fc.constant('renumber' as const), fc.constant({})),
  );

  function idOf(table: string, i: number): string {
    return `${{ devices: 'D', outlets: 'O', walls: 'W', zones: 'Z', jacks: 'J', powers: 'E' }[table]}${i}`;
  }

  it('leaves a plan that can be saved and opened again, and each step can be taken back', () => {
    fc.assert(
      fc.property(fc.array(steps, { maxLength: 25 }), (list) => {
        let plan = emptyPlan();
        for (const [name, args] of list) {
          const outcome = ask(plan, name, args as never);
          if (!outcome.ok) continue;
          const next = apply(plan, outcome.changes);
          expect(writePlan(apply(next, invert(outcome.changes)))).toBe(writePlan(plan));
          plan = next;
        }
        const back = readPlan(writePlan(plan), new Set(kinds.keys()));
        if (!back.ok) throw new Error(JSON.stringify(back.issues));
        expect(back.value.plan).toEqual(plan);
        expect(new Set(labels(plan)).size).toBe(plan.tables.jacks.size);
      }),
      { seed: 606, numRuns: 300 },
    );
  });
});
