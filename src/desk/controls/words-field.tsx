import { useId } from 'react';
import { type Reading, useTyped } from './typed-field.tsx';

/** Several lines of words; what was typed holds when the field is left, where it can be read. */
export function WordsField({
  label,
  value,
  read,
  onCommit,
}: {
  label: string;
  value: string;
  read(text: string): Reading<string>;
  onCommit(text: string): void;
}) {
  const id = useId();
  const field = useTyped({ value, show: (text) => text, read, onCommit });
  return (
    <div className="field field-words">
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        className="field-input"
        rows={3}
        value={field.text ?? value}
        aria-invalid={field.why !== null}
        aria-describedby={field.why ? `${id}-words` : undefined}
        onChange={(event) => field.type(event.currentTarget.value)}
        onBlur={field.leave}
        // Enter begins another line.
        onKeyDown={(event) => event.key === 'Enter' || field.key(event)}
      />
      {field.why ? (
        <p id={`${id}-words`} className="field-why">
          {field.why}
        </p>
      ) : null}
    </div>
  );
}
