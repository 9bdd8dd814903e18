import { describe, expect, it } from 'vitest';
import { fitSelection, ratioOf, zoomToRatio } from '../../../src/board/view.ts';
import { contentsOf } from '../../../src/desk/contents/rows.ts';
import { usualNeeds } from '../../../src/desk/usual-needs.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { alike, inSameRoom } from '../../../src/plan/same.ts';
import { drive, planWith, roomPlan } from '../board/driver.ts';

describe('What is drawn besides walls', () => {
  it('is listed in the contents: openings on the level of their wall, notes by their words', () => {
    const d = drive({ plan: roomPlan(), tool: 'opening' });
    d.play('click 2000,30');
    const { actions } = d.state();
    actions.run('place-note', { level: 'L1', at: [500, 500], text: 'Keep clear\nof grease' });
    actions.run('draw-dimension', { level: 'L1', a: [0, 0], b: [3048, 0] });
    const rows = contentsOf(d.plan(), 'L1', kinds).flatMap((group) => group.rows);
    const row = (table: string) => rows.find(({ ref }) => ref.table === table);
    expect(row('openings')).toMatchObject({ name: 'Door', at: [2000, 0] });
    expect(row('notes')?.name).toBe('Keep clear');
    expect(row('dimensions')?.detail).toBe("10'");
  });
});

describe('The history', () => {
  it('is walked to any step, and says the level at each end', () => {
    const d = drive({ tool: 'wall' });
    for (const y of [0, 1000, 2000]) d.play(`drag 0,${y} 3000,${y} · key Enter`);
    const three = d.text();
    d.state().actions.walk(1);
    expect(d.plan().tables.walls.size).toBe(1);
    expect(d.state().history.steps).toHaveLength(3);
    d.state().actions.walk(0);
    expect(d.plan().tables.walls.size).toBe(0);
    d.state().actions.walk(99);
    expect(d.text()).toBe(three);
  });
});

describe('Same kind and same room', () => {
  const plan = planWith(
    [
      'draw-zone',
      {
        level: 'L1',
        outline: [
          [0, 0],
          [4000, 0],
          [4000, 3000],
          [0, 3000],
        ],
        walls: true,
      },
    ],
    ['place-device', { level: 'L1', kind: 'order-station', at: [1000, 500] }],
    ['place-device', { level: 'L1', kind: 'kiosk', at: [3000, 500] }],
    ['place-device', { level: 'L1', kind: 'kiosk', at: [9000, 500] }],
  );

  it('are found from one of them', () => {
    const one = [{ table: 'devices', id: 'D2' }] as const;
    expect(alike(plan, 'L1', one).map(({ id }) => id)).toEqual(['D2', 'D3']);
    const room = inSameRoom(plan, 'L1', one).filter(({ table }) => table === 'devices');
    expect(room.map(({ id }) => id)).toEqual(['D1', 'D2']);
    expect(inSameRoom(plan, 'L1', [{ table: 'devices', id: 'D3' }])).toEqual([]);
  });
});

describe('What a room usually needs', () => {
  it('follows from its name, with what is there already; a name that says nothing is left out', () => {
    const outline = [
      [0, 0],
      [4000, 0],
      [4000, 3000],
      [0, 3000],
    ] as const;
    const aside = outline.map(([x, y]) => [x + 9000, y] as const);
    const plan = planWith(
      ['draw-zone', { level: 'L1', outline, look: { name: 'Hot kitchen' } }],
      ['draw-zone', { level: 'L1', outline: aside, look: { name: 'Room 7' } }],
      ['place-device', { level: 'L1', kind: 'kitchen-screen', at: [500, 500] }],
    );
    const needs = usualNeeds(plan, 'L1', kinds);
    expect(needs.map(({ name }) => name)).toEqual(['Hot kitchen']);
    expect(needs[0]!.needs).toContainEqual({ what: 'kitchen screen', count: 1 });
    expect(needs[0]!.needs).toContainEqual({ what: 'ticket printer', count: 0 });
  });
});

describe('A shorter cord', () => {
  it('says so when its jack becomes a drop from the ceiling', () => {
    const d = drive({ plan: roomPlan() });
    d.state().actions.run('move', { refs: [{ table: 'devices', id: 'D1' }], by: [0, 700] });
    d.state().actions.run('edit', { table: 'devices', id: 'D1', fields: { cord: 914 } });
    expect(d.plan().tables.outlets.get('O1')!.mount).toBe('pole');
    expect(d.state().notices.at(-1)?.message.text).toContain('hangs from the ceiling now');
  });
});

describe('The view', () => {
  it('fits what is selected, and goes to a typed scale', () => {
    const d = drive({ plan: roomPlan() });
    expect(fitSelection(d.session)).toBe(false);
    d.state().actions.select([{ table: 'walls', id: 'W2' }]);
    expect(fitSelection(d.session)).toBe(true);
    const { left, top, width, height, scale } = d.state().viewport;
    expect(left).toBeLessThan(8000);
    expect(left + width / scale).toBeGreaterThan(8000);
    expect(top).toBeLessThan(0);
    expect(top + height / scale).toBeGreaterThan(6000);
    zoomToRatio(d.session, 96);
    expect(ratioOf(d.state().viewport.scale)).toBeCloseTo(96);
  });
});
