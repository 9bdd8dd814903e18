import { useEffect, useId } from 'react';
import { type Built, NOT_BUILT } from '../../plan/built.ts';
import type { BuiltField, BuiltValue } from '../../plan/built-words.ts';
import { t } from '../../text/index.ts';
import { useUnits } from '../context.tsx';
import { useTyped } from '../controls/typed-field.tsx';
import { readBuilt, showBuilt } from './fields.ts';

/** A cell of the record to type in: it is read when it is left, and says in place what it does not understand. */
export function Cell({
  label,
  field,
  built,
  follows,
  doubt,
  onWrong,
  onCommit,
}: {
  label: string;
  field: BuiltField;
  built: Built | null;
  /** What stands there while nothing is recorded. */
  follows: string;
  /** What speaks against what is recorded; empty where nothing does. */
  doubt: string;
  /** Told whenever what stands in it comes to be understood or not. */
  onWrong(field: BuiltField, wrong: boolean): void;
  onCommit(field: BuiltField, value: BuiltValue): void;
}) {
  const units = useUnits();
  const id = useId();
  const value: BuiltValue = (built ?? NOT_BUILT)[field];
  const show = (of: BuiltValue) => showBuilt(field, of, units);
  const typed = useTyped<BuiltValue>({
    value,
    show,
    read: (text) => readBuilt(field, text, units),
    onCommit: (next) => onCommit(field, next),
  });
  const wrong = typed.why !== null;
  useEffect(() => {
    if (!wrong) return;
    onWrong(field, true);
    return () => onWrong(field, false);
  }, [wrong, field, onWrong]);
  const words = typed.why ?? doubt;
  return (
    <td>
      <input
        className={doubt === '' ? 'field-input' : 'field-input record-doubt'}
        data-field={field}
        aria-label={t('built.cell', { label, field: t(`built.${field}`) })}
        value={typed.text ?? show(value)}
        placeholder={follows}
        autoComplete="off"
        spellCheck={field === 'remark'}
        aria-invalid={wrong}
        aria-describedby={words === '' ? undefined : id}
        onChange={(event) => typed.type(event.currentTarget.value)}
        onBlur={typed.leave}
        onKeyDown={(event) => {
          // The dialog would shut on it; here it takes back what was typed.
          if (event.key === 'Escape' && typed.text !== null) event.preventDefault();
          typed.key(event);
        }}
      />
      {words === '' ? null : (
        <p id={id} className="field-why record-why">
          {words}
        </p>
      )}
    </td>
  );
}
