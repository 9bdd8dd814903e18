import { describe, expect, it, test } from 'vitest';
import { isBlank } from '../../../src/desk/blank.ts';
import {
  allowanceWords,
  commonAllowances,
  differingAllowances,
} from '../../../src/desk/card/allowance-fields.tsx';
import { placeAfter, runsToAdd } from '../../../src/desk/card/pin-card.tsx';
import { pinCost, pinOf, pinWords } from '../../../src/desk/card/pinning.tsx';
import { endsWith } from '../../../src/desk/card/riser-card.tsx';
import { blockedWords } from '../../../src/desk/card/run-card.tsx';
import { runSum } from '../../../src/desk/card/run-sum.ts';
import { contentsOf } from '../../../src/desk/contents/rows.ts';
import { leaving } from '../../../src/desk/controls/typed-field.tsx';
import { watchLegs } from '../../../src/desk/leg-turn.ts';
import { runGroups } from '../../../src/desk/run-groups.ts';
import { ownOfKind } from '../../../src/desk/shelf/kind-allowances.tsx';
import { goneWords, readDegrees } from '../../../src/desk/shelf/levels.tsx';
import { pickRun, showRefs } from '../../../src/desk/show.ts';
import { strange, TOOL } from '../../../src/desk/tool-ids.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { settings } from '../../../src/plan/plan.ts';
import type { Run, Segment } from '../../../src/results/types.ts';
import { part, runOf, type Site, smallSite, surveyOf } from './site.ts';

/** The small site with an empty level above, a riser between the two, and a station up there: jack B1. */
const twoLevels = (): Site =>
  smallSite()
    .run('add-level', { from: 'L1', side: 'above' })
    .run('place-riser', { level: 'L1', at: [500, 500] })
    .run('place-device', { level: 'L2', kind: 'kiosk', at: [3000, 3000] });

const pinned = (): Site =>
  twoLevels().run('pin-runs', { level: 'L1', points: [[5000, 5000]], jacks: ['J1', 'J3'] });

describe('The shelf of levels', () => {
  it('counts what would go with a level', () => {
    const { actions } = twoLevels().session().getState();
    const outcome = actions.ask('delete', { refs: [{ table: 'levels', id: 'L2' }] });
    expect(outcome.ok && goneWords(outcome.changes)).toBe('Risers 1, Devices 1, Jacks 1');
    expect(goneWords([])).toBe('');
  });

  it.each([
    ['12', 12],
    ['-7.5°', -7.5],
    ['−7.5 °', -7.5],
    ['-0', 0],
    ['90', 90],
    ['91', null],
    ['north', null],
    ['', null],
  ])('reads the turn of building lines from "%s"', (text, degrees) => {
    expect(readDegrees(text)).toBe(degrees);
  });
});

describe('Groups of runs', () => {
  it('are all, those of a level, an area, a room with a name, and a kind, in this order', () => {
    expect(runGroups(twoLevels().plan, kinds).map((group) => group.label)).toEqual([
      'All runs, 3 runs',
      'Ground level, 2 runs',
      'Level 2, 1 run',
      'Area A, 2 runs',
      'Area B, 1 run',
      'Kitchen, 2 runs',
      'Order station, 2 runs',
      'Kiosk, 1 run',
    ]);
  });

  it('leave levels out while there is one, and are none without a jack', () => {
    expect(runGroups(smallSite().plan, kinds).map((group) => group.key)).not.toContain('level L1');
    const bare = smallSite().run('delete', {
      refs: ['D1', 'D2'].map((id) => ({ table: 'devices' as const, id })),
    });
    expect(runGroups(bare.plan, kinds)).toEqual([]);
  });

  it('are offered to a pin while they hold a run that does not pass it, then the runs by themselves', () => {
    const { plan } = pinned();
    const offered = runsToAdd(plan, kinds, ['J1', 'J3']);
    expect(offered.map((option) => option.label)).toEqual([
      'All runs, 3 runs',
      'Ground level, 2 runs',
      'Area A, 2 runs',
      'Kitchen, 2 runs',
      'Order station, 2 runs',
      'Run A2',
    ]);
  });
});

describe('A pin in words', () => {
  const run = (cost: number, path: number): Run =>
    runOf('J1', 'A1', [part('across', 9000)], { pinned: { pin: 'N1', cost, path } });

  it.each([
    [run(2500, 2184), 'Pin makes this run 7\'-2" longer.', '7\'-2" longer'],
    [
      run(2500, -2184),
      'Pin makes this run 7\'-2" shorter, by a way that is harder to pull.',
      '7\'-2" shorter',
    ],
    [run(300, 0), 'Pin leads this run another way of the same length.', 'as long, another way'],
    [run(0, 0), 'Pin changes nothing: this run passes there by itself.', 'passes there by itself'],
  ])('says what it costs: %#', (of, sentence, words) => {
    expect(pinWords('Pin', of, 'ft')).toBe(sentence);
    expect(pinCost(of, 'ft')).toBe(words);
  });

  it('says that it is not measured yet, and that nothing passes', () => {
    const fresh = runOf('J1', 'A1', []);
    expect(pinWords('Pin', fresh, 'ft')).toBe('It is made to pass Pin.');
    expect(pinCost(fresh, 'ft')).toBe('');
    expect(pinCost({ ...fresh, status: 'unroutable' }, 'ft')).toBe('no way');
  });

  it('is named after its row; a free run has none', () => {
    expect(pinOf(pinned().plan, 'J1')).toEqual({ id: 'N1', name: 'P1' });
    expect(pinOf(pinned().plan, 'J2')).toBeNull();
  });

  it('gets a further place half-way to the next, or a step on after the last', () => {
    const points = [
      [0, 0],
      [1000, 501],
    ] as const;
    expect(placeAfter(points, 0)).toEqual([500, 251]);
    expect(placeAfter(points, 1)).toEqual([2000, 501]);
  });
});

describe('A run without a way says why', () => {
  const lost = (reason: NonNullable<Run['blocked']>['reason'], jack = 'J1'): Run =>
    runOf(jack, 'A1', [], { status: 'unroutable', blocked: { reason, by: null, reached: null } });

  it.each([
    ['other-level', 'no riser leads there'],
    ['pin', 'not past P1'],
    ['no-under-slab', 'no under-slab conduit leads to'],
    ['no-closet', 'no network closet to run to'],
    ['no-way', 'No way leads'],
  ] as const)('%s', (reason, words) => {
    expect(blockedWords(pinned().plan, lost(reason))).toContain(words);
  });
});

describe('Allowances in words', () => {
  const PARTS = [part('across', 9000), part('outlet-slack', 600), part('closet-loop', 3048)];
  const labels = (site: Site): string[] =>
    runSum(site.plan, runOf('J1', 'A1', PARTS), 'ft').lines.map((line) => line.label);

  it('name who gives one where that is not the job', () => {
    expect(labels(smallSite())).toContain('slack at the jack');
    const ofKind = smallSite().run('allow-kind', {
      kind: 'order-station',
      fields: { outletSlack: 600 },
    });
    expect(labels(ofKind)).toContain('slack at the jack, as for its kind of device');
    const own = ofKind.run('allow-jacks', { jacks: ['J1'], fields: { outletSlack: 700 } });
    expect(labels(own)).toContain('slack at the jack, this run’s own');
    expect(labels(own)).toContain('loop at the closet');
  });

  it('say by what waste a run is ordered, and whose it is', () => {
    const words = (site: Site) => runSum(site.plan, runOf('J1', 'A1', PARTS), 'ft').orderWords;
    expect(words(smallSite())).toBe('to order, with 10 % waste');
    const own = smallSite().run('allow-jacks', { jacks: ['J1'], fields: { wastePercent: 25 } });
    expect(words(own)).toBe('to order, with 25 % waste, this run’s own');
  });

  it('stand in the fields as they are typed', () => {
    expect(allowanceWords(settings(smallSite().plan), 'ft')).toEqual({
      outletSlack: "1'",
      fieldLoop: "0'",
      closetLoop: "10'",
      wastePercent: '10 %',
      orderStep: "1'",
    });
  });

  it('of several runs show what they have in common, and nothing where they differ', () => {
    const site = smallSite()
      .run('allow-jacks', { jacks: ['J1', 'J2'], fields: { outletSlack: 500, fieldLoop: 100 } })
      .run('allow-jacks', { jacks: ['J2'], fields: { fieldLoop: 200 } });
    expect(commonAllowances(site.plan, ['J1', 'J2'])).toMatchObject({
      outletSlack: 500,
      fieldLoop: null,
      closetLoop: null,
    });
  });

  it('in which runs differ are taken back by emptying their common field', () => {
    const site = smallSite().run('allow-jacks', { jacks: ['J2'], fields: { fieldLoop: 200 } });
    const mixed = differingAllowances(site.plan, ['J1', 'J2']);
    expect([...mixed]).toEqual(['fieldLoop']);
    const read = (text: string) => ({ value: text === '' ? null : Number(text) });
    const field = { value: null, show: () => '', read };
    expect(leaving<number | null>('', { ...field, mixed: true })).toEqual({ value: null });
    expect(leaving<number | null>('', { ...field, mixed: false })).toEqual({ same: true });
    expect(leaving<number | null>('7', field)).toEqual({ value: 7 });
    site.run('allow-jacks', { jacks: ['J1', 'J2'], fields: { fieldLoop: null } });
    expect(differingAllowances(site.plan, ['J1', 'J2']).size).toBe(0);
  });

  it('of a kind are counted', () => {
    const fields = { outletSlack: 500, fieldLoop: 0 };
    const site = smallSite().run('allow-kind', { kind: 'kiosk', fields });
    expect([ownOfKind(site.plan, 'kiosk'), ownOfKind(site.plan, 'camera')]).toEqual([2, 0]);
  });
});

describe('The contents', () => {
  const titled = (site: Site, level: string): string[] =>
    contentsOf(site.plan, level, kinds).flatMap((group) =>
      group.rows.map((row) => `${group.title}: ${row.name} ${row.detail}`),
    );

  it('list a riser on both its levels with where it leads, and a pin with who passes it', () => {
    expect(titled(pinned(), 'L1')).toContain('Risers 1: Riser Level 2');
    expect(titled(pinned(), 'L2')).toContain('Risers 1: Riser Ground level');
    expect(titled(pinned(), 'L1')).toContain('Pins 1: P1 A1 B1');
  });
});

describe('The card of a riser', () => {
  it('puts an end on another level, and still leads from the lower to the upper', () => {
    const site = twoLevels()
      .run('add-level', { from: 'L1', side: 'above' })
      .run('add-level', { from: 'L1', side: 'below' });
    const riser = site.plan.tables.risers.get('R1')!;
    expect(endsWith(site.plan, riser, 'upper', 'L3')).toEqual({ level: 'L1', upper: 'L3' });
    expect(endsWith(site.plan, riser, 'upper', 'L4')).toEqual({ level: 'L4', upper: 'L1' });
    expect(endsWith(site.plan, riser, 'level', 'L3')).toEqual({ level: 'L2', upper: 'L3' });
  });
});

describe('Showing things', () => {
  const away = () => {
    const session = pinned().session();
    session.getState().actions.set({ level: 'L2' });
    return session;
  };

  it('opens the level that they are on', () => {
    const session = away();
    showRefs(session, [{ table: 'pins', id: 'N1' }]);
    expect(session.getState().level).toBe('L1');
  });

  it('stays on a level on which a riser can be seen', () => {
    const session = away();
    showRefs(session, [{ table: 'risers', id: 'R1' }]);
    expect(session.getState().level).toBe('L2');
  });

  it('opens a level without selecting it, so that no key deletes it', () => {
    const session = away();
    showRefs(session, [{ table: 'levels', id: 'L1' }]);
    expect([session.getState().level, session.getState().selection]).toEqual(['L1', []]);
  });

  it('picks a run on the level of its jack, unless some of its way is on the open one', () => {
    const session = away();
    pickRun(session, 'J1');
    expect(session.getState().level).toBe('L1');
    expect(session.getState().selection).toEqual([{ table: 'jacks', id: 'J1' }]);
    const segment = { kind: 'across', level: 'L2' } as Segment;
    const run = runOf('J1', 'A1', [], { segments: [segment] });
    session.getState().actions.set({ level: 'L2', survey: surveyOf([run]) });
    pickRun(session, 'J1');
    expect(session.getState().level).toBe('L2');
  });

  it('adds a run to those that are picked, and takes it away again', () => {
    const session = pinned().session();
    pickRun(session, 'J1');
    pickRun(session, 'J2', true);
    expect(session.getState().selection.map((ref) => ref.id)).toEqual(['J1', 'J2']);
    pickRun(session, 'J1', true);
    expect(session.getState().selection.map((ref) => ref.id)).toEqual(['J2']);
  });
});

test('a tool of another leg is put back when a leg is opened, and one that is of no leg stays', () => {
  expect(strange(TOOL.wall, 'devices')).toBe(true);
  expect(strange(TOOL.wall, 'rooms')).toBe(false);
  expect(strange(TOOL.riser, 'runs')).toBe(false);
  expect(strange(TOOL.pin, 'price')).toBe(true);
  expect(strange(TOOL.select, 'base')).toBe(false);
  expect(strange('measure', 'print')).toBe(false);
  expect(strange(TOOL.note, 'rooms')).toBe(false);
  expect(strange(TOOL.note, 'devices')).toBe(true);
});

test('a leg that is opened finds no foreign tool in hand, and no picture off the Base leg', () => {
  const session = smallSite().session();
  const stop = watchLegs(session);
  const { actions } = session.getState();
  actions.run('add-background', {
    level: 'L1',
    name: 'plan',
    asset: 'a'.repeat(16),
    width: 100,
    height: 80,
  });
  const picture = session.getState().selection;
  expect(picture.map((ref) => ref.table)).toEqual(['backgrounds']);
  actions.pick(TOOL.setScale);
  actions.set({ leg: 'rooms' });
  expect(session.getState()).toMatchObject({ tool: 'select', selection: [] });
  const [room] = [...session.getState().history.plan.tables.devices.keys()];
  actions.select([...picture, { table: 'devices', id: room! }]);
  actions.pick('measure');
  actions.set({ leg: 'runs' });
  expect(session.getState().selection).toEqual([{ table: 'devices', id: room }]);
  expect(session.getState().tool).toBe('measure');
  actions.select(picture);
  actions.set({ leg: 'base' });
  expect(session.getState().selection).toEqual(picture);
  stop();
  actions.set({ leg: 'rooms' });
  expect(session.getState().selection).toEqual(picture);
});

test('a job is as it was opened until something is done to it, also after another was open', () => {
  const session = smallSite().session();
  const untouched = () => session.getState().opened === session.getState().history.plan;
  expect(untouched()).toBe(true);
  session.getState().actions.run('place-closet', { level: 'L1', at: [0, 0] });
  expect(untouched()).toBe(false);
  session.getState().actions.open(session.getState().history);
  expect(untouched()).toBe(true);
  expect(isBlank(session.getState().opened)).toBe(false);
});
