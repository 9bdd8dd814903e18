import { expect, test } from 'vitest';
import { renderMessage } from '../../../src/base/message.ts';
import { LEGS, undoLabel } from '../../../src/board/session.ts';
import { tools } from '../../../src/board/tools/index.ts';
import { isBlank } from '../../../src/desk/blank.ts';
import { powerWords } from '../../../src/desk/card/device-card.tsx';
import { nextStep } from '../../../src/desk/card/nothing.tsx';
import { commonValue, countNames } from '../../../src/desk/card/several.tsx';
import { readLength, showLength } from '../../../src/desk/controls/fields.tsx';
import { wouldLose } from '../../../src/desk/dialogs/replace.tsx';
import { menuItems, menuRefs } from '../../../src/desk/menu/items.ts';
import { besideFinger } from '../../../src/desk/menu/place.ts';
import { boxWords, priceGroups } from '../../../src/desk/price-groups.ts';
import { scaleTool, showFinding, takeScaleTool, viewOn } from '../../../src/desk/show.ts';
import { TOOL } from '../../../src/desk/tool-ids.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { shownCorners } from '../../../src/plan/picture-place.ts';
import { emptyPlan, makeRow } from '../../../src/plan/plan.ts';
import type { PriceLine } from '../../../src/results/types.ts';
import { t } from '../../../src/text/index.ts';
import { finding, Site, smallSite, surveyOf } from './site.ts';

test('every tool that the shelf puts into a hand is in the registry', () => {
  for (const id of Object.values(TOOL)) expect([...tools.keys()]).toContain(id);
});

test('a typed length is read in the units of the job and echoed as people write it', () => {
  expect(readLength('12-6', 'ft')).toEqual({ value: 3810 });
  expect(readLength('3.8', 'm')).toEqual({ value: 3800 });
  expect(showLength(3810, 'ft')).toBe('12\'-6"');
  expect(showLength(298, 'ft')).toBe('11 3/4"');
  expect(showLength(3800, 'm')).toBe('3.80 m');
  expect(showLength(3805, 'm')).toBe('3.805 m');
});

test('a wrong length says what would be right; a height in inches that reads as feet says so', () => {
  expect(readLength('a foot', 'ft')).toEqual({ why: t('field.length.wrong-ft') });
  expect(readLength('12\'-13"', 'ft')).toEqual({ why: t('field.length.inches') });
  expect(readLength('-1', 'm')).toEqual({ why: 'At least 0.00 m.' });
  expect(readLength('18', 'ft', 0, 3658)).toEqual({
    why: '18 means feet here, and 12\' is the most. Inches: 18".',
  });
  expect(readLength("18'", 'ft', 0, 3658)).toEqual({ why: "At most 12'." });
});

test('a length that is stored exactly is not rounded to whole millimetres', () => {
  expect(readLength("1'", 'ft', 1)).toEqual({ value: 305 });
  expect(readLength("1'", 'ft', 1, 10_000, true)).toEqual({ value: 304.8 });
});

test('only a job that could not be kept would be lost when another is opened', () => {
  const session = smallSite().session();
  const { actions } = session.getState();
  expect(wouldLose(session.getState())).toBe(false);
  actions.run('place-closet', { level: 'L1', at: [0, 0] });
  expect(wouldLose(session.getState())).toBe(false);
  actions.set({ kept: { state: 'failed', at: null } });
  expect(wouldLose(session.getState())).toBe(true);
  actions.undo();
  expect(wouldLose(session.getState())).toBe(false);
});

test('a job is blank until something is drawn, whatever it is called', () => {
  const site = new Site().run('edit', { table: 'job', id: 'job', fields: { name: 'Corner site' } });
  expect(isBlank(site.plan)).toBe(true);
  expect(isBlank(site.run('place-closet', { level: 'L1', at: [0, 0] }).plan)).toBe(false);
});

test('each leg of a blank job names a next step that the catalogue has', () => {
  for (const leg of LEGS) expect(t(nextStep(leg, emptyPlan(), null))).not.toBe('');
  expect(nextStep('devices', emptyPlan(), null)).toBe('next.closet');
  expect(nextStep('rooms', emptyPlan(), null, true)).toBe('next.first-room');
  expect(nextStep('devices', smallSite().plan, null)).toBe('next.move-device');
  for (const leg of ['checks', 'price'] as const)
    expect(nextStep(leg, emptyPlan(), surveyOf([]))).toBe('next.nothing-placed');
  expect(nextStep('checks', smallSite().plan, surveyOf([]))).toBe('next.clear');
});

test('after a plan comes its scale, then a check of it, then the rooms', () => {
  const picture = { asset: 'a'.repeat(16), width: 1000, height: 800, paper: 900 };
  const step = (more: object) => {
    const row = makeRow('backgrounds', 'B1', { level: 'L1', ...picture, ...more });
    const { tables } = emptyPlan();
    return nextStep('base', { tables: { ...tables, backgrounds: new Map([['B1', row]]) } }, null);
  };
  const line = { a: [0, 0], b: [500, 0], length: 9000 };
  expect(step({})).toBe('next.scale');
  expect(step({ scale: line })).toBe('next.check');
  expect(step({ ratio: 48 })).toBe('next.check-printed');
  expect(step({ ratio: 48, check: line })).toBe('next.rooms');
  expect(step({ scale: line, check: line })).toBe('next.rooms');
});

test('walls that a plan shows are taken over before rooms are drawn, once it has its scale', () => {
  const picture = { asset: 'a'.repeat(16), width: 1000, height: 800, paper: 900 };
  const row = (more: object) => makeRow('backgrounds', 'B1', { level: 'L1', ...picture, ...more });
  const on = (more: object) => ({
    tables: { ...emptyPlan().tables, backgrounds: new Map([['B1', row(more)]]) },
  });
  expect(nextStep('rooms', on({}), null, true)).toBe('next.first-room');
  expect(nextStep('rooms', on({ ratio: 48 }), null, true)).toBe('next.take-walls');
  expect(nextStep('rooms', on({ ratio: 48 }), null, false)).toBe('next.first-room');
  const wall = makeRow('walls', 'W1', { level: 'L1', a: [0, 0], b: [3000, 0] });
  const walled = { tables: { ...on({ ratio: 48 }).tables, walls: new Map([['W1', wall]]) } };
  expect(nextStep('rooms', walled, null, true)).toBe('next.fill-room');
});

test('several things are counted by what they are, most first', () => {
  expect(countNames(['Wall', 'Jack', 'Wall'])).toEqual([
    ['Wall', 2],
    ['Jack', 1],
  ]);
});

test('a field that they have in common shows its value, one that differs shows none', () => {
  const site = smallSite().run('edit', { table: 'walls', id: 'W1', fields: { rated: true } });
  const walls = ['W1', 'W2'].map((id) => ({ table: 'walls' as const, id }));
  expect(commonValue(site.plan, walls, 'construction')).toBe('framed');
  expect(commonValue(site.plan, walls, 'rated')).toBeUndefined();
});

test('power within reach is near, at the reach too, and beyond it too far', () => {
  const at = (x: number) => {
    const site = new Site()
      .run('place-device', { level: 'L1', kind: 'order-station', at: [0, 0] })
      .run('place-power', { level: 'L1', at: [x, 0] });
    const device = site.plan.tables.devices.get('D1')!;
    return powerWords(site.plan, device, kinds.get('order-station')!, 'm');
  };
  expect(at(1829)).toBe('The next power outlet is 1.83 m away.');
  expect(at(1830)).toContain('is the most');
});

const line = (part: string, group: PriceLine['group'], totalCents: number): PriceLine => ({
  part,
  label: { text: part, params: {} },
  group,
  quantity: 1,
  unit: 'each',
  unitCents: totalCents,
  totalCents,
});

test('the lines of a price stand by group, and the subtotals add up to the lines', () => {
  const groups = priceGroups([
    line('a', 'cable', 100),
    line('b', 'labour', 5),
    line('c', 'cable', 20),
  ]);
  expect(groups.map((g) => [g.group, g.totalCents, g.lines.length])).toEqual([
    ['cable', 120, 2],
    ['labour', 5, 1],
  ]);
});

test('a box plan says whether it is proven best, and what no box holds', () => {
  const box = { number: 1, jacks: ['J1'], used: 1, left: 0 };
  const plan = { boxes: [box, box], bound: 2, oversize: [], byLength: 2, byAverage: 2 };
  expect(boxWords(plan)).toContain('No cutting plan needs fewer.');
  expect(boxWords({ ...plan, bound: 1 })).toContain('fewer than 1');
  expect(boxWords({ ...plan, oversize: ['J9'] })).toContain('1 run is longer than a box');
  expect(boxWords({ ...plan, boxes: [] })).toBe('No run needs cable yet.');
});

test('showing a place puts it in the middle of the board', () => {
  const view = viewOn(
    { scale: 0.1, left: 0, top: 0, width: 800, height: 600 },
    [[20_000, 10_000]],
    null,
  );
  expect(view.left + view.width / 2 / view.scale).toBeCloseTo(20_000, 6);
  expect(view.top + view.height / 2 / view.scale).toBeCloseTo(10_000, 6);
  expect(view.scale).toBe(0.1);
});

test('showing things far apart zooms out until both are in view', () => {
  const view = viewOn(
    { scale: 0.1, left: 0, top: 0, width: 800, height: 600 },
    [
      [0, 0],
      [100_000, 0],
    ],
    null,
  );
  expect(view.left).toBeLessThan(0);
  expect(view.left + view.width / view.scale).toBeGreaterThan(100_000);
});

test('a finding about the scale of a picture shows the whole of it and hands over the tool that mends it', () => {
  const site = new Site().run('add-background', {
    level: 'L1',
    name: 'Plan',
    asset: '0123456789abcdef',
    width: 2000,
    height: 1000,
  });
  const about = finding({
    subjects: [{ table: 'backgrounds', id: 'B1' }],
    at: { level: 'L1', point: [0, 0] },
  });
  expect(scaleTool(site.plan, about)?.tool).toBe('set-scale');
  site.run('set-scale', { background: 'B1', a: [0, 0], b: [10_000, 0], length: 40_000 });
  expect(scaleTool(site.plan, about)?.tool).toBe('check-scale');
  expect(scaleTool(site.plan, finding({ severity: 'note' }))).toBeNull();

  const session = site.session();
  const { set } = session.getState().actions;
  set({ leg: 'checks', viewport: { scale: 0.5, left: 0, top: 0, width: 800, height: 600 } });
  takeScaleTool(session, about, 'check-scale');
  const { leg, tool, viewport } = session.getState();
  expect([leg, tool]).toEqual(['base', 'check-scale']);
  const corners = shownCorners(site.plan.tables.backgrounds.get('B1')!);
  for (const [x, y] of corners) {
    expect(x).toBeGreaterThan(viewport.left);
    expect(x).toBeLessThan(viewport.left + viewport.width / viewport.scale);
    expect(y).toBeGreaterThan(viewport.top);
    expect(y).toBeLessThan(viewport.top + viewport.height / viewport.scale);
  }
  expect(viewport.scale).toBeLessThan(0.5);

  const spot = finding({ subjects: [], at: { level: 'L1', point: [5000, 4000] } });
  showFinding(session, spot);
  const { left, width, scale } = session.getState().viewport;
  expect(left + width / scale / 2).toBeCloseTo(5000, 6);
});

test('the menu of empty paper offers every kind to place, and what it places is placed there', () => {
  const session = smallSite().session();
  const items = () =>
    menuItems({ ...session.getState(), plan: session.getState().history.plan }, kinds, {
      at: [5000.4, 3000],
      refs: [],
    });
  expect(items().map((item) => item.label)).toEqual([
    'Network closet',
    ...[...kinds.values()].map((kind) => kind.label.text),
    'Spare jack',
    'Power outlet',
  ]);
  items()
    .find((item) => item.label === 'Camera')!
    .run();
  const placed = [...session.getState().history.plan.tables.devices.values()].at(-1)!;
  expect([placed.kind, placed.at]).toEqual(['camera', [5000, 3000]]);
});

test('the menu of a thing leaves out what it could not do', () => {
  const session = smallSite().session();
  const labels = (table: 'walls' | 'devices' | 'outlets', id: string) =>
    menuItems({ ...session.getState(), plan: session.getState().history.plan }, kinds, {
      at: [0, 0],
      refs: [{ table, id }],
    }).map((item) => item.label);
  expect(labels('walls', 'W1')).toEqual([
    'Turn a quarter',
    'Mirror left to right',
    'Lock',
    'Select all of this kind',
    'Copy beside it',
    'Delete Framed wall',
  ]);
  session.getState().actions.run('lock', { refs: [{ table: 'walls', id: 'W1' }], locked: true });
  expect(labels('walls', 'W1')).toEqual(['Unlock', 'Select all of this kind', 'Copy beside it']);
  expect(labels('devices', 'D1')).toContain('Turn a quarter');
  expect(labels('outlets', 'O1')).toContain('Add a spare');
});

test('a menu on one of several selected things is about all of them', () => {
  const selection = [
    { table: 'devices' as const, id: 'D1' },
    { table: 'devices' as const, id: 'D2' },
  ];
  expect(menuRefs({ selection }, { at: [0, 0], refs: [selection[1]!] })).toEqual(selection);
  const wall = { table: 'walls' as const, id: 'W1' };
  expect(menuRefs({ selection }, { at: [0, 0], refs: [wall, selection[1]!] })).toEqual([wall]);
});

test('a menu takes one more thing into the selection, and one of several out of it', () => {
  const session = smallSite().session();
  const one = { table: 'devices' as const, id: 'D1' };
  const wall = { table: 'walls' as const, id: 'W1' };
  const pick = (ref: typeof one | typeof wall, label: string) =>
    menuItems({ ...session.getState(), plan: session.getState().history.plan }, kinds, {
      at: [0, 0],
      refs: [ref],
    })
      .find((item) => item.label === label)
      ?.run();
  const picked = () => session.getState().selection;
  pick(one, 'Select this too');
  expect(picked()).toEqual([]);
  session.getState().actions.select([one]);
  pick(wall, 'Select this too');
  expect(picked()).toEqual([one, wall]);
  pick(one, 'Leave this one out');
  expect(picked()).toEqual([wall]);
});

test('a menu stands beside the finger that asked for it, and on the screen', () => {
  const screen = { width: 820, height: 1180 };
  const size = { width: 210, height: 400 };
  const at = (clientX: number, clientY: number) => besideFinger({ clientX, clientY }, size, screen);
  expect(at(300, 200)).toEqual({ left: 300, top: 200 });
  expect(at(700, 200)).toEqual({ left: 490, top: 200 });
  expect(at(700, 1100)).toEqual({ left: 490, top: 772 });
  expect(besideFinger({ clientX: 200, clientY: 20 }, size, { width: 320, height: 500 })).toEqual({
    left: 102,
    top: 20,
  });
});

test('undo names a changed field in words', () => {
  const session = smallSite().session();
  session
    .getState()
    .actions.run('edit', { table: 'settings', id: 'settings', fields: { closetLoop: 3658 } });
  const label = undoLabel(session.getState())!;
  expect(renderMessage(label, 'ft')).toBe('Change closet loop');
});
