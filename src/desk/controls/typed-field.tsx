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
  /** It stands for several values that differ: what is typed is kept even where it reads like the one that is shown. */
  readonly mixed?: boolean | undefined;
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

/** What leaving a field means for what was typed in it: a value to keep, why it is none, or that nothing is changed. */
export function leaving<T>(
  text: string,
  { value, show, read, mixed }: Pick<TypedFieldProps<T>, 'value' | 'show' | 'read' | 'mixed'>,
): Reading<T> | { readonly same: true } {
  const same = !mixed && text.trim() === show(value).trim();
  const reading = same ? { value } : read(text);
  return 'value' in reading && reading.value === value && !mixed ? { same: true } : reading;
}

/** What is typed into a field, and what becomes of it. */
export function useTyped<T>({
  value,
  show,
  read,
  onCommit,
  mixed,
}: Pick<TypedFieldProps<T>, 'value' | 'show' | 'read' | 'onCommit' | 'mixed'>) {
  const [text, setText] = useState<string | null>(null);
  const [why, setWhy] = useState<string | null>(null);
  const drop = () => {
    setText(null);
    setWhy(null);
  };
  const leave = () => {
    if (text === null) return;
    const left = leaving(text, { value, show, read, mixed });
    if ('why' in left) return setWhy(left.why);
    drop();
    if ('value' in left) onCommit(left.value);
  };
  const key = (event: KeyboardEvent) => {
    if (event.key === 'Enter') {
      event.preventDefault();
      leave();
    }
    // A field of several values looks empty: taking away what is not there empties all of them.
    if (mixed && text === null && (event.key === 'Backspace' || event.key === 'Delete'))
      setText('');
    if (event.key === 'Escape' && text !== null) {
      event.stopPropagation();
      drop();
    }
  };
  return { text, why, type: setText, leave, key };
}
