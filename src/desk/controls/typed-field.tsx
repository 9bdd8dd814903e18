import { type KeyboardEvent, type ReactNode, useId, useState } from 'react';

/** What was typed, read: a value, or why it is none. */
export type Reading<T> = { readonly value: T } | { readonly why: string };

export interface TypedFieldProps<T> {
  readonly label: string;
  readonly value: T;
  /** How the value is written. */
  show(value: T): string;
  read(text: string): Reading<T>;
  onCommit(value: T): void;
  /** A line below that stays. */
  readonly hint?: string | undefined;
  /** The label is for screen readers alone: a table already says it. */
  readonly quiet?: boolean | undefined;
  /** Letters read left to right; figures stand at the right. */
  readonly kind?: 'words' | 'figure' | undefined;
  readonly placeholder?: string | undefined;
  readonly mode?: 'text' | 'decimal' | 'numeric' | undefined;
  readonly after?: ReactNode;
}

/**
 * A field that takes what people type, reads it when they leave it or press Enter, and echoes it in the job's way of
 * writing. What cannot be read stays as it was typed, with a word beside it, and changes nothing.
 */
export function TypedField<T>(props: TypedFieldProps<T>) {
  const { label, value, show, hint, quiet, kind = 'figure', placeholder, mode } = props;
  const id = useId();
  const field = useTyped(props);
  const words = field.why ?? hint;
  return (
    <div className={`field field-${kind}${quiet ? ' field-quiet' : ''}`}>
      <label htmlFor={id} className={quiet ? 'unseen' : 'field-label'}>
        {label}
      </label>
      <input
        id={id}
        className="field-input"
        value={field.text ?? show(value)}
        placeholder={placeholder}
        inputMode={mode ?? 'text'}
        autoComplete="off"
        spellCheck={kind === 'words'}
        aria-invalid={field.why !== null}
        aria-describedby={words ? `${id}-words` : undefined}
        onChange={(event) => field.type(event.currentTarget.value)}
        onBlur={field.leave}
        onKeyDown={field.key}
      />
      {props.after}
      {words ? (
        <p id={`${id}-words`} className={field.why ? 'field-why' : 'field-hint'}>
          {words}
        </p>
      ) : null}
    </div>
  );
}

function useTyped<T>({ value, show, read, onCommit }: TypedFieldProps<T>) {
  const [text, setText] = useState<string | null>(null);
  const [why, setWhy] = useState<string | null>(null);
  const drop = () => {
    setText(null);
    setWhy(null);
  };
  const leave = () => {
    if (text === null) return;
    if (text.trim() === show(value).trim()) return drop();
    const reading = read(text);
    if ('why' in reading) return setWhy(reading.why);
    drop();
    if (reading.value !== value) onCommit(reading.value);
  };
  const key = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Enter') {
      event.preventDefault();
      leave();
    }
    if (event.key === 'Escape' && text !== null) {
      event.stopPropagation();
      drop();
    }
  };
  return { text, why, type: setText, leave, key };
}
