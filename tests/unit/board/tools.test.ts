import { describe, expect, it } from 'vitest';
import { tools } from '../../../src/board/tools/index.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { writePlan } from '../../../src/plan/codec.ts';
import { emptyPlan } from '../../../src/plan/plan.ts';
import { drive, picturePlan, planWith, roomPlan } from './driver.ts';

const first = <T>(rows: ReadonlyMap<string, T>): T => [...rows.values()][0]!;
const steps = (driver: ReturnType<typeof drive>): number => driver.state().history.cursor;

describe('The room tool', () => {
  it('draws a room with its walls by one drag, as one step', () => {
    const d = drive({ tool: 'room' });
    d.play('drag 0,0 4000,3000');
    expect(first(d.plan().tables.zones).outline).toEqual([
      [0, 0],
      [4000, 0],
      [4000, 3000],
      [0, 3000],
    ]);
    expect(d.plan().tables.walls.size).toBe(4);
    expect(steps(d)).toBe(1);
  });

  it('draws the same by a click at each of two corners', () => {
    const dragged = drive({ tool: 'room' });
    dragged.play('drag 0,0 4000,3000');
    const clicked = drive({ tool: 'room' });
    clicked.play('click 0,0 · move 2000,500 · click 4000,3000');
    expect(clicked.text()).toBe(dragged.text());
  });

  it('takes both sides as they are typed, towards where the pointer is', () => {
    const d = drive({ tool: 'room' });
    d.play('click 0,0 · move -700,900 · type 12x9 · key Enter');
    expect(first(d.plan().tables.zones).outline).toEqual([
      [0, 0],
      [-3658, 0],
      [-3658, 2743],
      [0, 2743],
    ]);
  });

  it('holds a first side that was typed while the second is clicked', () => {
    const d = drive({ tool: 'room' });
    d.play("click 0,0 · move 700,900 · type 10' · key Enter · click 900,2000");
    expect(first(d.plan().tables.zones).outline[2]).toEqual([3048, 2000]);
  });

  it('draws no room without area', () => {
    const d = drive({ tool: 'room' });
    d.play('click 0,0 · click 0,4000');
    expect(d.plan().tables.zones.size).toBe(0);
  });

  it('draws only the ceiling when it is asked to', () => {
    const d = drive({ tool: 'room', option: 'no-walls' });
    d.play('drag 0,0 4000,3000');
    expect(d.plan().tables.walls.size).toBe(0);
    expect(d.plan().tables.zones.size).toBe(1);
  });

  it('follows the building lines of a level that is turned', () => {
    const turned = planWith(['edit', { table: 'levels', id: 'L1', fields: { frameAngle: 90 } }]);
    const d = drive({ tool: 'room', plan: turned });
    d.play('drag 0,0 1000,2000');
    expect(new Set(first(d.plan().tables.zones).outline.map(String))).toEqual(
      new Set(['0,0', '1000,0', '1000,2000', '0,2000']),
    );
  });
});

describe('The outline tool', () => {
  const corners = 'click 0,0 · click 4000,0 · click 4000,3000';

  it.each([
    ['a click on the first point', 'click 10,10'],
    ['Enter', 'key Enter'],
    ['a double click', 'click 0,3000 · double 0,3000'],
  ])('closes by %s', (_name, end) => {
    const d = drive({ tool: 'outline' });
    d.play(`${corners} · ${end}`);
    expect(first(d.plan().tables.zones).outline.slice(0, 3)).toEqual([
      [0, 0],
      [4000, 0],
      [4000, 3000],
    ]);
    expect(steps(d)).toBe(1);
    expect(d.editor.view().busy).toBe(false);
  });

  it('does not end with two corners', () => {
    const d = drive({ tool: 'outline' });
    d.play('click 0,0 · click 4000,0 · key Enter');
    expect(d.plan().tables.zones.size).toBe(0);
    expect(d.editor.view().busy).toBe(true);
  });

  it('takes the last corner back by Backspace', () => {
    const d = drive({ tool: 'outline' });
    d.play(
      `click 0,0 · click 4000,0 · click 9000,9000 · key Backspace · click 4000,3000 · key Enter`,
    );
    expect(first(d.plan().tables.zones).outline).toEqual([
      [0, 0],
      [4000, 0],
      [4000, 3000],
    ]);
  });
});

describe('The wall tool', () => {
  it('draws a chain of walls as one step', () => {
    const d = drive({ tool: 'wall' });
    d.play('click 0,0 · click 4000,0 · click 4000,3000 · key Enter');
    const walls = [...d.plan().tables.walls.values()].map(({ a, b }) => [a, b]);
    expect(walls).toEqual([
      [
        [0, 0],
        [4000, 0],
      ],
      [
        [4000, 0],
        [4000, 3000],
      ],
    ]);
    expect(steps(d)).toBe(1);
  });

  it('closes on its first point', () => {
    const d = drive({ tool: 'wall' });
    d.play('click 0,0 · click 4000,0 · click 4000,3000 · click 0,0');
    expect(d.plan().tables.walls.size).toBe(3);
  });

  it('sets a typed length along the direction of the pointer', () => {
    const d = drive({ tool: 'wall' });
    d.play(
      `click 0,0 · move 500,0 · type 12'-6" · key Enter · move 3810,900 · type 8 · key Enter · key Enter`,
    );
    expect([...d.plan().tables.walls.values()].map((w) => w.b)).toEqual([
      [3810, 0],
      [3810, 2438],
    ]);
  });

  it('draws one wall by a drag', () => {
    const d = drive({ tool: 'wall' });
    d.play('drag 0,0 3000,0 · key Enter');
    const { a, b } = first(d.plan().tables.walls);
    expect([a, b]).toEqual([
      [0, 0],
      [3000, 0],
    ]);
  });

  it('says so when what was typed is no length, and keeps the drawing', () => {
    const d = drive({ tool: 'wall' });
    d.play('click 0,0 · move 500,0 · type 1-- · key Enter');
    expect(d.state().notices.at(-1)?.message.params).toEqual({ typed: '1--' });
    expect(d.editor.view().busy).toBe(true);
    expect(steps(d)).toBe(0);
  });

  it('draws each kind of wall that the shelf offers', () => {
    const drawn = (tools.get('wall')!.options ?? []).map(({ id }) => {
      const d = drive({ tool: 'wall', option: id });
      d.play('click 0,0 · click 3000,0 · key Enter');
      const { construction, rated, exterior, top } = first(d.plan().tables.walls);
      return { id, construction, rated, exterior, top };
    });
    expect(drawn).toEqual([
      { id: '', construction: 'framed', rated: false, exterior: false, top: 'grid' },
      { id: 'deck', construction: 'framed', rated: false, exterior: false, top: 'deck' },
      { id: 'rated', construction: 'framed', rated: true, exterior: false, top: 'deck' },
      { id: 'masonry', construction: 'masonry', rated: false, exterior: false, top: 'deck' },
      { id: 'panel', construction: 'insulated', rated: false, exterior: false, top: 'grid' },
      { id: 'exterior', construction: 'framed', rated: false, exterior: true, top: 'deck' },
    ]);
  });

  it('takes two clicks on one place for one point', () => {
    const d = drive({ tool: 'wall' });
    d.play('click 0,0 · click 0,0 · key Enter');
    expect(d.state().notices).toEqual([]);
    d.play('click 3000,0 · click 3000,0 · key Backspace · click 4000,0 · key Enter');
    expect(first(d.plan().tables.walls).b).toEqual([4000, 0]);
    expect(d.plan().tables.walls.size).toBe(1);
  });

  it('keeps what was drawn when a second finger comes down, but not the point under the first', () => {
    const d = drive({ tool: 'wall' });
    d.play('click 0,0 · click 4000,0 · press 9000,9000 · abandon · click 4000,3000 · key Enter');
    expect([...d.plan().tables.walls.values()].map((w) => w.b)).toEqual([
      [4000, 0],
      [4000, 3000],
    ]);
  });
});

describe('The keep-out tool', () => {
  it('draws a keep-out by a drag', () => {
    const d = drive({ tool: 'keepout' });
    d.play('drag 1000,1000 3000,2000');
    expect(first(d.plan().tables.keepouts).outline[2]).toEqual([3000, 2000]);
  });
});

describe('The pathway tool', () => {
  it.each(tools.get('pathway')!.options!.map(({ id }) => id))('draws a %s', (kind) => {
    const d = drive({ tool: 'pathway', option: kind });
    d.play('click 0,0 · click 4000,0 · click 4000,3000 · double 4000,3000');
    const row = first(d.plan().tables.pathways);
    expect(row.kind).toBe(kind);
    expect(row.points).toEqual([
      [0, 0],
      [4000, 0],
      [4000, 3000],
    ]);
  });

  it('may come back to its first point without ending', () => {
    const d = drive({ tool: 'pathway', option: 'tray' });
    d.play('click 0,0 · click 4000,0 · click 4000,3000 · click 0,0 · key Enter');
    expect(first(d.plan().tables.pathways).points.at(-1)).toEqual([0, 0]);
    expect(first(d.plan().tables.pathways).points).toHaveLength(4);
  });
});

describe('The tools that place', () => {
  it('leaves no mark of its place once a finger is lifted, but keeps those of a drawing under way', () => {
    const device = drive({ plan: roomPlan(), tool: 'device', option: 'kiosk', snapping: true });
    device.play('click 3000,3000');
    expect(device.editor.view().snapped).not.toBeNull();
    device.play('lift');
    expect(device.editor.view().snapped).toBeNull();
    const wall = drive({ plan: roomPlan(), tool: 'wall', snapping: true });
    wall.play('click 3000,3000 · lift');
    expect([wall.editor.view().snapped, wall.editor.view().busy]).toEqual([
      expect.anything(),
      true,
    ]);
  });

  it('leaves no mark of a drag once it ended', () => {
    const d = drive({ plan: roomPlan(), tool: 'select', snapping: true });
    const closet = d.plan().tables.closets.values().next().value;
    const [x, y] = closet!.at;
    const acts = () => d.editor.view().snapped?.acts.length ?? 0;
    d.play(`move ${x},${y} · press ${x},${y} · move ${x + 900},${y + 600} · move ${x + 1200},${y}`);
    expect(acts()).toBeGreaterThan(0);
    d.play(`release ${x + 1200},${y}`);
    expect(acts()).toBe(0);
  });

  it('show the device and its outlet where they would be, and change nothing until the click', () => {
    const d = drive({ plan: roomPlan(), tool: 'device', option: 'kiosk' });
    const before = d.text();
    d.play('move 5000,700');
    expect(d.text()).toBe(before);
    const preview = d.state().preview!;
    expect(preview.tables.devices.size).toBe(2);
    expect(preview.tables.outlets.size).toBe(2);
    expect([...preview.tables.devices.values()].at(-1)?.at).toEqual([5000, 700]);
    d.play('leave');
    expect(d.state().preview).toBeNull();
  });

  it('place one after another, each as one step', () => {
    const d = drive({ plan: roomPlan(), tool: 'device', option: 'kiosk' });
    d.play('click 5000,700 · click 6000,700');
    expect(d.plan().tables.devices.size).toBe(3);
    expect(steps(d)).toBe(2);
    expect(d.state().tool).toBe('device');
  });

  it('place one thing for a double click', () => {
    const d = drive({ plan: roomPlan(), tool: 'device', option: 'kiosk' });
    d.play('click 5000,700 · click 5000,700 · double 5000,700');
    expect(d.plan().tables.devices.size).toBe(2);
  });

  it('follow a pressed finger and place where it is lifted', () => {
    const d = drive({ plan: roomPlan(), tool: 'device', option: 'kiosk' });
    d.play('drag 5000,700 6000,800', { touch: true });
    expect([...d.plan().tables.devices.values()].at(-1)?.at).toEqual([6000, 800]);
  });

  it('say so when nothing was picked to place', () => {
    const d = drive({ plan: roomPlan(), tool: 'device' });
    d.play('click 5000,700');
    expect(d.plan().tables.devices.size).toBe(1);
    expect(d.state().notices).toHaveLength(1);
  });

  it('place a spare jack on the face of the wall nearby', () => {
    const d = drive({ plan: roomPlan(), tool: 'spare' });
    d.play('click 5000,300');
    const outlet = [...d.plan().tables.outlets.values()].at(-1)!;
    expect(outlet.at).toEqual([5000, 62]);
    expect([...d.plan().tables.jacks.values()].at(-1)?.spare).toBe(true);
  });

  it('place a power outlet', () => {
    const d = drive({ plan: roomPlan(), tool: 'power' });
    d.play('click 5000,300');
    expect(first(d.plan().tables.powers).at).toEqual([5000, 62]);
  });

  it('place one closet and then put the tool down', () => {
    const d = drive({ tool: 'closet' });
    d.play('click 5000,300');
    expect(first(d.plan().tables.closets).at).toEqual([5000, 300]);
    expect(d.state().tool).toBe('select');
  });
});

describe('The scale tools', () => {
  it.each(['set-scale', 'check-scale'] as const)(
    '%s asks for the length of the line',
    async (tool) => {
      const d = drive({ plan: picturePlan(), tool, answer: 6000 });
      d.play('click 1000,1000 · click 4000,1000');
      expect(d.asked).toEqual([
        { do: 'ask-length', for: tool, background: 'B1', a: [1000, 1000], b: [4000, 1000] },
      ]);
      expect(d.state().tool).toBe('select');
      await Promise.resolve();
      const row = first(d.plan().tables.backgrounds);
      if (tool === 'set-scale') expect(row.mmPerPixel).toBe(20);
      else expect(row.check).toEqual({ a: [100, 100], b: [400, 100], length: 6000 });
      expect(steps(d)).toBe(1);
    },
  );

  it('take no typed length, since the real one is asked for', () => {
    const d = drive({ plan: picturePlan(), tool: 'check-scale' });
    d.play('click 1000,1000 · move 3000,1000');
    expect(d.editor.view()).toMatchObject({ busy: true, measuring: false });
    d.play('key 4');
    expect(d.editor.view().typed).toBe('');
    const measure = drive({ plan: picturePlan(), tool: 'measure' });
    measure.play('click 1000,1000 · move 3000,1000 · key 4');
    expect(measure.editor.view()).toMatchObject({ measuring: true, typed: '4' });
  });

  it('leave the plan as it is when nobody answers', async () => {
    const d = drive({ plan: picturePlan(), tool: 'set-scale', answer: null });
    const before = d.text();
    d.play('drag 1000,1000 4000,1000');
    await Promise.resolve();
    expect(d.asked).toHaveLength(1);
    expect(d.text()).toBe(before);
  });

  it('say so where there is no background', () => {
    const d = drive({ tool: 'set-scale', answer: 6000 });
    d.play('drag 1000,1000 4000,1000');
    expect(d.asked).toEqual([]);
    expect(d.state().notices).toHaveLength(1);
  });
});

describe('The measure tool', () => {
  it('shows the length of its line and changes nothing', () => {
    const d = drive({ plan: roomPlan(), tool: 'measure' });
    const before = d.text();
    d.play('drag 0,0 3000,4000');
    expect(JSON.stringify(d.editor.view().overlay)).toContain(`16'-5\\"`);
    expect(d.text()).toBe(before);
    d.play('click 9000,0');
    expect(JSON.stringify(d.editor.view().overlay)).not.toContain(`16'-5\\"`);
  });
});

describe('The hand', () => {
  it('keeps the place that was pressed under the pointer', () => {
    const d = drive({ tool: 'pan' });
    const { left, top } = d.state().viewport;
    d.play('press 1000,1000 · move 1500,800');
    expect(d.state().viewport.left).toBe(left - 500);
    expect(d.state().viewport.top).toBe(top + 200);
  });

  it('moves nothing on the drawing, and picks what a finger taps', () => {
    const d = drive({ plan: roomPlan(), tool: 'pan' });
    const before = d.text();
    const { viewport } = d.state();
    d.play('press 3000,600 · move 3010,600 · release 3010,600', { touch: true });
    expect(d.state().viewport).toEqual(viewport);
    expect(d.state().selection.map(({ table }) => table)).toEqual(['devices']);
    d.play('drag 3000,600 5000,600', { touch: true });
    expect(d.text()).toBe(before);
    expect(d.state().selection.map(({ table }) => table)).toEqual(['devices']);
    d.play('click 4000,2500', { touch: true });
    expect(d.state().selection.map(({ table }) => table)).toEqual(['zones']);
    expect(d.state().tool).toBe('pan');
  });
});

describe('Every tool', () => {
  const gesture = 'move 500,500 · press 500,500 · move 2500,1500';
  const more = `${gesture} · release 2500,1500 · move 4000,4000 · press 4000,4000`;

  it.each([...tools.keys()])(
    '%s goes back to its start by Escape, with the plan untouched',
    (id) => {
      for (const script of [gesture, more]) {
        const tool = tools.get(id)!;
        const d = drive({
          plan: roomPlan(),
          tool: id,
          option: tool.id === 'device' ? 'kiosk' : '',
        });
        d.play(script);
        const steps = d.state().history.cursor;
        const before = d.text();
        d.play('cancel');
        expect(d.editor.view().busy).toBe(false);
        expect(d.editor.view().overlay).toEqual([]);
        expect(d.state().preview).toBeNull();
        expect(d.text()).toBe(before);
        // Undoing whatever the finished part did brings back the plan that was opened.
        for (let i = 0; i < steps; i++) d.state().actions.undo();
        expect(d.text()).toBe(writePlan(roomPlan()));
      }
    },
  );

  it.each([...tools.keys()])('%s is put down by Escape when it has not begun', (id) => {
    const d = drive({ plan: roomPlan(), tool: id });
    d.play('cancel');
    expect(d.state().tool).toBe('select');
  });

  it.each([...tools.keys()])(
    '%s drops the press that runs when a second finger comes down',
    (id) => {
      const tool = tools.get(id)!;
      const d = drive({ plan: roomPlan(), tool: id, option: tool.id === 'device' ? 'kiosk' : '' });
      const before = d.text();
      d.play(`${gesture} · abandon · release 2500,1500`, { touch: true });
      expect(d.text()).toBe(before);
      expect(d.state().preview).toBeNull();
    },
  );

  it.each([...tools.keys()])('%s says what to do next', (id) => {
    expect(drive({ tool: id }).editor.view().hint.text.length).toBeGreaterThan(10);
  });

  it('drops a gesture when the plan changes under it', () => {
    const d = drive({ tool: 'wall' });
    d.play('drag 0,0 3000,0 · key Enter · click 5000,0 · click 6000,0');
    d.state().actions.walk(0);
    expect(d.editor.view().busy).toBe(false);
    d.play('key Enter');
    expect(d.text()).toBe(writePlan(emptyPlan()));
  });

  it('has a key of its own or none, apart from those of kinds and the board', () => {
    const keys = [...tools.values(), ...kinds.values()].map(({ key }) => key).filter(Boolean);
    const board = ['s', '/', ';', '+', '-', '0', '=', 'Shift+M', 'Shift+L'];
    expect(new Set([...keys, ...board]).size).toBe(keys.length + board.length);
    for (const key of keys) expect(key).toMatch(/^(Shift\+[A-Z]|[a-z])$/);
  });

  it('stands in the registry under its own id', () => {
    const files = Object.keys(import.meta.glob('../../../src/board/tools/*.ts'))
      .map((path) => path.split('/').at(-1)!.replace('.ts', ''))
      .filter((name) => name !== 'index' && name !== 'tool');
    expect([...tools.keys()].sort()).toEqual(files.sort());
  });
});
