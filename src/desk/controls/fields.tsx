import {
  FAR,
  formatLength,
  formatMoney,
  hasTooManyInches,
  parseLength,
  type Units,
} from '../../base/units.ts';
import { parseMoney, parseWhole, t } from '../../text/index.ts';
import { useUnits } from '../context.tsx';
import { type Reading, TypedField } from './typed-field.tsx';

interface Common {
  readonly label: string;
  readonly mixed?: boolean | undefined;
  readonly hint?: string | undefined;
  readonly quiet?: boolean | undefined;
}

interface LengthProps extends Common {
  /** mm */
  readonly value: number;
  onCommit(mm: number): void;
  /** Least and most, mm; from 0 to as far as a plan reaches unless said. */
  readonly min?: number;
  readonly max?: number;
  /** Kept as typed; otherwise rounded to whole mm, as places and heights are stored. */
  readonly exact?: boolean;
}

/** Smallest fraction shown: a quarter inch keeps what people type; metric shows mm when they are not whole cm. */
export const showLength = (mm: number, units: Units): string =>
  formatLength(mm, units, units === 'm' && mm % 10 === 0 ? 1 : 4);

/** Reads a typed length between two bounds, to whole mm unless it is kept exact. */
export function readLength(
  text: string,
  units: Units,
  min = 0,
  max = FAR,
  exact = false,
): Reading<number> {
  const mm = parseLength(text, units);
  if (mm === null && hasTooManyInches(text, units)) return { why: t('field.length.inches') };
  if (mm === null)
    return { why: t(units === 'ft' ? 'field.length.wrong-ft' : 'field.length.wrong-m') };
  const whole = exact ? mm : Math.round(mm);
  if (whole < min) return { why: t('field.length.low', { min: showLength(min, units) }) };
  if (whole > max) {
    const inches = units === 'ft' && /^\s*\d+(\.\d+)?\s*$/.test(text);
    const key = inches ? 'field.length.high-inches' : 'field.length.high';
    return { why: t(key, { max: showLength(max, units), typed: text.trim() }) };
  }
  return { value: whole };
}

/** A length as people type it, in feet and inches or metric. */
export function LengthField({ value, onCommit, min, max, exact, ...common }: LengthProps) {
  const units = useUnits();
  return (
    <TypedField
      {...common}
      value={value}
      show={(mm) => showLength(mm, units)}
      read={(text) => readLength(text, units, min, max, exact)}
      onCommit={onCommit}
    />
  );
}

/** A length that may be left empty, for what follows from something else. */
export function OptionalLengthField({
  value,
  onCommit,
  follows,
  min,
  exact,
  ...common
}: Common & {
  value: number | null;
  onCommit(mm: number | null): void;
  follows: string;
  min?: number;
  exact?: boolean;
}) {
  const units = useUnits();
  return (
    <TypedField<number | null>
      {...common}
      value={value}
      placeholder={follows}
      show={(mm) => (mm === null ? '' : showLength(mm, units))}
      read={(text) =>
        text.trim() === '' ? { value: null } : readLength(text, units, min, FAR, exact)
      }
      onCommit={onCommit}
    />
  );
}

export function MoneyField({
  value,
  currency,
  onCommit,
  ...common
}: Common & { value: number; currency: string; onCommit(cents: number): void }) {
  return (
    <TypedField
      {...common}
      value={value}
      mode="decimal"
      show={(cents) => formatMoney(cents, currency)}
      read={(text) => {
        const cents = parseMoney(text, currency);
        return cents === null ? { why: t('field.money.wrong') } : { value: cents };
      }}
      onCommit={onCommit}
    />
  );
}

/** A whole number with its sign: percent, minutes, ports. */
export function WholeField({
  value,
  sign = '',
  min = 0,
  max,
  onCommit,
  ...common
}: Common & {
  value: number;
  sign?: '' | '%' | 'min';
  min?: number;
  max: number;
  onCommit(value: number): void;
}) {
  return (
    <TypedField
      {...common}
      value={value}
      mode="numeric"
      show={(n) => (sign === '' ? String(n) : `${n} ${sign}`)}
      read={(text) => {
        const n = parseWhole(text);
        return n === null || n < min || n > max
          ? { why: t('field.whole.wrong', { min, max }) }
          : { value: n };
      }}
      onCommit={onCommit}
    />
  );
}

/** A whole number that may be left empty, for what follows from something else. */
export function OptionalWholeField({
  value,
  sign,
  max,
  follows,
  onCommit,
  ...common
}: Common & {
  value: number | null;
  sign: '%' | 'min';
  max: number;
  follows: string;
  onCommit(value: number | null): void;
}) {
  return (
    <TypedField<number | null>
      {...common}
      value={value}
      mode="numeric"
      placeholder={follows}
      show={(n) => (n === null ? '' : `${n} ${sign}`)}
      read={(text) => {
        if (text.trim() === '') return { value: null };
        const n = parseWhole(text);
        return n === null || n > max
          ? { why: t('field.whole.wrong', { min: 0, max }) }
          : { value: n };
      }}
      onCommit={onCommit}
    />
  );
}

/** Reads words that a plan can hold. */
export const readWords = (text: string): Reading<string> =>
  text.trim().length > 400 ? { why: t('field.text.long') } : { value: text.trim() };

export function TextField({
  value,
  onCommit,
  placeholder,
  ...common
}: Common & { value: string; onCommit(text: string): void; placeholder?: string }) {
  return (
    <TypedField
      {...common}
      kind="words"
      value={value}
      placeholder={placeholder}
      show={(text) => text}
      read={readWords}
      onCommit={onCommit}
    />
  );
}
