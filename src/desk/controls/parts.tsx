import type { ButtonHTMLAttributes, ReactNode } from 'react';
import { tools } from '../../board/tools/index.ts';
import { areaInk } from '../../drawing/display.ts';
import { useActions, useSession } from '../context.tsx';
import { keyWords } from '../key-words.ts';
import { TOOL } from '../tool-ids.ts';

/** What stands at the end of a title. A word there is put anew when it changes: it would move, being set from the right. */
const Aside = ({ children }: { children: ReactNode }) =>
  children === undefined ? null : (
    <span key={String(children)} className="section-aside">
      {children}
    </span>
  );

/** A titled part of a panel. */
export function Section({
  title,
  aside,
  children,
}: {
  title: string;
  aside?: ReactNode;
  children: ReactNode;
}) {
  return (
    <section className="section">
      <header className="section-head">
        <h3>{title}</h3>
        <Aside>{aside}</Aside>
      </header>
      {children}
    </section>
  );
}

/** A part that stays shut until somebody wants it. */
export function Fold({
  title,
  aside,
  open,
  children,
}: {
  title: string;
  aside?: ReactNode;
  open?: boolean;
  children: ReactNode;
}) {
  return (
    <details className="fold" open={open}>
      <summary>
        <h3>{title}</h3>
        <Aside>{aside}</Aside>
      </summary>
      <div className="fold-body">{children}</div>
    </details>
  );
}

type ButtonProps = ButtonHTMLAttributes<HTMLButtonElement> & {
  readonly look?: 'plain' | 'main' | 'warn' | 'quiet' | undefined;
};

export function Button({ look = 'plain', className = '', ...rest }: ButtonProps) {
  return <button type="button" className={`button button-${look} ${className}`} {...rest} />;
}

/** A button that is a picture; its name is read out and shown as a hint. */
export function IconButton({
  label,
  children,
  className = '',
  ...rest
}: Omit<ButtonHTMLAttributes<HTMLButtonElement>, 'aria-label' | 'title'> & { label: string }) {
  return (
    <button
      type="button"
      className={`icon-button ${className}`}
      aria-label={label}
      title={label}
      {...rest}
    >
      {children}
    </button>
  );
}

/** A row of the shelf that takes a tool in hand, and puts it back when it is pressed again. */
export function ToolRow({
  tool,
  option,
  anyOption = false,
  picture,
  name,
  hint,
  toolKey,
  count,
}: {
  tool: string;
  option?: string;
  /** The row stands for the tool with whatever option it has. */
  anyOption?: boolean;
  picture: ReactNode;
  name: string;
  hint?: string;
  /** The key that picks just this; by itself the tool's own, where the row stands for all of the tool. */
  toolKey?: string;
  count?: number;
}) {
  const actions = useActions();
  const held = useSession((s) => s.tool === tool && (anyOption || s.toolOption === (option ?? '')));
  const keyed = toolKey ?? (option === undefined || anyOption ? tools.get(tool)?.key : undefined);
  // A key with Shift takes the room of a word: it stands after the hint, so that the name has its own.
  const shortKey = keyed?.length === 1;
  const key = keyed ? <span className="key">{keyWords(keyed)}</span> : null;
  return (
    <button
      type="button"
      className="tool-row"
      aria-pressed={held}
      aria-keyshortcuts={keyed || undefined}
      onClick={() => (held ? actions.pick(TOOL.select) : actions.pick(tool, option))}
    >
      <span className="tool-picture">{picture}</span>
      <span className="tool-words">
        <span className="tool-name">{name}</span>
        {count === undefined && !shortKey ? null : (
          <>
            <span className="tool-keys">{shortKey ? key : null}</span>
            <span className="tool-count">{count || null}</span>
          </>
        )}
        {hint ? (
          <span className="tool-hint">
            {hint} {shortKey ? null : key}
          </span>
        ) : null}
      </span>
    </button>
  );
}

/** The letter of a service area in its tint. */
export function AreaTag({ letter, large }: { letter: string; large?: boolean }) {
  const ink = areaInk(letter);
  return (
    <span
      className={`area-tag${large ? ' area-tag-large' : ''}`}
      style={{ background: `var(--ink-tint-${ink})`, color: `var(--ink-area-${ink})` }}
    >
      {letter}
    </span>
  );
}
