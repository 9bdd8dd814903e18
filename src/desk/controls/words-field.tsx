import { useEffect, useId, useState } from 'react';

/** Several lines of words; what was typed holds when the field is left. */
export function WordsField({
  label,
  value,
  onCommit,
}: {
  label: string;
  value: string;
  onCommit(text: string): void;
}) {
  const id = useId();
  const [text, setText] = useState(value);
  useEffect(() => setText(value), [value]);
  return (
    <div className="field field-words">
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        className="field-input"
        rows={3}
        maxLength={400}
        value={text}
        onChange={(event) => setText(event.currentTarget.value)}
        onBlur={() => text !== value && onCommit(text)}
      />
    </div>
  );
}
