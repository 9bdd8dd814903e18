import {
  createContext,
  type ReactNode,
  useContext,
  useEffect,
  useId,
  useRef,
  useState,
} from 'react';
import { shutElsewhere } from './elsewhere.ts';
import { ICONS } from './icons.tsx';

const Shut = createContext<() => void>(() => {});

/** A button with a list of actions or settings under it; Escape and a press elsewhere shut it. */
export function Drop({
  face,
  align = 'right',
  children,
}: {
  /** What the button shows; its words are its name as well. */
  face: ReactNode;
  align?: 'left' | 'right';
  children: ReactNode;
}) {
  const [open, setOpen] = useState(false);
  const box = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const id = useId();
  useEffect(() => {
    if (!open) return;
    return shutElsewhere(
      () => box.current,
      () => setOpen(false),
    );
  }, [open]);
  const shut = () => {
    setOpen(false);
    button.current?.focus();
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape anywhere inside shuts what is open
    <div
      className="drop"
      ref={box}
      onBlur={(event) => {
        // With a pointer the focus goes nowhere, and a press elsewhere has shut it already.
        const to = event.relatedTarget;
        if (to && !event.currentTarget.contains(to)) setOpen(false);
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !open) return;
        event.stopPropagation();
        shut();
      }}
    >
      <button
        ref={button}
        type="button"
        className="drop-button"
        aria-expanded={open}
        aria-controls={open ? id : undefined}
        onClick={() => setOpen(!open)}
      >
        {face}
        {ICONS.more}
      </button>
      {open ? (
        <div id={id} className={`drop-list drop-${align}`}>
          <Shut value={shut}>{children}</Shut>
        </div>
      ) : null}
    </div>
  );
}

/** An action in a drop; picking it shuts the drop. */
export function DropItem({
  onPick,
  keys,
  children,
}: {
  onPick(): void;
  keys?: string;
  children: ReactNode;
}) {
  const shut = useContext(Shut);
  return (
    <button
      type="button"
      className="drop-item"
      onClick={() => {
        shut();
        onPick();
      }}
    >
      <span>{children}</span>
      {keys ? <kbd>{keys}</kbd> : null}
    </button>
  );
}
