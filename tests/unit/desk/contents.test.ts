import { expect, test } from 'vitest';
import { contentsOf, labelsOf, placeOf } from '../../../src/desk/contents/rows.ts';
import { findingsFor, nameOf } from '../../../src/desk/names.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { TABLES } from '../../../src/plan/schema.ts';
import { finding, smallSite } from './site.ts';

const rowsOf = (site = smallSite()) =>
  contentsOf(site.plan, 'L1', kinds).map(
    (group) =>
      `${group.title}: ${group.rows.map((r) => `${r.name} ${r.detail}`.trim()).join(', ')}`,
  );

test('the contents list everything on a level by what it is, with what tells it apart', () => {
  expect(rowsOf()).toEqual([
    'Network closets 1: Network closet',
    'Devices 2: Order station A1, Order station A2',
    'Rooms 1: Kitchen A',
    `Walls 4: Framed wall 29'-6", Framed wall 29'-6", Framed wall 39'-4", Framed wall 39'-4"`,
  ]);
});

test('an outlet of a device is reached through it; a spare one has a row of its own', () => {
  const site = smallSite().run('place-spare', { level: 'L1', at: [3000, 100] });
  expect(rowsOf(site)).toContain('Spare outlets 1: Wall outlet A3');
});

test('every row of every table on the level has a row, or is served by one that has', () => {
  const site = smallSite().run('place-spare', { level: 'L1', at: [3000, 100] });
  const listed = contentsOf(site.plan, 'L1', kinds).flatMap((g) => g.rows.map((r) => r.ref));
  const served = new Set(
    [...site.plan.tables.jacks.values()].filter((j) => j.device !== null).map((j) => j.outlet),
  );
  for (const table of TABLES)
    for (const row of site.plan.tables[table].values())
      if ('level' in row && !(table === 'outlets' && served.has(row.id)))
        expect(listed).toContainEqual({ table, id: row.id });
});

test('a row says where the thing is, so that it can be moved by typing', () => {
  const { plan } = smallSite();
  expect(placeOf(plan, { table: 'closets', id: 'C1' })).toEqual([1000, 8000]);
  expect(placeOf(plan, { table: 'walls', id: 'W1' })).toEqual([0, 0]);
  expect(placeOf(plan, { table: 'zones', id: 'Z1' })).toEqual([0, 0]);
  expect(placeOf(plan, { table: 'walls', id: 'W99' })).toBeNull();
});

test('a thing is called by its own name before what it is', () => {
  const site = smallSite().run('edit', {
    table: 'devices',
    id: 'D1',
    fields: { name: 'Host stand' },
  });
  expect(nameOf(site.plan, kinds, { table: 'devices', id: 'D1' })).toBe('Host stand');
  expect(nameOf(site.plan, kinds, { table: 'devices', id: 'D2' })).toBe('Order station');
  expect(nameOf(site.plan, kinds, { table: 'jacks', id: 'J1' })).toBe('Jack A1');
  expect(nameOf(site.plan, kinds, { table: 'devices', id: 'D9' })).toBe('something that is gone');
});

test('labels of a device that shares are those of its host', () => {
  const site = smallSite().run('place-device', {
    level: 'L1',
    kind: 'receipt-printer',
    at: [10_100, 500],
  });
  expect(site.plan.tables.devices.get('D3')?.host).toBe('D1');
  expect(labelsOf(site.plan, { table: 'devices', id: 'D3' })).toEqual(['A1']);
});

test('a device shows findings about itself, its jack and its outlet, and no others', () => {
  const { plan } = smallSite();
  const about = (table: 'devices' | 'jacks' | 'outlets', id: string) =>
    finding({ rule: `${table} ${id}`, subjects: [{ table, id }] });
  const all = [
    about('devices', 'D1'),
    about('jacks', 'J1'),
    about('outlets', 'O1'),
    about('jacks', 'J2'),
  ];
  expect(findingsFor(plan, all, { table: 'devices', id: 'D1' }).map((f) => f.rule)).toEqual([
    'devices D1',
    'jacks J1',
    'outlets O1',
  ]);
  expect(findingsFor(plan, all, { table: 'jacks', id: 'J2' }).map((f) => f.rule)).toEqual([
    'jacks J2',
  ]);
});
