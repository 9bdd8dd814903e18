import type { Id } from '../../base/ids.ts';
import { FAR, type Units } from '../../base/units.ts';
import { type Built, marksAgainst } from '../../plan/built.ts';
import { type BuiltField, type BuiltValue, parseBuilt } from '../../plan/built-words.ts';
import type { Jack } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { readLength, readWords, showLength } from '../controls/fields.tsx';
import type { Reading } from '../controls/typed-field.tsx';

const LENGTHS: readonly BuiltField[] = ['start', 'end', 'length'];
const isLength = (field: BuiltField): boolean => LENGTHS.includes(field);
export const isFigure = (field: BuiltField): boolean => isLength(field) || field === 'port';

/**
 * What goes into the record of a cable with the first that is typed for it: who and when, and the port that the schedule
 * names. The crew found that port printed, and the cables that are added later may not move what is patched to it.
 */
export const firstEntry = (
  { id, built }: Pick<Jack, 'id' | 'built'>,
  ports: ReadonlyMap<Id, number>,
  stamp: Partial<Built> = {},
): Partial<Built> => (built === null ? { ...stamp, port: ports.get(id) ?? null } : {});

/** What holds while nothing is recorded, in brackets, so that nobody takes it for recorded. */
export const followsWords = (mm: number | null, units: Units): string =>
  mm === null ? '' : `(${showLength(mm, units)})`;

/** What the marks say against the length that was typed; empty where they say nothing else. */
export function doubtWords(built: Built | null, units: Units): string {
  const marks = marksAgainst(built);
  return marks === null ? '' : t('built.against', { marks: showLength(marks, units) });
}

/** How a field of the record is written. */
export function showBuilt(field: BuiltField, value: BuiltValue, units: Units): string {
  if (value === null) return '';
  if (field === 'test') return t(value === 'pass' ? 'built.pass' : 'built.fail');
  return isLength(field) ? showLength(value as number, units) : String(value);
}

/** Why a field of the record is not understood. */
const WRONG = {
  test: () => t('built.test-wrong'),
  on: () => t('built.day-wrong'),
  port: () => t('field.whole.wrong', { min: 1, max: 10_000 }),
} as const;

/** Reads what was typed into a field of the record; an empty one is not recorded. */
export function readBuilt(field: BuiltField, text: string, units: Units): Reading<BuiltValue> {
  if (field === 'by' || field === 'remark') return readWords(text);
  const value = parseBuilt(field, text, units);
  if (value !== undefined) return { value };
  return field === 'start' || field === 'end' || field === 'length'
    ? readLength(text, units, 0, FAR)
    : { why: WRONG[field]() };
}
