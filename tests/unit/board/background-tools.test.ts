import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import { fromPicture } from '../../../src/plan/picture-place.ts';
import { drive, picturePlan } from './driver.ts';

const b1 = (d: ReturnType<typeof drive>) => d.plan().tables.backgrounds.get('B1')!;

describe('Cropping a background', () => {
  it('shows what lies in the box that was dragged, and the tool is done', () => {
    const d = drive({ plan: picturePlan(), tool: 'crop' });
    d.play('drag 1000,2000 6000,7000');
    expect(b1(d).crop).toEqual({ x0: 100, y0: 200, x1: 600, y1: 700 });
    expect(d.state().tool).toBe('select');
    d.state().actions.undo();
    expect(b1(d).crop).toBeNull();
  });

  it('takes two clicks, too, and its own corners when it is tilted', () => {
    const d = drive({ plan: picturePlan({ tilt: 20 }), tool: 'crop' });
    const at = (pixel: Point) => fromPicture(b1(d), pixel).map(Math.round).join();
    d.play(`click ${at([100, 200])} · move ${at([500, 300])}`);
    const [box] = d.editor.view().overlay;
    expect(box).toMatchObject({ op: 'line', closed: true });
    d.play(`click ${at([600, 700])}`);
    expect(b1(d).crop).toEqual({ x0: 100, y0: 200, x1: 600, y1: 700 });
  });

  it('is left without a trace', () => {
    const d = drive({ plan: picturePlan(), tool: 'crop' });
    d.play('click 1000,2000 · move 3000,3000 · key Escape');
    expect(d.editor.view().busy).toBe(false);
    expect(d.state().history.cursor).toBe(0);
  });
});

describe('Levelling a background', () => {
  it('turns it until the line that was drawn is level', () => {
    const d = drive({ plan: picturePlan(), tool: 'level' });
    d.play('drag 1000,1000 9000,1400');
    expect(b1(d).tilt).toBeCloseTo((-Math.atan2(400, 8000) * 180) / Math.PI, 3);
    expect(d.state().tool).toBe('select');
  });

  it('stands it upright where the line is nearer to plumb', () => {
    const d = drive({ plan: picturePlan({ turn: 90 }), tool: 'level' });
    d.play('drag 4000,1000 3800,7000');
    expect([b1(d).turn, b1(d).tilt]).toEqual([90, expect.closeTo(-1.909, 3)]);
  });
});

describe('Straightening a photo', () => {
  it('begins with four corners within the picture, and asks with those that were set', () => {
    const d = drive({ plan: picturePlan(), tool: 'straighten' });
    // 1000 by 800 px at 10 mm: the corners begin 12 % in. A drag moves the nearest along, wherever it begins.
    d.play('press 2000,2000 · move 1500,2500 · release 1500,2500 · key Enter');
    expect(d.straightened).toEqual([
      {
        do: 'straighten',
        background: 'B1',
        corners: [
          [70, 146],
          [880, 96],
          [880, 704],
          [120, 704],
        ],
      },
    ]);
    expect(d.state().tool).toBe('select');
  });

  it('puts the nearest corner where somebody clicks, so that keys and taps can set it', () => {
    const d = drive({ plan: picturePlan(), tool: 'straighten' });
    d.play('click 9500,7800 · click 200,300 · key Enter');
    expect(d.straightened[0]!.corners).toEqual([
      [20, 30],
      [880, 96],
      [950, 780],
      [120, 704],
    ]);
  });

  it('begins round the picture as it is seen, from the upper left', () => {
    const d = drive({ plan: picturePlan({ turn: 90 }), tool: 'straighten' });
    d.play('click 900,1300 · key Enter');
    const [upperLeft, upperRight] = d.straightened[0]!.corners;
    // Turned with the clock, the seen upper left corner is the picture's own lower left.
    expect(upperLeft[0]).toBeLessThan(150);
    expect(upperLeft[1]).toBeGreaterThan(650);
    expect(upperRight[0]).toBeLessThan(150);
    expect(upperRight[1]).toBeLessThan(150);
  });

  it('does not ask with corners that cross, and says why', () => {
    const d = drive({ plan: picturePlan(), tool: 'straighten' });
    d.play('drag 1200,960 9500,7500 · key Enter');
    expect(d.straightened).toEqual([]);
    expect(d.state().notices.at(-1)!.message.text).toContain('without a dent');
    expect(d.editor.view().busy).toBe(true);
  });

  it('a second finger puts a held corner back, and Escape forgets them all', () => {
    const d = drive({ plan: picturePlan(), tool: 'straighten' });
    d.play('press 1000,1000 · move 3000,3000');
    d.editor.abandon();
    d.play('key Enter');
    expect(d.straightened[0]!.corners[0]).toEqual([120, 96]);
    d.state().actions.pick('straighten');
    d.play('click 3000,3000 · key Escape');
    expect(d.editor.view().busy).toBe(false);
    expect(d.state().history.cursor).toBe(0);
  });
});

describe('Setting the scale', () => {
  it('takes what is drawn along where that was answered', async () => {
    const d = drive({ plan: picturePlan(), tool: 'wall' });
    d.play('click 1000,1000 · click 5000,1000 · key Enter · key Escape');
    const wall = [...d.plan().tables.walls.values()][0]!;
    d.state().actions.pick('set-scale');
    expect(wall.b[0] - wall.a[0]).toBe(4000);
    const follow = drive({ plan: d.plan(), tool: 'set-scale', answer: 20_000, follow: true });
    follow.play('drag 0,0 10000,0');
    await Promise.resolve();
    await Promise.resolve();
    const after = [...follow.plan().tables.walls.values()][0]!;
    expect(after.b[0] - after.a[0]).toBe(8000);
    expect(follow.state().history.cursor).toBe(1);
  });
});
