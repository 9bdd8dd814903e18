import { describe, expect, it } from 'vitest';
import { msg } from '../../../src/base/message.ts';
import { forFinger } from '../../../src/board/hints.ts';
import { snap } from '../../../src/board/snap.ts';
import { snapTargets } from '../../../src/board/snap-targets.ts';
import { tools } from '../../../src/board/tools/index.ts';
import { readTyped } from '../../../src/board/typing.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { drive, planWith, roomPlan } from './driver.ts';

const only = <T>(rows: ReadonlyMap<string, T>): T => [...rows.values()][0]!;

describe('The opening tool', () => {
  it.each([
    ['', 'door'],
    ['window', 'window'],
    ['opening', 'opening'],
  ])('places what its option %s says, in the wall, click by click', (option, kind) => {
    const d = drive({ plan: roomPlan(), tool: 'opening', option });
    d.play('click 2000,30 · click 5000,30');
    expect([...d.plan().tables.openings.values()].map((row) => [row.kind, row.along])).toEqual([
      [kind, 2000],
      [kind, 5000],
    ]);
    expect(d.state().tool).toBe('opening');
  });

  it('shows the opening before it is placed, and says why it cannot be on empty paper', () => {
    const d = drive({ plan: roomPlan(), tool: 'opening' });
    d.play('move 2000,30');
    expect(d.state().preview?.tables.openings.size).toBe(1);
    d.play('click 4000,3000');
    expect(d.plan().tables.openings.size).toBe(0);
    expect(d.state().notices.at(-1)?.message.text).toContain('stands in a wall');
  });

  it('is taken along its wall by a drag, and cannot leave it', () => {
    const d = drive({ plan: roomPlan(), tool: 'opening' });
    d.play('click 2000,30 · cancel · drag 2000,30 3000,30');
    expect(only(d.plan().tables.openings).along).toBe(3000);
    d.play('drag 3000,30 20000,30');
    expect(only(d.plan().tables.openings).along).toBe(8000 - 457);
  });
});

describe('The tool for rooms between walls', () => {
  const walls = (points: Point[]) => planWith(['draw-walls', { level: 'L1', points }]);
  const open: Point[] = [
    [0, 2000],
    [0, 0],
    [4000, 0],
    [4000, 4000],
    [0, 4000],
  ];

  it('draws the room round a click, as one step, and shows it before', () => {
    const d = drive({ plan: walls([...open, [0, 2000]]), tool: 'fill-room' });
    d.play('move 1000,1000');
    expect(d.state().preview?.tables.zones.size).toBe(1);
    d.play('click 1000,1000');
    expect(only(d.plan().tables.zones).outline).toHaveLength(4);
    expect(d.state().history.cursor).toBe(1);
  });

  it('shows where the walls leak, and Escape takes that away', () => {
    const d = drive({ plan: walls(open), tool: 'fill-room' });
    d.play('click 1000,1000');
    expect(d.plan().tables.zones.size).toBe(0);
    const dashed = d.editor.view().overlay.find((mark) => mark.op === 'line');
    expect(dashed).toMatchObject({
      points: expect.arrayContaining([
        [0, 2062],
        [0, 3938],
      ]),
    });
    expect(d.state().notices.at(-1)?.tone).toBe('warning');
    d.play('cancel');
    expect(d.editor.view().overlay).toEqual([]);
  });

  it('counts a gap as a doorway where one clicks again in the same room, and nowhere else', () => {
    const d = drive({ plan: walls(open), tool: 'fill-room' });
    d.play('click 1000,1000');
    expect(d.state().notices.at(-1)!.message.text).toContain('Click again if it is a doorway');
    d.play('click 90000,1000 · click 1000,1000');
    expect(d.plan().tables.zones.size).toBe(0);
    d.play('click 2500,3000');
    expect(only(d.plan().tables.zones).outline).toHaveLength(4);
    expect(d.editor.view().overlay).toEqual([]);
  });

  it('closes no gap that is wider than a passage, however often one clicks', () => {
    const wide: Point[] = [[0, 1300], ...open.slice(1)];
    const d = drive({ plan: walls(wide), tool: 'fill-room' });
    d.play('click 1000,1000 · click 1000,1000 · click 1000,1000');
    expect(d.plan().tables.zones.size).toBe(0);
    expect(d.state().notices.at(-1)!.message.text).toContain('Close it with a wall, or drag');
  });

  it('ends a room where a line is drawn along an open side, and draws no wall there', () => {
    const wide: Point[] = [[0, 1300], ...open.slice(1), [0, 5000]];
    const d = drive({ plan: walls(wide), tool: 'fill-room', snapping: true });
    d.play('drag 30,1320 20,4020');
    expect(d.plan().tables.zones.size).toBe(0);
    expect(d.editor.view().overlay).toContainEqual(
      expect.objectContaining({
        points: [
          [0, 1300],
          [0, 4000],
        ],
      }),
    );
    d.play('move 1000,1000');
    expect(d.state().preview?.tables.zones.size).toBe(1);
    const standing = d.plan().tables.walls.size;
    d.play('click 1000,1000');
    expect(only(d.plan().tables.zones).outline).toEqual(open.toSpliced(0, 1));
    expect(d.plan().tables.walls.size).toBe(standing);
    expect(d.editor.view().busy).toBe(false);
    expect(d.state().history.cursor).toBe(1);
  });

  it('takes such lines back one by one, and all of them at Escape', () => {
    const d = drive({ plan: walls(open), tool: 'fill-room' });
    const drawn = () => d.editor.view().overlay.filter((mark) => mark.op === 'line').length;
    d.play('drag 0,2000 0,3000 · drag 0,3000 0,4000');
    expect(drawn()).toBe(2);
    d.play('key Backspace');
    expect(drawn()).toBe(1);
    // A click that gets no room keeps what was drawn.
    d.play('click 90000,1000');
    expect(drawn()).toBe(1);
    d.play('cancel');
    expect([drawn(), d.editor.view().busy]).toEqual([0, false]);
  });

  it('is ready for the next place where nothing would close', () => {
    const d = drive({ plan: walls(open), tool: 'fill-room' });
    d.play('click 90000,1000');
    expect(d.editor.view().busy).toBe(false);
  });
});

describe('The area of a new room', () => {
  it.each([
    ['room', 'drag 20000,0 23000,3000'],
    ['outline', 'click 20000,0 · click 23000,0 · click 23000,3000 · key Enter'],
    ['fill-room', 'click 31000,1000'],
  ])('is a letter of its own, or that of the last room where one says so: %s', (tool, way) => {
    const plan = planWith(
      ['draw-zone', { level: 'L1', outline: square(0) }],
      ['draw-zone', { level: 'L1', outline: square(5000) }],
      ['edit', { table: 'zones', id: 'Z2', fields: { area: 'F' } }],
      ['draw-walls', { level: 'L1', points: square(30_000), closed: true }],
    );
    for (const [sameArea, area] of [
      [false, 'B'],
      [true, 'F'],
    ] as const) {
      const d = drive({ plan, tool });
      d.state().actions.set({ sameArea });
      d.play(way);
      expect(d.plan().tables.zones.get('Z3')!.area).toBe(area);
    }
  });

  it('is a letter of its own for the first room of a level, and in another job', () => {
    const d = drive({ tool: 'room' });
    d.state().actions.set({ sameArea: true });
    d.play('drag 0,0 3000,3000');
    expect(only(d.plan().tables.zones).area).toBe('A');
    d.state().actions.open(d.state().history);
    expect(d.state().sameArea).toBe(false);
  });
});

/** A room of 3 × 3 m. */
function square(x: number): Point[] {
  return [
    [x, 0],
    [x + 3000, 0],
    [x + 3000, 3000],
    [x, 3000],
  ];
}

describe('The dimension tool', () => {
  it('takes two places and how far aside, by clicks', () => {
    const d = drive({ tool: 'dimension' });
    d.play('click 0,0 · click 4000,0 · click 2000,-800');
    expect(only(d.plan().tables.dimensions)).toMatchObject({
      a: [0, 0],
      b: [4000, 0],
      aside: 800,
    });
    d.play('click 0,0 · click 4000,0 · click 2000,500');
    expect([...d.plan().tables.dimensions.values()][1]).toMatchObject({ aside: -500 });
  });

  it('takes a typed length and a typed distance aside, on the side of the pointer', () => {
    const d = drive({ tool: 'dimension' });
    d.play("click 0,0 · move 900,0 · type 10' · key Enter · move 1000,400 · type 2' · key Enter");
    expect(only(d.plan().tables.dimensions)).toMatchObject({ b: [3048, 0], aside: -610 });
  });

  it('follows the corner of a wall that it was set on', () => {
    const d = drive({ plan: roomPlan(), tool: 'dimension' });
    d.play('click 0,0 · click 8000,0 · click 4000,-600 · cancel');
    d.state().actions.run('move', { refs: [{ table: 'walls', id: 'W2' }], by: [500, 0] });
    expect(only(d.plan().tables.dimensions).b).toEqual([8500, 0]);
  });
});

describe('The note tool', () => {
  it('leads from its words to what they are about', () => {
    const d = drive({ tool: 'note' });
    d.play('click 0,0 · click 2000,1000');
    expect(only(d.plan().tables.notes)).toMatchObject({ at: [2000, 1000], to: [0, 0] });
    expect(d.state().tool).toBe('select');
  });

  it('goes without a line by Enter', () => {
    const d = drive({ tool: 'note' });
    d.play('click 700,0 · key Enter');
    expect(only(d.plan().tables.notes)).toMatchObject({ at: [700, 0], to: null });
  });

  it('is moved with its line', () => {
    const d = drive({ tool: 'note' });
    d.play('click 0,0 · click 2000,1000 · drag 2000,1000 2500,1000');
    expect(only(d.plan().tables.notes)).toMatchObject({ at: [2500, 1000], to: [500, 0] });
  });
});

describe('The tool that repeats along a line', () => {
  it('puts one every step, and says what to select first', () => {
    const d = drive({ plan: roomPlan() });
    d.state().actions.pick('repeat', '1000');
    d.play('drag 1000,1000 4000,1000');
    expect(d.state().notices.at(-1)?.message.text).toContain('Select');
    d.state().actions.select([{ table: 'devices', id: 'D1' }]);
    d.state().actions.pick('repeat', '1000');
    d.play('drag 1000,1000 4000,1000');
    expect([...d.plan().tables.devices.values()].map(({ at }) => at[0])).toEqual([
      1000, 2000, 3000, 4000,
    ]);
    expect(d.state().selection).toHaveLength(4);
  });
});

describe('A typed length', () => {
  it.each([
    ['12\'6" < 45', { mm: 3810, angle: 45 }],
    ['3.8 m<-90', { mm: 3800, angle: -90 }],
    ['10 < 0.5', { mm: 3048, angle: 0.5 }],
    ['10', { mm: 3048 }],
    ['10 x 8', { mm: 3048, second: 2438 }],
  ])('%s is read with its direction', (text, read) => {
    expect(readTyped(text, 'ft')).toEqual(read);
  });

  it.each(['10 <', '10 < x', '< 45', '10 < 400', '10 < 4 < 5'])('%s is refused', (text) => {
    expect(readTyped(text, 'ft')).toBeNull();
  });

  it('with a direction draws the wall there, wherever the pointer is: 90 is up', () => {
    const d = drive({ tool: 'wall' });
    d.play("click 0,0 · move 500,900 · type 10' < 90 · key Enter · type 10' < 0 · key Enter");
    d.play('key Enter');
    expect([...d.plan().tables.walls.values()].map(({ b }) => b)).toEqual([
      [0, -3048],
      [3048, -3048],
    ]);
  });

  it('counts its direction from the building lines of a level that is turned', () => {
    const turned = planWith(['edit', { table: 'levels', id: 'L1', fields: { frameAngle: 90 } }]);
    const d = drive({ tool: 'wall', plan: turned });
    d.play("click 0,0 · type 10' < 0 · key Enter · key Enter");
    expect(only(d.plan().tables.walls).b).toEqual([0, 3048]);
  });
});

describe('Words for a finger', () => {
  it('tap where a mouse clicks, and keep still about keys', () => {
    const hint = msg('Click on, or type 3 m. Enter or a double click ends it. Esc drops it.');
    expect(forFinger(hint).text).toBe('Tap on, or type 3 m. Finish or a double tap ends it.');
  });

  it.each([...tools.values()].map((tool) => [tool.id, tool] as const))(
    'never say click or a key in the hints of %s',
    (id) => {
      const d = drive({ plan: roomPlan(), tool: id });
      for (const step of ['move 500,500', 'press 500,500', 'move 2500,1500', 'release 2500,1500']) {
        d.play(step, { touch: true });
        expect(d.editor.view().hint.text).not.toMatch(
          /\b[Cc]lick|\bEsc\b|\bShift\b|\bCtrl\b|Enter/,
        );
        expect(d.editor.view().hint.text.length).toBeGreaterThan(10);
      }
    },
  );

  it('are those for a mouse once a mouse is used', () => {
    const d = drive({ tool: 'wall' });
    d.play('move 0,0', { touch: true });
    expect(d.editor.view().hint.text).toContain('Tap');
    d.play('move 10,0');
    expect(d.editor.view().hint.text).toContain('Click');
  });
});

describe('Snapping to slanted walls', () => {
  const plan = planWith([
    'draw-walls',
    {
      level: 'L1',
      points: [
        [0, 0],
        [4000, 4000],
      ],
    },
  ]);
  const ask = (raw: Point, anchor: Point | null, kinds: Parameters<typeof snap>[2]['kinds']) =>
    snap(snapTargets(plan, 'L1'), raw, {
      pixel: 10,
      kinds,
      grid: 100,
      anchor,
      lock: false,
      without: new Set(),
      under: [],
    });

  it('holds the foot of the square line from where a drawing began', () => {
    const found = ask([2030, 1990], [4000, 0], ['perpendicular']);
    expect(found).toEqual({ at: [2000, 2000], acts: [{ kind: 'perpendicular', from: [4000, 0] }] });
    expect(ask([2600, 2600], [4000, 0], ['perpendicular']).acts).toEqual([]);
    expect(ask([2030, 1990], null, ['perpendicular']).acts).toEqual([]);
  });

  it('holds the line of a wall beyond its end, and lets go far from it', () => {
    const found = ask([5010, 4990], null, ['extension']);
    expect(found).toEqual({ at: [5000, 5000], acts: [{ kind: 'extension', from: [4000, 4000] }] });
    expect(ask([2010, 1990], null, ['extension']).acts).toEqual([]);
    expect(ask([9000, 9000], null, ['extension']).acts).toEqual([]);
  });
});
