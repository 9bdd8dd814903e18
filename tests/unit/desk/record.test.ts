import { expect, test } from 'vitest';
import { contentsOf } from '../../../src/desk/contents/rows.ts';
import { readBuilt, showBuilt } from '../../../src/desk/record/fields.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { t } from '../../../src/text/index.ts';
import { smallSite } from './site.ts';

test('each field of the record reads what people type, and an empty one is not recorded', () => {
  expect(readBuilt('start', '12-6', 'ft')).toEqual({ value: 3810 });
  expect(readBuilt('end', '12.5', 'm')).toEqual({ value: 12_500 });
  expect(readBuilt('length', ' ', 'ft')).toEqual({ value: null });
  expect(readBuilt('start', '-3', 'ft')).toEqual({ why: t('field.length.low', { min: "0'" }) });
  expect(readBuilt('port', '24', 'ft')).toEqual({ value: 24 });
  expect(readBuilt('port', '0', 'ft')).toHaveProperty('why');
  expect(readBuilt('test', 'P', 'ft')).toEqual({ value: 'pass' });
  expect(readBuilt('test', 'maybe', 'ft')).toEqual({ why: t('built.test-wrong') });
  expect(readBuilt('on', '3/1/2026', 'ft')).toEqual({ value: '2026-03-01' });
  expect(readBuilt('on', '', 'ft')).toEqual({ value: '' });
  expect(readBuilt('on', 'soon', 'ft')).toEqual({ why: t('built.day-wrong') });
  expect(readBuilt('remark', 'x'.repeat(401), 'ft')).toEqual({ why: t('field.text.long') });
});

test('what is shown of a field reads back as the same', () => {
  const values = { start: 3810, port: 7, test: 'fail', on: '2026-03-01', by: 'KL' } as const;
  for (const [field, value] of Object.entries(values) as [keyof typeof values, never][])
    expect(readBuilt(field, showBuilt(field, value, 'ft'), 'ft')).toEqual({ value });
});

test('the contents say in words which cables are recorded, and how their test came out', () => {
  const site = smallSite();
  const devices = () =>
    contentsOf(site.plan, 'L1', kinds).find((group) => group.table === 'devices')!.rows;
  expect(devices().map((row) => row.built)).toEqual(['', '']);
  const [first] = [...site.plan.tables.jacks.values()];
  site.run('record', { records: [{ jack: first!.id, fields: { test: 'fail' } }] });
  expect(devices().map((row) => row.built)).toEqual([t('built.state.failed'), '']);
});
