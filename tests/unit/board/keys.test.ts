import { describe, expect, it } from 'vitest';
import { undoLabel } from '../../../src/board/session.ts';
import { tools } from '../../../src/board/tools/index.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { isLocked } from '../../../src/plan/locks.ts';
import type { Ref } from '../../../src/plan/plan.ts';
import { drive, planWith, roomPlan } from './driver.ts';

describe('On the board, keys', () => {
  it.each([
    ['feet and inches', 'ft', [3025, 600], [3000, 905]],
    ['metres', 'm', [3010, 600], [3000, 700]],
  ] as const)('nudge by a step and a long step of %s', (_name, units, right, down) => {
    const d = drive({ plan: roomPlan() });
    d.state().actions.run('edit', { table: 'job', id: 'job', fields: { units } });
    d.play('click 3000,600 · key ArrowRight');
    expect(d.plan().tables.devices.get('D1')?.at).toEqual(right);
    d.state().actions.undo();
    d.play('key Shift+ArrowDown');
    expect(d.plan().tables.devices.get('D1')?.at).toEqual(down);
  });

  it('make one step of nudges in a row, and a new one after anything else', () => {
    const d = drive({ plan: roomPlan() });
    d.play('click 3000,600 · key ArrowRight · key ArrowRight · key ArrowDown');
    expect(d.state().history.cursor).toBe(1);
    d.play('key s · key ArrowRight');
    expect(d.state().history.cursor).toBe(2);
  });

  it('delete what is selected, and undo and redo it', () => {
    const d = drive({ plan: roomPlan() });
    const before = d.text();
    d.play('click 3000,600 · key Delete');
    expect(d.plan().tables.devices.size).toBe(0);
    const after = d.text();
    d.play('key Ctrl+z');
    expect(d.text()).toBe(before);
    d.play('key Ctrl+Shift+Z');
    expect(d.text()).toBe(after);
    d.play('key Ctrl+z · key Ctrl+y');
    expect(d.text()).toBe(after);
  });

  it('select everything that is drawn on the level', () => {
    const d = drive({ plan: roomPlan() });
    d.play('key Ctrl+a');
    const tables = new Set(d.state().selection.map((ref) => ref.table));
    expect(tables).toEqual(
      new Set(['zones', 'walls', 'keepouts', 'pathways', 'closets', 'devices', 'outlets']),
    );
  });

  it.each([...tools.values()].filter((tool) => tool.key !== '').map((tool) => [tool.key, tool.id]))(
    '%s picks the tool %s',
    (key, id) => {
      const d = drive();
      d.play(`key ${key}`);
      expect(d.state().tool).toBe(id);
    },
  );

  it.each([...kinds.values()].filter((kind) => kind.key !== '').map((kind) => [kind.key, kind.id]))(
    '%s takes a device of kind %s in hand',
    (key, id) => {
      const d = drive();
      d.play(`key ${key}`);
      expect([d.state().tool, d.state().toolOption]).toEqual(['device', id]);
    },
  );

  it('turn snapping off and on', () => {
    const d = drive({ snapping: true });
    d.play('key s');
    expect(d.state().snapping).toBe(false);
    d.play('key S');
    expect(d.state().snapping).toBe(true);
  });

  it('mirror and lock what is selected with Shift, and pick a tool as ever without', () => {
    const d = drive({ plan: roomPlan() });
    d.play('click 3000,600 · key Shift+L');
    const [{ id, table }] = d.state().selection as [Ref];
    expect(isLocked(d.plan(), { id, table })).toBe(true);
    d.play('key Shift+L');
    expect(isLocked(d.plan(), { id, table })).toBe(false);
    d.play('key . · key Shift+M');
    expect(undoLabel(d.state())?.text).toMatch(/^Mirror/);
    d.play('key Escape');
    const steps = d.state().history.cursor;
    d.play('key Shift+M');
    expect([d.state().tool, d.state().history.cursor]).toEqual(['select', steps]);
    d.play('key Shift+N');
    expect(d.state().tool).toBe('note');
    d.play('key n');
    expect(d.state().tool).toBe('closet');
  });

  it('zoom, about the middle', () => {
    const d = drive();
    const middle = (v: { left: number; width: number; scale: number }) =>
      v.left + v.width / 2 / v.scale;
    const before = d.state().viewport;
    d.play('key =');
    expect(d.state().viewport.scale).toBeCloseTo(before.scale * 1.25);
    expect(middle(d.state().viewport)).toBeCloseTo(middle(before));
    d.play('key - · key -');
    expect(d.state().viewport.scale).toBeCloseTo(before.scale * 0.8);
  });

  it('show the whole level by 0', () => {
    const d = drive({ plan: roomPlan() });
    d.play('key 0');
    const { left, top, scale, width, height } = d.state().viewport;
    expect(left).toBeLessThan(0);
    expect(top).toBeLessThan(0);
    expect(left + width / scale).toBeGreaterThan(8000);
    expect(top + height / scale).toBeGreaterThan(6000);
  });

  it('drop step by step by Escape: what is typed, the gesture, the tool, the selection', () => {
    const d = drive({ plan: roomPlan() });
    d.play('click 3000,600 · key w · click 0,0 · move 500,0 · type 12');
    d.play('key Escape');
    expect(d.editor.view().typed).toBe('');
    expect(d.editor.view().busy).toBe(true);
    d.play('key Escape');
    expect(d.editor.view().busy).toBe(false);
    expect(d.state().tool).toBe('wall');
    d.play('key Escape');
    expect(d.state().tool).toBe('select');
    expect(d.state().selection).toHaveLength(1);
    d.play('key Escape');
    expect(d.state().selection).toEqual([]);
  });

  it('draw off the tape without a mouse: arrows go on from the end of what was typed', () => {
    const d = drive({ tool: 'wall' });
    d.play('key ArrowRight · key Enter · key ArrowDown');
    d.play("key 7 · key ' · key 6 · key Enter · key ArrowRight · key 5 · key Enter · key Enter");
    const ways = [...d.plan().tables.walls.values()].map(({ a, b }) => [b[0] - a[0], b[1] - a[1]]);
    expect(ways).toEqual([
      [0, 2286],
      [1524, 0],
    ]);
  });

  const outlines = (d: ReturnType<typeof drive>) =>
    [...d.plan().tables.zones.values()].map(({ outline }) => outline);

  it('draw rooms off the tape one beside the other: both sides typed, and no place pointed at', () => {
    const d = drive({ tool: 'room' });
    d.play('type 10 x 8 · key Enter · type 12 x 8 · key Enter');
    expect(outlines(d)).toEqual([
      [
        [0, 0],
        [3048, 0],
        [3048, 2438],
        [0, 2438],
      ],
      [
        [3048, 0],
        [6706, 0],
        [6706, 2438],
        [3048, 2438],
      ],
    ]);
  });

  it('go to the next corner by Ctrl and an arrow, and draw from it the way of an arrow', () => {
    const d = drive({ tool: 'room' });
    d.play('type 10 x 8 · key Enter · key Ctrl+ArrowDown · type 10 x 5 · key ArrowLeft');
    expect(outlines(d)[1]).toEqual([
      [3048, 2438],
      [0, 2438],
      [0, 3962],
      [3048, 3962],
    ]);
    expect(d.plan().tables.walls.size).toBe(7);
  });

  it('begin so far from a corner as was typed, where snapping would not let a pointer stand', () => {
    const d = drive({ tool: 'room', snapping: true });
    d.play(
      'type 10 x 8 · key Enter · key w · type 2" · key ArrowRight · key 4 · key Enter · key Enter',
    );
    const last = [...d.plan().tables.walls.values()].at(-1)!;
    expect([last.a, last.b]).toEqual([
      [3048 + 51, 0],
      [3048 + 51 + 1219, 0],
    ]);
  });

  it('leave a typed side beside a wall where it was typed, and lay one within a wall on it, saying so', () => {
    const d = drive({ tool: 'room' });
    d.play('type 10 x 8 · key Enter · key Ctrl+ArrowDown · type 10 x 5 · key ArrowLeft');
    // A neighbour on the right, four inches deeper than the first: its foot is beside no wall.
    d.play('key Ctrl+ArrowUp · key Ctrl+ArrowRight · key Ctrl+ArrowUp');
    const start = d.keys.cursor();
    d.play(`type 6 x 8'4" · key Enter`);
    expect([start, outlines(d)[2]![2]]).toEqual([
      [3048, 0],
      [3048 + 1829, 2540],
    ]);
    // Within the wall at its left there is no room for another.
    d.play(`key Ctrl+ArrowDown · type 6'1" x 3 · key ArrowLeft`);
    expect(outlines(d)[3]!.map((p) => p[0])).toEqual([4877, 3048, 3048, 4877]);
    expect(d.state().notices.at(-1)!.message.text).toContain('laid on it');
  });

  it('say what is said again in the place of what was said', () => {
    const d = drive({ tool: 'room' });
    for (let i = 0; i < 4; i++) d.play('type 10 x 8 · key Enter');
    expect(d.state().notices).toHaveLength(1);
    expect(d.state().notices[0]!.message.text).toContain('already there');
  });

  it('draw walls the way of each arrow after a typed length', () => {
    const d = drive({ tool: 'wall' });
    d.play('key 1 · key 0 · key Enter · key 8 · key ArrowDown · key 3 · key ArrowLeft · key Enter');
    const ways = [...d.plan().tables.walls.values()].map(({ a, b }) => [b[0] - a[0], b[1] - a[1]]);
    expect(ways).toEqual([
      [3048, 0],
      [0, 2438],
      [-914, 0],
    ]);
  });

  it('draw a room side by side, each by a length and an arrow', () => {
    const d = drive({ tool: 'room' });
    d.play('key ArrowRight · key Enter · key 9 · key ArrowUp');
    expect(d.editor.view().busy).toBe(true);
    d.play('key 7 · key ArrowLeft');
    const [a, , c] = outlines(d)[0]!;
    expect([c![0] - a![0], c![1] - a![1]]).toEqual([-2134, -2743]);
  });

  it('take a room back, and the next one begins where that one did', () => {
    const d = drive({ tool: 'room' });
    d.play(
      'type 10 x 8 · key Enter · type 12 x 8 · key Enter · key Ctrl+z · type 6 x 8 · key Enter',
    );
    expect(outlines(d)[1]?.[0]).toEqual([3048, 0]);
    expect(outlines(d)[1]?.[1]).toEqual([3048 + 1829, 0]);
  });

  it('show all by 0 with a room in hand, and keep what is no length to be mended', () => {
    const d = drive({ tool: 'room', plan: roomPlan() });
    const before = d.state().viewport;
    d.play('key 0');
    expect(d.state().viewport).not.toBe(before);
    d.play('key 8 · key x · key x · key Enter');
    expect(d.editor.view().typed).toBe('8xx');
    expect(d.plan().tables.zones.size).toBe(1);
  });

  it('draw without a mouse: arrows move a cross hair, Enter clicks there, Enter again ends', () => {
    const d = drive({ tool: 'wall' });
    d.play('key ArrowRight · key Enter');
    const start = d.keys.cursor()!;
    d.play('key Shift+ArrowRight · key Enter · key Shift+ArrowDown · key Enter · key Enter');
    const walls = [...d.plan().tables.walls.values()];
    expect(walls).toHaveLength(2);
    expect(walls[0]?.a).toEqual(start.map(Math.round));
    expect(walls[0]?.b[0]).toBeGreaterThan(walls[0]!.a[0]);
    expect(walls[0]?.b[1]).toBe(walls[0]?.a[1]);
    expect(walls[1]?.b[1]).toBeGreaterThan(walls[1]!.a[1]);
  });

  it('select without a mouse', () => {
    const d = drive({
      plan: planWith(['place-closet', { level: 'L1', at: [5029, 5029] }]),
    });
    d.state().actions.set({
      viewport: { scale: 0.1, left: 29 - 5000, top: 29 - 5000, width: 2000, height: 2000 },
    });
    d.play('key ArrowDown · key Enter');
    expect(d.state().selection).toEqual([{ table: 'closets', id: 'C1' }]);
  });

  it('mean nothing on the board while the focus is elsewhere, but for picking and undoing', () => {
    const d = drive({ plan: roomPlan() });
    d.play('click 3000,600');
    const away = (key: string, ctrl = false) => d.keys.press({ key, shift: false, ctrl }, false);
    expect(away('Delete')).toBe(false);
    expect(away('ArrowRight')).toBe(false);
    expect(away('a', true)).toBe(false);
    expect(d.plan().tables.devices.size).toBe(1);
    expect(away('w')).toBe(true);
    expect(d.state().tool).toBe('wall');
  });

  it('copy and paste to where the pointer is, as one step', () => {
    const d = drive({ plan: roomPlan() });
    d.play('click 3000,600 · key Ctrl+c · move 5000,2600 · key Ctrl+v');
    expect(d.plan().tables.devices.get('D2')?.at).toEqual([5000, 2600]);
    expect(d.state().selection).toEqual([{ table: 'devices', id: 'D2' }]);
    expect(d.state().history.cursor).toBe(1);
  });

  it('repeat a copy in a row, as far as the first was moved', () => {
    const d = drive({ plan: roomPlan() });
    d.play('click 7000,5000 · key Ctrl+d');
    const [x, y] = d.plan().tables.closets.get('C2')!.at;
    d.play(`drag ${x},${y} 7000,3800 · key Ctrl+d`);
    expect(d.plan().tables.closets.get('C3')?.at).toEqual([7000, 2600]);
  });

  it('paste nothing where nothing was copied, so that pictures can be pasted', () => {
    const d = drive({ plan: roomPlan() });
    expect(d.keys.press({ key: 'v', shift: false, ctrl: true }, true)).toBe(false);
    d.play('click 3000,600 · key Ctrl+c');
    d.keys.forget();
    expect(d.keys.press({ key: 'v', shift: false, ctrl: true }, true)).toBe(false);
  });
});
