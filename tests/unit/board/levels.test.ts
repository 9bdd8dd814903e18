import { describe, expect, it } from 'vitest';
import { highlightMarks } from '../../../src/board/highlight.ts';
import { hitAt, hitBox, hitIndex } from '../../../src/board/hit.ts';
import { sceneMaker } from '../../../src/board/scene-maker.ts';
import { planExtent } from '../../../src/board/view.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { writePlan } from '../../../src/plan/codec.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import { createSurveyor } from '../../../src/survey/survey.ts';
import { drive, planWith, roomPlan } from './driver.ts';

/** The room of the other tests with an empty level above it. */
const twoLevels = (): Plan => {
  const d = drive({ plan: roomPlan() });
  d.state().actions.run('add-level', { from: 'L1', side: 'above' });
  return d.plan();
};

const texts = (d: ReturnType<typeof drive>): string[] =>
  JSON.stringify(sceneMaker(kinds)(d.state()).layers)
    .match(/"text":"[^"]*"/g)!
    .map((text) => text.slice(8, -1));

describe('Going from level to level', () => {
  it('shows a level that is added, and goes back to where it was when that is undone', () => {
    const d = drive({ plan: roomPlan() });
    d.state().actions.run('add-level', { from: 'L1', side: 'above' });
    expect(d.state().level).toBe('L2');
    d.state().actions.undo();
    expect(d.state().level).toBe('L1');
  });

  it('goes up and down by Page keys, and no further than the building', () => {
    const d = drive({ plan: twoLevels() });
    d.play('key PageUp');
    expect(d.state().level).toBe('L2');
    d.play('key PageUp');
    expect(d.state().level).toBe('L2');
    d.play('key PageDown · key PageDown');
    expect(d.state().level).toBe('L1');
  });

  it('shows the level on which a step is undone or done again', () => {
    const d = drive({ plan: twoLevels(), tool: 'closet' });
    d.play('click 2000,2000 · key PageUp');
    d.state().actions.undo();
    expect(d.state().level).toBe('L1');
    d.play('key PageUp');
    d.state().actions.redo();
    expect(d.state().level).toBe('L1');
  });

  it('stays on its level for a step that is about no level, or about this one too', () => {
    const d = drive({ plan: twoLevels() });
    d.play('key PageUp');
    d.state().actions.run('edit', { table: 'job', id: 'job', fields: { name: 'Corner site' } });
    d.state().actions.run('place-riser', { level: 'L2', at: [0, 0] });
    d.state().actions.undo();
    d.state().actions.undo();
    expect(d.state().level).toBe('L2');
  });

  it('lets go what is picked, but for a riser that comes out there and runs that go on there', () => {
    const d = drive({ plan: twoLevels() });
    d.state().actions.run('place-riser', { level: 'L1', at: [500, 500] });
    d.state().actions.run('place-device', { level: 'L2', kind: 'kiosk', at: [2000, 2000] });
    const survey = createSurveyor(kinds)(d.plan());
    expect(survey.runs.map((run) => run.status)).toEqual(['ok', 'ok']);
    d.state().actions.set({ level: 'L2', survey });
    const upstairs = ['risers/R1', 'devices/D2', 'jacks/J2'].map((key) => {
      const [table, id] = key.split('/') as ['risers' | 'devices' | 'jacks', string];
      return { table, id };
    });
    d.state().actions.select(upstairs);
    d.play('key PageDown');
    expect(d.state().selection).toEqual([
      { table: 'risers', id: 'R1' },
      { table: 'jacks', id: 'J2' },
    ]);
    d.state().actions.select([{ table: 'devices', id: 'D1' }]);
    d.play('key PageUp');
    expect(d.state().selection).toEqual([]);
  });

  it('drops what is being drawn when the level changes under it', () => {
    const d = drive({ plan: twoLevels(), tool: 'wall' });
    d.play('click 0,0 · move 3000,0 · key PageUp');
    expect(d.editor.view().busy).toBe(false);
    d.play('click 0,0 · click 4000,0 · key Enter');
    expect([...d.plan().tables.walls.values()].at(-1)!.level).toBe('L2');
  });
});

describe('Pasting on another level', () => {
  it('puts what was copied where it stood, or at the pointer, with jacks of its own', () => {
    const d = drive({ plan: twoLevels() });
    d.state().actions.select([{ table: 'devices', id: 'D1' }]);
    d.play('key Ctrl+c · key PageUp · key Ctrl+v');
    expect(d.plan().tables.devices.get('D2')).toMatchObject({ level: 'L2', at: [3000, 600] });
    expect([...d.plan().tables.jacks.values()].map((jack) => jack.label)).toEqual(['A1', 'B1']);
    d.play('move 5000,2000 · key Ctrl+v');
    expect(d.plan().tables.devices.get('D3')).toMatchObject({ level: 'L2', at: [5000, 2000] });
  });
});

describe('The level below', () => {
  const layers = (d: ReturnType<typeof drive>) => sceneMaker(kinds)(d.state()).layers;

  it('shows through in outline under what is drawn here, unless it is put away', () => {
    const d = drive({ plan: twoLevels() });
    d.play('key PageUp');
    const [ghost] = layers(d);
    expect(ghost!.marks).toHaveLength(1 + 4);
    expect(ghost!.strength).toBeLessThan(0.6);
    const { shown, actions } = d.state();
    actions.set({ shown: { ...shown, below: false } });
    expect(layers(d)).toEqual([]);
  });

  it('is nothing under the lowest', () => {
    const d = drive({ plan: twoLevels() });
    const [lowest] = layers(d);
    expect(lowest!.marks[0]).toMatchObject({ style: { fill: 'tint-0' } });
  });
});

describe('The riser tool', () => {
  it('places one to the level above, picks it, and is put away', () => {
    const d = drive({ plan: twoLevels(), tool: 'riser' });
    d.play('click 500,500');
    expect(d.plan().tables.risers.get('R1')).toMatchObject({
      level: 'L1',
      upper: 'L2',
      at: [500, 500],
    });
    expect(d.state().selection).toEqual([{ table: 'risers', id: 'R1' }]);
    expect(d.state().tool).toBe('select');
    expect(d.state().history.cursor).toBe(1);
  });

  it('places one to the level that was chosen', () => {
    const three = drive({ plan: twoLevels() });
    three.state().actions.run('add-level', { from: 'L1', side: 'above' });
    const d = drive({ plan: three.plan(), tool: 'riser', option: 'L3' });
    d.play('click 500,500');
    expect(d.plan().tables.risers.get('R1')).toMatchObject({ level: 'L1', upper: 'L3' });
  });

  it('works by keys alone', () => {
    const d = drive({ plan: twoLevels() });
    d.play('key u · key ArrowRight · key Enter');
    expect(d.plan().tables.risers.size).toBe(1);
  });

  it('says what is missing while the building has one level, and changes nothing', () => {
    const d = drive({ plan: roomPlan(), tool: 'riser' });
    const before = d.text();
    d.play('click 500,500');
    expect(d.text()).toBe(before);
    expect(d.state().notices.at(-1)!.message.text).toContain('Add a level');
  });

  it('leaves no trace when it is dropped', () => {
    const d = drive({ plan: twoLevels(), tool: 'riser' });
    d.play('press 500,500 · move 700,700 · cancel · release 700,700');
    expect(d.state().preview).toBeNull();
    expect(d.text()).toBe(writePlan(twoLevels()));
  });
});

describe('A riser on the board', () => {
  const withRiser = () => {
    const d = drive({ plan: twoLevels() });
    d.state().actions.run('place-riser', { level: 'L1', at: [500, 500] });
    d.state().actions.select([]);
    return d;
  };

  it.each(['L1', 'L2'])('is hit, held by a box and counted to the drawing on %s', (level) => {
    const index = hitIndex(withRiser().plan(), level);
    const ref = { table: 'risers', id: 'R1' };
    expect(hitAt(index, [520, 510], 10, false)[0]).toEqual(ref);
    expect(hitBox(index, [400, 400], [600, 600], false)).toEqual([ref]);
    const { x0, y0 } = planExtent(withRiser().plan(), 'L2')!;
    expect([x0, y0]).toEqual([500, 500]);
  });

  it('is dragged and deleted from either level', () => {
    const d = withRiser();
    d.play('key PageUp · drag 500,500 900,700');
    expect(d.plan().tables.risers.get('R1')!.at).toEqual([900, 700]);
    d.play('key Delete');
    expect(d.plan().tables.risers.size).toBe(0);
  });

  it('says on each level where it leads', () => {
    const d = withRiser();
    expect(texts(d)).toContain('up to Level 2');
    d.play('key PageUp');
    expect(texts(d)).toContain('down to Ground level');
  });

  it('is ringed on both levels while it is selected', () => {
    const d = withRiser();
    d.state().actions.select([{ table: 'risers', id: 'R1' }]);
    for (const level of ['L1', 'L2']) {
      d.state().actions.set({ level });
      expect(highlightMarks(d.state(), new Map())).toHaveLength(1);
    }
  });
});

describe('The pin tool', () => {
  const station = () => {
    const d = drive({ plan: roomPlan() });
    d.state().actions.select([{ table: 'devices', id: 'D1' }]);
    d.state().actions.pick('pin');
    return d;
  };
  const PLACES = 'click 2000,3000 · click 5000,3000';

  it('sets the places in order, by Enter as one step, for the runs of what is selected', () => {
    const d = station();
    d.play(`${PLACES} · key Enter`);
    expect(d.plan().tables.pins.get('N1')!.points).toEqual([
      [2000, 3000],
      [5000, 3000],
    ]);
    expect(d.plan().tables.jacks.get('J1')!.pin).toBe('N1');
    expect(d.state().selection).toEqual([{ table: 'pins', id: 'N1' }]);
    expect([d.state().tool, d.state().history.cursor]).toEqual(['select', 1]);
  });

  it('takes one place by a double click', () => {
    const d = station();
    d.play('click 2000,3000 · click 2000,3000 · double 2000,3000');
    expect(d.plan().tables.pins.get('N1')!.points).toEqual([[2000, 3000]]);
  });

  it('shows the runs as they would go, before a place is set and after', () => {
    const d = station();
    d.play('move 2000,3000');
    expect(d.state().preview!.tables.pins.get('N1')!.points).toEqual([[2000, 3000]]);
    d.play('click 2000,3000 · move 4000,3500');
    expect(d.state().preview!.tables.pins.get('N1')!.points).toHaveLength(2);
    expect(d.state().preview!.tables.jacks.get('J1')!.pin).toBe('N1');
  });

  it('takes the last place back by Backspace', () => {
    const d = station();
    d.play(`${PLACES} · key Backspace · key Enter`);
    expect(d.plan().tables.pins.get('N1')!.points).toEqual([[2000, 3000]]);
  });

  it.each([
    ['Escape', 'cancel'],
    ['a second finger', 'abandon · cancel'],
  ])('leaves no trace after %s', (_, end) => {
    const d = station();
    d.play(`${PLACES} · move 6000,3000 · ${end}`);
    expect(d.state().preview).toBeNull();
    expect(d.text()).toBe(writePlan(roomPlan()));
    expect(d.editor.view().busy).toBe(false);
  });

  it('says what to do first while no run is selected, and draws nothing', () => {
    const d = drive({ plan: roomPlan(), tool: 'pin' });
    d.play(`${PLACES} · key Enter`);
    expect(d.plan().tables.pins.size).toBe(0);
    expect(d.state().notices.at(-1)!.message.text).toContain('Select the runs');
    expect(d.editor.view().busy).toBe(false);
  });

  it('works by keys alone', () => {
    const d = station();
    d.play('key ArrowRight · key Enter · key Enter');
    expect(d.plan().tables.pins.get('N1')!.points).toHaveLength(1);
  });
});

describe('A pin on the board', () => {
  const pinned = () => {
    const d = drive({
      plan: planWith(
        ['place-device', { level: 'L1', kind: 'order-station', at: [0, 0] }],
        [
          'pin-runs',
          {
            level: 'L1',
            points: [
              [2000, 3000],
              [5000, 3000],
            ],
            jacks: ['J1'],
          },
        ],
      ),
    });
    d.state().actions.select([]);
    return d;
  };

  it('is hit at each of its places, and held by a box once', () => {
    const index = hitIndex(pinned().plan(), 'L1');
    const ref = { table: 'pins', id: 'N1' };
    expect(hitAt(index, [5010, 3000], 10, false)).toEqual([ref]);
    expect(hitAt(index, [3500, 3000], 10, false)).toEqual([]);
    expect(hitBox(index, [1000, 2000], [6000, 4000], false)).toEqual([ref]);
  });

  it('has its places dragged one by one once it is picked, and goes as a whole before', () => {
    const d = pinned();
    d.play('click 2000,3000 · drag 2000,3000 2300,3200');
    expect(d.plan().tables.pins.get('N1')!.points).toEqual([
      [2300, 3200],
      [5000, 3000],
    ]);
    d.state().actions.undo();
    d.state().actions.select([]);
    d.play('drag 2000,3000 2100,3100');
    expect(d.plan().tables.pins.get('N1')!.points).toEqual([
      [2100, 3100],
      [5100, 3100],
    ]);
  });
});

it('an empty job has no level to go to, and the keys mean nothing there', () => {
  const d = drive({ plan: emptyPlan() });
  expect(d.keys.press({ key: 'PageUp', shift: false, ctrl: false }, true)).toBe(false);
});
