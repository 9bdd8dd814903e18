import { FAR, type Units } from '../../base/units.ts';
import type { BUILT_FIELDS, Built } from '../../plan/built.ts';
import { parseDay, parseTest } from '../../plan/built-words.ts';
import { parseWhole, t } from '../../text/index.ts';
import { readLength, readWords, showLength } from '../controls/fields.tsx';
import type { Reading } from '../controls/typed-field.tsx';

export type BuiltField = (typeof BUILT_FIELDS)[number];

/** The value of any field of the record. */
export type BuiltValue = Built[BuiltField];

const LENGTHS: readonly BuiltField[] = ['start', 'end', 'length'];
const isLength = (field: BuiltField): boolean => LENGTHS.includes(field);
export const isFigure = (field: BuiltField): boolean => isLength(field) || field === 'port';

/** What holds while nothing is recorded, in brackets, so that nobody takes it for recorded. */
export const followsWords = (mm: number | null, units: Units): string =>
  mm === null ? '' : `(${showLength(mm, units)})`;

/** How a field of the record is written. */
export function showBuilt(field: BuiltField, value: BuiltValue, units: Units): string {
  if (value === null) return '';
  if (field === 'test') return t(value === 'pass' ? 'built.pass' : 'built.fail');
  return isLength(field) ? showLength(value as number, units) : String(value);
}

/** Reads what was typed into a field of the record; an empty one is not recorded. */
export function readBuilt(field: BuiltField, text: string, units: Units): Reading<BuiltValue> {
  const words = text.trim();
  if (field === 'by' || field === 'remark') return readWords(text);
  if (field === 'on') {
    const day = words === '' ? '' : parseDay(words);
    return day === null ? { why: t('built.day-wrong') } : { value: day };
  }
  if (field === 'test') {
    const test = parseTest(words);
    return test === undefined ? { why: t('built.test-wrong') } : { value: test };
  }
  if (words === '') return { value: null };
  if (field !== 'port') return readLength(text, units, 0, FAR);
  const port = parseWhole(words);
  return port === null || port < 1 || port > 10_000
    ? { why: t('field.whole.wrong', { min: 1, max: 10_000 }) }
    : { value: port };
}
