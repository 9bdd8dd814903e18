import { useId } from 'react';

/** A line to type in, with what was understood beside it, and under it a hint, or why it is not understood. */
export function TypedLine({
  label,
  unseen = false,
  first = false,
  text,
  example,
  usual = [],
  echo,
  hint,
  why,
  onType,
}: {
  label: string;
  /** The label is read out but not shown: what stands above says it. */
  unseen?: boolean;
  /** What the dialog begins with. */
  first?: boolean;
  text: string;
  example: string;
  /** Offered for choice. */
  usual?: readonly string[];
  echo: string;
  hint: string;
  why: string | null;
  onType(text: string): void;
}) {
  const id = useId();
  return (
    <>
      <label className={unseen ? 'unseen' : 'length-label'} htmlFor={id}>
        {label}
      </label>
      <div className="length-line">
        <input
          id={id}
          className="field-input length-input"
          data-first={first || undefined}
          autoComplete="off"
          list={usual.length > 0 ? `${id}-usual` : undefined}
          placeholder={example}
          value={text}
          aria-invalid={why !== null}
          aria-describedby={`${id}-words`}
          onChange={(event) => onType(event.currentTarget.value)}
        />
        {usual.length === 0 ? null : (
          <datalist id={`${id}-usual`}>
            {usual.map((value) => (
              <option key={value} value={value} />
            ))}
          </datalist>
        )}
        <output className="length-echo">{echo}</output>
      </div>
      <p id={`${id}-words`} className={why === null ? 'field-hint' : 'field-why'}>
        {why ?? hint}
      </p>
    </>
  );
}
