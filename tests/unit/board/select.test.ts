import { describe, expect, it } from 'vitest';
import { undoLabel } from '../../../src/board/session.ts';
import { kinds } from '../../../src/kinds/index.ts';
import type { Ref } from '../../../src/plan/plan.ts';
import { createSurveyor } from '../../../src/survey/survey.ts';
import { drive, picturePlan, planWith, roomPlan } from './driver.ts';

const DEVICE: Ref = { table: 'devices', id: 'D1' };
const OUTLET: Ref = { table: 'outlets', id: 'O1' };
const ZONE: Ref = { table: 'zones', id: 'Z1' };
const NORTH: Ref = { table: 'walls', id: 'W1' };

const room = () => drive({ plan: roomPlan() });

describe('A click', () => {
  it.each([
    ['a device', '3000,600', DEVICE],
    ['an outlet on the wall before the wall', '3000,80', OUTLET],
    ['a wall', '5500,10', NORTH],
    ['a pathway', '2000,4000', { table: 'pathways', id: 'P1' }],
    ['a keep-out in a room before the room', '2000,5000', { table: 'keepouts', id: 'K1' }],
    ['a closet', '7000,5000', { table: 'closets', id: 'C1' }],
    ['the room where nothing else is', '5000,2500', ZONE],
  ] as const)('selects %s', (_name, at, ref) => {
    const d = room();
    d.play(`click ${at}`);
    expect(d.state().selection).toEqual([ref]);
  });

  it('takes a power outlet where it is drawn, and never where a leg or a person put it away', () => {
    const d = room();
    d.session.getState().actions.run('place-power', { level: 'L1', at: [4000, 2500] });
    const power: Ref = { table: 'powers', id: [...d.plan().tables.powers.keys()][0]! };
    const { set } = d.state().actions;
    const picks = (leg: 'devices' | 'runs', scale: number) => {
      d.state().actions.select([]);
      set({ leg, viewport: { ...d.state().viewport, scale } });
      d.play('click 4000,2500');
      return d.state().selection;
    };
    expect(picks('devices', 0.1)).toEqual([power]);
    expect(picks('runs', 0.1)).toEqual([power]);
    // So small a drawing leaves them out, but for the leg that places them.
    expect(picks('runs', 0.01)).not.toContainEqual(power);
    expect(picks('devices', 0.01)).toEqual([power]);
    set({ shown: { ...d.state().shown, power: false } });
    expect(picks('devices', 0.1)).toEqual([ZONE]);
    d.play('press -1000,-1000 · move 5000,5000 · move 9000,7000 · release 9000,7000');
    expect(d.state().selection).not.toContainEqual(power);
    expect(d.state().selection).toContainEqual(DEVICE);
  });

  it('on empty paper selects nothing', () => {
    const d = room();
    d.play('click 3000,600 · click 12000,9000');
    expect(d.state().selection).toEqual([]);
  });

  it('with Shift adds a thing and takes it away', () => {
    const d = room();
    d.play('click 3000,600');
    d.play('click 7000,5000', { shift: true });
    expect(d.state().selection).toEqual([DEVICE, { table: 'closets', id: 'C1' }]);
    d.play('click 3000,600', { shift: true });
    expect(d.state().selection).toEqual([{ table: 'closets', id: 'C1' }]);
  });

  it('with Ctrl goes to what lies beneath', () => {
    const d = room();
    d.play('click 2000,5000');
    d.play('click 2000,5000', { ctrl: true });
    expect(d.state().selection).toEqual([ZONE]);
  });

  it('of a finger reaches what is 20 px away, a mouse does not', () => {
    const mouse = room();
    mouse.play('click 5500,250');
    expect(mouse.state().selection).toEqual([ZONE]);
    const finger = room();
    finger.play('click 5500,250', { touch: true });
    expect(finger.state().selection).toEqual([NORTH]);
    const far = room();
    far.play('click 5500,350', { touch: true });
    expect(far.state().selection).toEqual([ZONE]);
  });

  it('a little beside a thin line still means the line, not the room that it lies in', () => {
    const d = room();
    d.play('click 2000,4040');
    expect(d.state().selection).toEqual([{ table: 'pathways', id: 'P1' }]);
    d.play('click 5500,100');
    expect(d.state().selection).toEqual([NORTH]);
  });

  it('on a cable selects its jack, on the leg of the runs', () => {
    const d = room();
    d.state().actions.set({ survey: createSurveyor(kinds)(d.plan()) });
    d.play('click 3000,2500');
    expect(d.state().selection).toEqual([ZONE]);
    d.state().actions.set({ leg: 'runs' });
    d.play('click 3000,2500');
    expect(d.state().selection).toEqual([{ table: 'jacks', id: 'J1' }]);
    d.play('drag 3000,2500 4000,2500');
    expect(d.state().history.cursor).toBe(0);
  });

  it('makes no step', () => {
    const d = room();
    d.play('click 3000,600 · click 5000,2500');
    expect(d.state().history.cursor).toBe(0);
  });
});

describe('A box', () => {
  it('from left to right selects what lies wholly inside', () => {
    const d = room();
    d.play('drag 800,3500 6500,5700');
    expect(d.state().selection).toEqual([
      { table: 'pathways', id: 'P1' },
      { table: 'keepouts', id: 'K1' },
    ]);
  });

  it('from right to left selects all that it touches', () => {
    const d = room();
    d.play('drag 5500,5000 2500,3500');
    expect(
      d
        .state()
        .selection.map((ref) => ref.table)
        .sort(),
    ).toEqual(['keepouts', 'pathways']);
  });

  it('takes a wall that only passes through it, when it touches', () => {
    const d = room();
    d.play('drag 5000,-300 4500,300');
    expect(d.state().selection).toContainEqual(NORTH);
    const inside = room();
    inside.play('drag 4500,-300 5000,300');
    expect(inside.state().selection).toEqual([]);
  });

  it('with Shift adds to the selection', () => {
    const d = room();
    d.play('click 7000,5000');
    d.play('drag 800,3500 6500,5700', { shift: true });
    expect(d.state().selection).toHaveLength(3);
  });
});

describe('A drag', () => {
  it('moves a device with its outlet, shows it while it lasts, and is one step', () => {
    const d = room();
    const before = d.text();
    d.play('press 3000,600 · move 3500,600 · move 5000,700');
    expect(d.text()).toBe(before);
    expect(d.state().preview?.tables.devices.get('D1')?.at).toEqual([5000, 700]);
    expect(d.state().preview?.tables.outlets.get('O1')?.at).toEqual([5000, 62]);
    d.play('release 5000,700');
    expect(d.plan().tables.devices.get('D1')?.at).toEqual([5000, 700]);
    expect(d.state().history.cursor).toBe(1);
    d.state().actions.undo();
    expect(d.text()).toBe(before);
  });

  it('keeps the thing where it was grabbed, not its middle under the pointer', () => {
    const d = room();
    d.play('drag 3050,640 4050,840');
    expect(d.plan().tables.devices.get('D1')?.at).toEqual([4000, 800]);
  });

  it('that comes back to its beginning is no step', () => {
    const d = room();
    d.play('press 3000,600 · move 5000,600 · move 3000,600 · release 3000,600');
    expect(d.state().history.cursor).toBe(0);
    expect(d.state().preview).toBeNull();
  });

  it('moves everything that is selected', () => {
    const d = room();
    d.state().actions.select([DEVICE, { table: 'closets', id: 'C1' }]);
    d.play('drag 3000,600 3500,1000');
    expect(d.plan().tables.devices.get('D1')?.at).toEqual([3500, 1000]);
    expect(d.plan().tables.closets.get('C1')?.at).toEqual([7500, 5400]);
  });

  it('of a room that is not selected draws a box and moves nothing', () => {
    const d = room();
    d.play('drag 4500,2000 5500,3000');
    expect(d.state().history.cursor).toBe(0);
    expect(d.plan().tables.zones.get('Z1')?.outline[0]).toEqual([0, 0]);
  });

  it('of a selected room moves it with its walls and what stands in it', () => {
    const d = room();
    d.play('click 5000,2500 · drag 5000,2500 6000,2500');
    expect(d.plan().tables.zones.get('Z1')?.outline[0]).toEqual([1000, 0]);
    expect([...d.plan().tables.walls.values()].map((w) => w.a)).toEqual([
      [1000, 0],
      [9000, 0],
      [9000, 6000],
      [1000, 6000],
    ]);
    expect(d.state().selection).toEqual([ZONE]);
    expect(d.state().history.cursor).toBe(1);
    expect(undoLabel(d.state())?.params).toEqual({
      what: 'room with what stands in it',
    });
  });

  it('of a room leaves the wall that it shares with another, and becomes one with it again', () => {
    const d = drive({ tool: 'room' });
    d.play('drag 0,0 4000,3000 · drag 4000,0 8000,3000 · key v');
    const upright = () => {
      const walls = [...d.plan().tables.walls.values()].filter((w) => w.a[0] === w.b[0]);
      return walls.map((w) => w.a[0]).sort((a, b) => a - b);
    };
    d.play('click 2000,1500 · drag 2000,1500 1000,1500');
    expect(upright()).toEqual([-1000, 3000, 4000, 8000]);
    d.play('drag 1000,1500 2000,1500');
    expect(upright()).toEqual([0, 4000, 8000]);
  });

  it('moves by a typed length along its direction', () => {
    const d = room();
    d.play(`press 3000,600 · move 3400,600 · type 3' · key Enter · release 3400,600`);
    expect(d.plan().tables.devices.get('D1')?.at).toEqual([3914, 600]);
    expect(d.state().history.cursor).toBe(1);
  });

  it('with Shift keeps to a right angle', () => {
    const d = drive({ plan: roomPlan(), snapping: true });
    d.play('press 3000,600 · move 3100,600');
    d.play('move 4500,800 · release 4500,800', { shift: true });
    expect(d.plan().tables.devices.get('D1')?.at[1]).toBe(600);
  });

  it('less than a click is wide selects and moves nothing', () => {
    const d = room();
    d.play('press 3000,600 · move 3030,620 · release 3030,620');
    expect(d.state().selection).toEqual([DEVICE]);
    expect(d.state().history.cursor).toBe(0);
  });
});

describe('A point of the one selected thing', () => {
  it('of a wall takes along what meets there: the next wall and the corner of the room', () => {
    const d = room();
    d.play('click 5500,0 · drag 8000,0 9000,-500');
    expect(d.plan().tables.walls.get('W1')?.b).toEqual([9000, -500]);
    expect(d.plan().tables.walls.get('W2')?.a).toEqual([9000, -500]);
    expect(d.plan().tables.zones.get('Z1')?.outline[1]).toEqual([9000, -500]);
    expect(d.state().history.cursor).toBe(1);
  });

  it('moves alone with Ctrl', () => {
    const d = room();
    d.play('click 5500,0');
    d.play('drag 8000,0 9000,-500', { ctrl: true });
    expect(d.plan().tables.walls.get('W1')?.b).toEqual([9000, -500]);
    expect(d.plan().tables.walls.get('W2')?.a).toEqual([8000, 0]);
  });

  it('of a keep-out moves one corner', () => {
    const d = room();
    d.play('click 2000,5000 · drag 3000,5500 3500,5800');
    expect(d.plan().tables.keepouts.get('K1')?.outline).toEqual([
      [1000, 4500],
      [3000, 4500],
      [3500, 5800],
      [1000, 5500],
    ]);
  });

  it('of a pathway moves one point', () => {
    const d = room();
    d.play('click 2000,4000 · drag 6000,4000 6000,5000');
    expect(d.plan().tables.pathways.get('P1')?.points).toEqual([
      [1000, 4000],
      [6000, 5000],
    ]);
  });

  it('may not make a wall without length; the notice says why and nothing changes', () => {
    const d = drive({
      plan: planWith([
        'draw-walls',
        {
          level: 'L1',
          points: [
            [0, 0],
            [3000, 0],
          ],
        },
      ]),
    });
    const before = d.text();
    d.play('click 1500,0 · drag 3000,0 0,0');
    expect(d.text()).toBe(before);
    expect(d.state().notices).toHaveLength(1);
    expect(d.state().preview).toBeNull();
  });
});

describe('A background', () => {
  it('is not hit while it is fixed', () => {
    const d = drive({ plan: picturePlan() });
    d.play('click 4000,4000 · drag 4000,4000 5000,5000');
    expect(d.state().selection).toEqual([]);
    expect(d.state().history.cursor).toBe(0);
  });

  it('is moved once it is unlocked and selected', () => {
    const d = drive({ plan: picturePlan({ locked: false }) });
    d.play('drag 4000,4000 5000,5000');
    expect(d.state().history.cursor).toBe(0);
    d.play('click 4000,4000 · drag 4000,4000 5000,4500');
    expect(d.plan().tables.backgrounds.get('B1')?.origin).toEqual([1000, 500]);
  });
});

describe('Pointing', () => {
  it('tells what lies under the pointer, and forgets it when the pointer leaves', () => {
    const d = room();
    d.play('move 3000,600');
    expect(d.state().hover).toEqual(DEVICE);
    d.play('leave');
    expect(d.state().hover).toBeNull();
  });
});
