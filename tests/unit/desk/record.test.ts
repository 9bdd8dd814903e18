import fc from 'fast-check';
import { expect, test } from 'vitest';
import { contentsOf } from '../../../src/desk/contents/rows.ts';
import { firstEntry, readBuilt, showBuilt } from '../../../src/desk/record/fields.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { BUILT_FIELDS, NOT_BUILT } from '../../../src/plan/built.ts';
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

test('the first entry of a cable takes its port by the schedule along, and later ones take nothing', () => {
  const ports = new Map([['J1', 7]]);
  const stamp = { by: 'KL', on: '2026-03-01' };
  expect(firstEntry({ id: 'J1', built: null }, ports, stamp)).toEqual({ ...stamp, port: 7 });
  expect(firstEntry({ id: 'J2', built: null }, ports)).toEqual({ port: null });
  expect(firstEntry({ id: 'J1', built: NOT_BUILT }, ports, stamp)).toEqual({});
});

test('what is shown of a field reads back as the same, lengths to what is shown of them', () => {
  const length = fc.nat({ max: 33_000_000 });
  const record = fc.record({
    ...{ start: length, end: length, length },
    port: fc.integer({ min: 1, max: 10_000 }),
    test: fc.constantFrom('pass' as const, 'fail' as const),
    on: fc.constantFrom('', '2026-03-01', '2024-02-29'),
    by: fc.string({ unit: 'grapheme', maxLength: 40 }).map((words) => words.trim()),
    remark: fc.string({ unit: 'grapheme', maxLength: 40 }).map((words) => words.trim()),
  });
  fc.assert(
    fc.property(record, fc.constantFrom('ft' as const, 'm' as const), (values, units) => {
      for (const field of BUILT_FIELDS) {
        const shown = showBuilt(field, values[field], units);
        const read = readBuilt(field, shown, units);
        if (!('value' in read)) throw new Error(`${field}: ${shown}: ${read.why}`);
        expect(showBuilt(field, read.value, units)).toBe(shown);
        if (typeof values[field] !== 'number' || field === 'port')
          expect(read.value).toBe(values[field]);
      }
    }),
    { seed: 33, numRuns: 300 },
  );
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
