import { describe, expect, it } from 'vitest';
import { redoLabel, undoLabel } from '../../../src/board/session.ts';
import type { Mark } from '../../../src/drawing/display.ts';
import { drive, picturePlan, roomPlan } from './driver.ts';

/** The places of the lines that the tool in hand shows. */
const lines = (marks: readonly Mark[]) =>
  marks.flatMap((mark) => (mark.op === 'line' ? [mark.points] : []));

describe('Undo, while something is drawn', () => {
  it('takes back the last place of a chain, and no step before it is lost', () => {
    const d = drive({ tool: 'wall' });
    d.play('click 0,0 · click 4000,0 · key Enter');
    expect(d.state().drawing).toBeNull();
    d.play('click 0,1000 · click 4000,1000 · click 9000,9000');
    expect(undoLabel(d.state())?.text).toBe('Last point drawn');
    expect(undoLabel(d.state())).toBe(undoLabel(d.state()));
    d.state().actions.undo();
    d.play('click 4000,3000 · key Enter');
    const walls = [...d.plan().tables.walls.values()];
    expect(walls.map(({ a, b }) => [a, b])).toEqual([
      [
        [0, 0],
        [4000, 0],
      ],
      [
        [0, 1000],
        [4000, 1000],
      ],
      [
        [4000, 1000],
        [4000, 3000],
      ],
    ]);
    expect(undoLabel(d.state())?.text).not.toBe('Last point drawn');
    d.state().actions.undo();
    expect(d.plan().tables.walls.size).toBe(1);
  });

  it('goes back place by place to nothing, and only then to the history', () => {
    const d = drive({ plan: roomPlan(), tool: 'wall' });
    const before = d.text();
    d.play('key w · click 9000,0 · click 9000,1000 · key Ctrl+z · key Ctrl+z');
    expect([d.state().drawing, d.editor.view().busy, d.state().tool]).toEqual([
      null,
      false,
      'wall',
    ]);
    expect(d.text()).toBe(before);
  });

  it('leaves no line to the place that a finger has taken back', () => {
    const d = drive({ tool: 'wall' });
    d.play('click 0,0 · click 4000,0 · click 9000,9000', { touch: true });
    d.state().actions.undo();
    expect(lines(d.editor.view().overlay)).toEqual([
      [
        [0, 0],
        [4000, 0],
      ],
    ]);
  });

  it('does nothing again meanwhile, so that the drawing is not lost', () => {
    const d = drive({ tool: 'wall' });
    d.play('click 0,0 · click 4000,0 · key Enter');
    d.state().actions.undo();
    d.play('click 0,1000 · click 4000,1000');
    expect(redoLabel(d.state())).toBeNull();
    d.play('key Ctrl+y · key Enter');
    expect([...d.plan().tables.walls.values()].map(({ a }) => a)).toEqual([[0, 1000]]);
  });

  it('drops the first corner of a box, and the corners that were set on a photo', () => {
    const box = drive({ tool: 'room' });
    box.play('click 0,0');
    box.state().actions.undo();
    expect([box.editor.view().busy, box.state().tool]).toEqual([false, 'room']);
    const photo = drive({ plan: picturePlan(), tool: 'straighten' });
    photo.play('drag 0,0 500,500');
    photo.state().actions.undo();
    expect(photo.plan().tables.backgrounds.size).toBe(1);
    expect(photo.editor.view().busy).toBe(false);
  });

  it('is of the history while a measured line is shown, or a device is being placed', () => {
    const d = drive({ plan: roomPlan(), tool: 'measure' });
    d.play('click 0,0 · click 4000,0');
    expect(d.state().drawing).toBeNull();
    d.state().actions.pick('device', 'kiosk');
    d.play('move 4000,600 · press 4000,600');
    expect(d.state().drawing).toBeNull();
  });
});
