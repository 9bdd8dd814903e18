import { type ReactNode, useId } from 'react';

export interface Option<V extends string> {
  readonly value: V;
  readonly label: string;
  /** What is drawn in its place where room is short; the label is still its name. */
  readonly short?: ReactNode;
}

interface Choice<V extends string> {
  readonly label: string;
  readonly value: V;
  readonly options: readonly Option<V>[];
  onChoose(value: V): void;
}

/** One of many, from a list that opens. */
export function SelectField<V extends string>({
  label,
  value,
  options,
  onChoose,
  quiet,
}: Choice<V> & { quiet?: boolean }) {
  const id = useId();
  return (
    <div className={`field field-choice${quiet ? ' field-quiet' : ''}`}>
      <label htmlFor={id} className={quiet ? 'unseen' : 'field-label'}>
        {label}
      </label>
      <select
        id={id}
        className="field-input"
        value={value}
        onChange={(event) => onChoose(event.currentTarget.value as V)}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </div>
  );
}

/** One of a few, all in sight. */
export function Segments<V extends string>({
  label,
  value,
  options,
  onChoose,
  quiet,
}: Choice<V> & { quiet?: boolean }) {
  const name = useId();
  return (
    <fieldset className={`segments-field${quiet ? ' segments-quiet' : ''}`}>
      <legend className="unseen">{label}</legend>
      {quiet ? null : (
        <span className="field-label" aria-hidden="true">
          {label}
        </span>
      )}
      <div className="segments">
        {options.map((option) => (
          <label
            key={option.value}
            className="segment"
            title={option.short ? option.label : undefined}
          >
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={option.value === value}
              aria-label={option.short ? option.label : undefined}
              onChange={() => onChoose(option.value)}
            />
            <span>{option.short ?? option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

export function CheckField({
  label,
  checked,
  onChange,
  hint,
}: {
  label: string;
  checked: boolean;
  onChange(checked: boolean): void;
  hint?: string;
}) {
  return (
    <label className="check">
      <input
        type="checkbox"
        checked={checked}
        onChange={(event) => onChange(event.currentTarget.checked)}
      />
      <span>
        {label}
        {hint ? <small>{hint}</small> : null}
      </span>
    </label>
  );
}
