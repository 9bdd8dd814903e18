import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { apply, Draft, invert } from '../../../src/plan/change.ts';
import { readPlan, writePlan } from '../../../src/plan/codec.ts';
import type { CommandArgs, CommandName } from '../../../src/plan/commands/index.ts';
import { checkWhole } from '../../../src/plan/integrity.ts';
import { levelBeside, levelsUp, riserEnd, risersOn } from '../../../src/plan/levels.ts';
import { emptyPlan, makeRow, onLevel, type Plan } from '../../../src/plan/plan.ts';
import { ask, labels, refusal, step } from './steps.ts';

const known = new Set(kinds.keys());

/** Two rooms A and B with walls, a station that a printer shares, a spare, a keep-out, a tray, power and a closet. */
const floor = (): Plan => {
  const box = (x: number): Point[] => [
    [x, 0],
    [x + 6000, 0],
    [x + 6000, 5000],
    [x, 5000],
  ];
  let plan = step(emptyPlan(), 'draw-zone', { level: 'L1', outline: box(0), walls: true });
  plan = step(plan, 'draw-zone', { level: 'L1', outline: box(6000), walls: true });
  plan = step(plan, 'place-closet', { level: 'L1', at: [11_000, 4000] });
  plan = step(plan, 'place-device', { level: 'L1', kind: 'order-station', at: [2000, 500] });
  plan = step(plan, 'place-device', { level: 'L1', kind: 'receipt-printer', at: [2400, 500] });
  plan = step(plan, 'place-device', { level: 'L1', kind: 'kiosk', at: [8000, 500] });
  plan = step(plan, 'place-spare', { level: 'L1', at: [9000, 100] });
  plan = step(plan, 'place-power', { level: 'L1', at: [1000, 100] });
  plan = step(plan, 'draw-keepout', { level: 'L1', outline: box(0).slice(0, 3) });
  return step(plan, 'draw-pathway', {
    level: 'L1',
    kind: 'tray',
    points: [
      [1000, 3000],
      [9000, 3000],
    ],
  });
};

/** A command does what it says, undoes to the same bytes, and its plan survives save and open. */
function holds<N extends CommandName>(plan: Plan, name: N, args: CommandArgs<N>): Plan {
  const outcome = ask(plan, name, args);
  if (!outcome.ok) throw new Error(outcome.why.text);
  expect(outcome.changes.length).toBeGreaterThan(0);
  const after = apply(plan, outcome.changes);
  expect(writePlan(apply(after, invert(outcome.changes)))).toBe(writePlan(plan));
  expect(checkWhole(after, known, new Map())).toEqual([]);
  const read = readPlan(writePlan(after), known);
  if (!read.ok) throw new Error(read.issues[0]!.message);
  expect(writePlan(read.value.plan)).toBe(writePlan(after));
  return after;
}

describe('Adding a level', () => {
  it('puts it on top of the building, a deck and a foot of structure up, with a letter of its own', () => {
    const plan = holds(floor(), 'add-level', { from: 'L1', side: 'above' });
    expect(plan.tables.levels.get('L2')).toMatchObject({
      name: 'Level 2',
      elevation: 3658 + 305,
      deck: 3658,
      area: 'C',
    });
    const third = holds(plan, 'add-level', { from: 'L1', side: 'above' });
    expect(third.tables.levels.get('L3')).toMatchObject({
      name: 'Level 3',
      elevation: 2 * (3658 + 305),
      area: 'D',
    });
  });

  it('puts it underneath by its own deck', () => {
    const plan = holds(floor(), 'add-level', { from: 'L1', side: 'below', deck: 2700 });
    expect(plan.tables.levels.get('L2')).toMatchObject({
      name: 'Basement',
      elevation: -305 - 2700,
      deck: 2700,
    });
    const second = step(plan, 'add-level', { from: 'L2', side: 'below' });
    expect(second.tables.levels.get('L3')).toMatchObject({
      name: 'Basement 2',
      elevation: 2 * (-305 - 2700),
    });
  });

  it('takes name, floor, deck and ceiling as they are given, and building lines and ceiling from the level beside', () => {
    const turned = step(floor(), 'edit', {
      table: 'levels',
      id: 'L1',
      fields: { frameAngle: 12, ceiling: { kind: 'tile', height: 2700 } },
    });
    const given = { name: 'Mezzanine', elevation: 2900, deck: 2400 } as const;
    const plan = holds(turned, 'add-level', { from: 'L1', side: 'above', ...given });
    expect(plan.tables.levels.get('L2')).toMatchObject({
      ...given,
      frameAngle: 12,
      ceiling: { kind: 'tile', height: 2700 },
    });
  });

  it('shows the new level', () => {
    const outcome = ask(floor(), 'add-level', { from: 'L1', side: 'above' });
    expect(outcome).toMatchObject({ ok: true, level: 'L2' });
  });

  it('says why it cannot: from a level that is gone, or beyond what a plan can reach', () => {
    expect(refusal(floor(), 'add-level', { from: 'L9', side: 'above' })).toContain('no longer');
    const far = { from: 'L1', side: 'above', elevation: 40_000_000 } as const;
    expect(refusal(floor(), 'add-level', far)).toContain('farther');
  });

  it('gives rooms on one level no letter that another level has', () => {
    const plan = step(floor(), 'add-level', { from: 'L1', side: 'above' });
    const outline: Point[] = [
      [0, 0],
      [900, 0],
      [900, 900],
    ];
    const rooms = (level: string) =>
      [...step(plan, 'draw-zone', { level, outline }).tables.zones.values()].at(-1)!.area;
    expect(rooms('L2')).toBe('C');
    expect(rooms('L1')).toBe('D');
  });
});

describe('Copying a level', () => {
  it('takes rooms, walls, keep-outs and pathways along, and leaves what is placed', () => {
    const plan = holds(floor(), 'copy-level', { level: 'L1', side: 'above', devices: false });
    const count = (table: 'zones' | 'walls' | 'keepouts' | 'pathways', level: string) =>
      onLevel(plan, table, level).length;
    for (const table of ['zones', 'walls', 'keepouts', 'pathways'] as const)
      expect([table, count(table, 'L2')]).toEqual([table, count(table, 'L1')]);
    for (const table of ['devices', 'outlets', 'closets', 'pins', 'powers'] as const)
      expect(onLevel(plan, table, 'L2')).toEqual([]);
    expect(plan.tables.jacks.size).toBe(floor().tables.jacks.size);
  });

  it('bears the name that it is given, and says so of a level that is gone', () => {
    const args = { level: 'L1', side: 'above', devices: false } as const;
    const plan = holds(floor(), 'copy-level', { ...args, name: 'Gallery' });
    expect(plan.tables.levels.get('L2')!.name).toBe('Gallery');
    expect(refusal(floor(), 'copy-level', { ...args, level: 'L9' })).toContain('no longer');
  });

  it('lets a device that shares a jack go on sharing with the copy of its host, whichever came first', () => {
    const place = (plan: Plan, kind: string, x: number) =>
      step(plan, 'place-device', { level: 'L1', kind, at: [x, 500], alone: true });
    const both = place(place(emptyPlan(), 'receipt-printer', 1000), 'order-station', 2000);
    const shared = step(both, 'share-jack', { device: 'D1', host: 'D2' });
    const plan = holds(shared, 'copy-level', { level: 'L1', side: 'above', devices: true });
    const copies = onLevel(plan, 'devices', 'L2');
    const host = copies.find(({ kind }) => kind === 'order-station')!;
    expect(copies.find(({ kind }) => kind === 'receipt-printer')!.host).toBe(host.id);
  });

  it('takes the openings of its walls along', () => {
    const draft = new Draft(floor());
    draft.put('openings', makeRow('openings', 'G1', { wall: 'W1', along: 1000, width: 900 }));
    const plan = holds(draft.plan, 'copy-level', { level: 'L1', side: 'above', devices: false });
    const copied = plan.tables.openings.get('G2')!;
    expect(copied).toMatchObject({ along: 1000, width: 900 });
    expect(plan.tables.walls.get(copied.wall)!.level).toBe('L2');
  });

  it('leaves the names of devices behind, since a name is for one', () => {
    const named = step(floor(), 'edit', {
      table: 'devices',
      id: 'D1',
      fields: { name: 'Host stand' },
    });
    const plan = step(named, 'copy-level', { level: 'L1', side: 'above', devices: true });
    expect(onLevel(plan, 'devices', 'L2').map((d) => d.name)).toEqual(['', '', '']);
  });

  it('gives each of its areas a letter that nobody has', () => {
    const plan = step(floor(), 'copy-level', { level: 'L1', side: 'above', devices: false });
    expect(onLevel(plan, 'zones', 'L2').map((zone) => zone.area)).toEqual(['C', 'D']);
    expect(plan.tables.levels.get('L2')!.area).toBe('C');
  });

  it('gives copied devices jacks of their own under the new letters, with the old numbers', () => {
    const plan = holds(floor(), 'copy-level', { level: 'L1', side: 'above', devices: true });
    expect(labels(floor())).toEqual(['A1', 'B1', 'B2']);
    expect(labels(plan)).toEqual(['A1', 'B1', 'B2', 'C1', 'D1', 'D2']);
    expect(
      onLevel(plan, 'devices', 'L2')
        .map((d) => d.kind)
        .sort(),
    ).toEqual(
      onLevel(plan, 'devices', 'L1')
        .map((d) => d.kind)
        .sort(),
    );
    expect(onLevel(plan, 'powers', 'L2')).toHaveLength(1);
    expect(onLevel(plan, 'closets', 'L2').map((closet) => closet.name)).toEqual([
      'Network closet 2',
    ]);
  });

  it('lets what is copied name the copies: a printer its station, an outlet its wall', () => {
    const plan = step(floor(), 'copy-level', { level: 'L1', side: 'above', devices: true });
    const upstairs = onLevel(plan, 'devices', 'L2');
    const station = upstairs.find((d) => d.kind === 'order-station')!;
    expect(upstairs.find((d) => d.kind === 'receipt-printer')!.host).toBe(station.id);
    for (const outlet of onLevel(plan, 'outlets', 'L2'))
      expect(plan.tables.walls.get(outlet.wall!)!.level).toBe('L2');
  });

  it('keeps where outlets were put by hand, and lets jacks name the copies of their closet and pin', () => {
    let plan = step(floor(), 'move', { refs: [{ table: 'outlets', id: 'O1' }], by: [300, 0] });
    plan = step(plan, 'edit', { table: 'jacks', id: 'J1', fields: { closet: 'C1' } });
    plan = step(plan, 'edit', { table: 'closets', id: 'C1', fields: { height: 1800, ports: 24 } });
    plan = step(plan, 'pin-runs', { level: 'L1', points: [[100, 100]], jacks: ['J1'] });
    const copied = holds(plan, 'copy-level', { level: 'L1', side: 'above', devices: true });
    const jack = [...copied.tables.jacks.values()].find((j) => j.label === 'C1')!;
    expect(jack).toMatchObject({ closet: 'C2', pin: 'N2' });
    expect(copied.tables.closets.get('C2')).toMatchObject({
      level: 'L2',
      name: 'Network closet 2',
      at: [11_000, 4000],
      height: 1800,
      ports: 24,
    });
    expect(copied.tables.pins.get('N2')).toMatchObject({
      level: 'L2',
      name: 'P2',
      points: [[100, 100]],
    });
    expect(copied.tables.outlets.get(jack.outlet)).toMatchObject({
      at: copied.tables.outlets.get('O1')!.at,
      placed: 'hand',
    });
  });

  it('keeps the closet and the pin of a jack where they lie on another level', () => {
    let plan = step(floor(), 'add-level', { from: 'L1', side: 'below' });
    plan = step(plan, 'place-closet', { level: 'L2', at: [500, 500] });
    plan = step(plan, 'edit', { table: 'jacks', id: 'J1', fields: { closet: 'C2' } });
    plan = step(plan, 'pin-runs', { level: 'L2', points: [[100, 100]], jacks: ['J1'] });
    const copied = holds(plan, 'copy-level', { level: 'L1', side: 'above', devices: true });
    const jacks = [...copied.tables.jacks.values()].filter(
      ({ outlet }) => copied.tables.outlets.get(outlet)!.level === 'L3',
    );
    expect(jacks.filter(({ closet, pin }) => closet === 'C2' && pin === 'N1')).toHaveLength(1);
    expect(onLevel(copied, 'pins', 'L3')).toEqual([]);
  });

  it('takes pictures along as they lie, by the same bytes', () => {
    const draft = new Draft(floor());
    const asset = '0123456789abcdef';
    const picture = makeRow('backgrounds', 'B1', {
      asset,
      width: 800,
      height: 600,
      origin: [-100, 50],
      tilt: 1.5,
      turn: 90,
      crop: { x0: 10, y0: 10, x1: 700, y1: 500 },
    });
    draft.put('backgrounds', picture);
    const outcome = ask(draft.plan, 'copy-level', { level: 'L1', side: 'below', devices: false });
    if (!outcome.ok) throw new Error(outcome.why.text);
    const plan = apply(draft.plan, outcome.changes);
    expect(plan.tables.backgrounds.get('B2')).toEqual({ ...picture, id: 'B2', level: 'L2' });
    expect(checkWhole(plan, known, new Map([[asset, {}]]))).toEqual([]);
  });

  describe('with risers', () => {
    const two = () => {
      const plan = step(floor(), 'add-level', { from: 'L1', side: 'above' });
      return step(plan, 'place-riser', { level: 'L1', at: [500, 600], size: '4 in.' });
    };
    const up = { side: 'above', devices: false } as const;

    it.each([
      ['of the lower level on top', 'L1', 'above', { level: 'L2', upper: 'L3' }],
      ['of the upper level on top', 'L2', 'above', { level: 'L2', upper: 'L3' }],
      ['of the lower level underneath', 'L1', 'below', { level: 'L3', upper: 'L1' }],
    ] as const)('lets one go on to a copy %s', (_, level, side, ends) => {
      const plan = holds(two(), 'copy-level', { level, side, devices: false });
      const added = { ...ends, name: 'Riser 2', at: [500, 600], size: '4 in.' };
      expect(plan.tables.risers.get('R2')).toMatchObject(added);
      expect(plan.tables.risers.size).toBe(2);
    });

    it('lets a shaft of several go on from its last, once', () => {
      let plan = step(two(), 'add-level', { from: 'L2', side: 'above' });
      plan = step(plan, 'place-riser', { level: 'L2', to: 'L3', at: [500, 600] });
      const copied = holds(plan, 'copy-level', { level: 'L2', ...up });
      expect(copied.tables.risers.size).toBe(3);
      expect(copied.tables.risers.get('R3')).toMatchObject({ level: 'L3', upper: 'L4' });
    });

    it('leaves one that does not come out beside the copy, and says so', () => {
      const plan = step(two(), 'add-level', { from: 'L2', side: 'above' });
      const outcome = ask(plan, 'copy-level', { level: 'L1', ...up });
      if (!outcome.ok) throw new Error(outcome.why.text);
      expect(apply(plan, outcome.changes).tables.risers.size).toBe(1);
      expect(outcome.notice).toMatchObject({ params: { names: 'Riser' } });
      const alone = ask(floor(), 'copy-level', { level: 'L1', ...up });
      expect(alone).not.toHaveProperty('notice');
    });
  });

  it('goes on counting in the old letters where no new ones are left', () => {
    let plan = floor();
    for (const [i, area] of [...'CDEFGHJKLMNPQRSTUVWXYZ'].entries()) {
      const x = 20_000 + i * 1000;
      const outline: Point[] = [
        [x, 0],
        [x + 900, 0],
        [x, 900],
      ];
      plan = step(plan, 'draw-zone', { level: 'L1', outline, look: { area } });
    }
    const copied = holds(plan, 'copy-level', { level: 'L1', side: 'above', devices: true });
    expect(labels(copied)).toEqual(['A1', 'B1', 'B2', 'A2', 'B3', 'B4']);
  });
});

describe('Removing a level', () => {
  it('takes along all that stands on it, and comes back to the same bytes', () => {
    let plan = step(floor(), 'copy-level', { level: 'L1', side: 'above', devices: true });
    plan = step(plan, 'place-riser', { level: 'L1', at: [500, 500] });
    const after = holds(plan, 'delete', { refs: [{ table: 'levels', id: 'L2' }] });
    expect(writePlan(after)).toBe(writePlan(floor()));
  });

  it('refuses to take the last one', () => {
    expect(refusal(floor(), 'delete', { refs: [{ table: 'levels', id: 'L1' }] })).toContain('one');
  });
});

describe('The order of levels', () => {
  it('is that of their floors, whatever their ids', () => {
    let plan = step(floor(), 'add-level', { from: 'L1', side: 'below' });
    plan = step(plan, 'add-level', { from: 'L1', side: 'above' });
    expect(levelsUp(plan).map((level) => level.id)).toEqual(['L2', 'L1', 'L3']);
    expect(levelBeside(plan, 'L1', 1)?.id).toBe('L3');
    expect(levelBeside(plan, 'L1', -1)?.id).toBe('L2');
    expect(levelBeside(plan, 'L3', 1)).toBeNull();
    expect(levelBeside(plan, 'gone', 1)).toBeNull();
  });
});

describe('A riser', () => {
  const two = () => step(floor(), 'add-level', { from: 'L1', side: 'above' });

  it('joins the level that it is placed on with the one above', () => {
    const plan = holds(two(), 'place-riser', { level: 'L1', at: [500, 600] });
    expect(plan.tables.risers.get('R1')).toMatchObject({
      level: 'L1',
      upper: 'L2',
      name: 'Riser',
      at: [500, 600],
    });
  });

  it('joins the topmost with the one below, kept from the lower to the upper', () => {
    const plan = step(two(), 'place-riser', { level: 'L2', at: [500, 600] });
    expect(plan.tables.risers.get('R1')).toMatchObject({ level: 'L1', upper: 'L2' });
  });

  it('joins any two that are named, and gets a name that no other has', () => {
    const three = step(two(), 'add-level', { from: 'L1', side: 'above' });
    let plan = step(three, 'place-riser', { level: 'L3', to: 'L1', at: [0, 0], size: '4 in.' });
    plan = holds(plan, 'place-riser', { level: 'L2', at: [0, 0] });
    expect([...plan.tables.risers.values()].map((r) => [r.name, r.level, r.upper])).toEqual([
      ['Riser', 'L1', 'L3'],
      ['Riser 2', 'L2', 'L3'],
    ]);
  });

  it('says why it cannot be: one level alone, itself for its end, a place too far away', () => {
    const at: Point = [0, 0];
    expect(refusal(floor(), 'place-riser', { level: 'L1', at })).toContain('Add a level');
    expect(refusal(two(), 'place-riser', { level: 'L1', to: 'L1', at })).toContain('another level');
    expect(refusal(two(), 'place-riser', { level: 'L9', at })).toContain('no longer');
    expect(refusal(two(), 'place-riser', { level: 'L1', at: [40_000_000, 0] })).toContain(
      'farther',
    );
  });

  it('is seen on both its levels and leads to the other', () => {
    const plan = step(two(), 'place-riser', { level: 'L1', at: [0, 0] });
    const riser = plan.tables.risers.get('R1')!;
    expect(risersOn(plan, 'L1')).toEqual([riser]);
    expect(risersOn(plan, 'L2')).toEqual([riser]);
    expect(riserEnd(plan, riser, 'L1')?.id).toBe('L2');
    expect(riserEnd(plan, riser, 'L2')?.id).toBe('L1');
  });

  it('is moved, and goes with either of its levels', () => {
    const plan = step(two(), 'place-riser', { level: 'L1', at: [500, 600] });
    const moved = holds(plan, 'move', { refs: [{ table: 'risers', id: 'R1' }], by: [100, -100] });
    expect(moved.tables.risers.get('R1')!.at).toEqual([600, 500]);
    for (const id of ['L2'])
      expect(step(plan, 'delete', { refs: [{ table: 'levels', id }] }).tables.risers.size).toBe(0);
  });
});
