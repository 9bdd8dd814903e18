import { type ReactNode, useEffect, useId, useRef } from 'react';
import { createRoot } from 'react-dom/client';
import { t } from '../../text/index.ts';
import { ICONS } from '../controls/icons.tsx';
import { IconButton } from '../controls/parts.tsx';
import { type Seen, useSeen } from '../seen.ts';
import { AIR, clearOf, type ScreenLine } from './clear-of.ts';

/** A dialog over everything; the browser keeps the focus inside and gives it back. Escape means to think better of it. */
export function Dialog({
  title,
  wide,
  along,
  onShut,
  children,
}: {
  title: string;
  wide?: boolean;
  /** A line on the screen that it is about: it is shown, and the dialog stands where it does not cover it. */
  along?: ScreenLine;
  onShut(): void;
  children: ReactNode;
}) {
  const box = useRef<HTMLDialogElement>(null);
  const id = useId();
  const seen = useSeen();
  useEffect(() => {
    const dialog = box.current;
    if (dialog && !dialog.open) dialog.showModal();
    // The browser would begin with the button that shuts; what the dialog asks for comes first.
    dialog?.querySelector<HTMLElement>('[data-first]')?.focus();
    return () => dialog?.close();
  }, []);
  // It stands over what a keyboard on the glass leaves free, and goes aside for its line as that moves.
  useEffect(() => {
    if (box.current) Object.assign(box.current.style, placed(box.current, seen, along));
  }, [seen, along]);
  return (
    <dialog
      ref={box}
      className={`dialog${wide ? ' dialog-wide' : ''}${along ? ' dialog-along' : ''}`}
      aria-labelledby={id}
      // The tap that asked comes once more as a press of the mouse, beside what it opened: the field keeps the focus.
      onMouseDown={(event) => {
        if (event.target === event.currentTarget) event.preventDefault();
      }}
      onCancel={(event) => {
        event.preventDefault();
        onShut();
      }}
    >
      <div className="dialog-head">
        <h2 id={id}>{title}</h2>
        <IconButton label={t('dialog.shut')} onClick={onShut}>
          {ICONS.close}
        </IconButton>
      </div>
      {children}
      {along ? <AlongLine line={along} /> : null}
    </dialog>
  );
}

/** Where a dialog stands: aside from its line, else where its style has it, as long as all of the page is seen. */
function placed(dialog: HTMLElement, seen: Seen, along?: ScreenLine): Partial<CSSStyleDeclaration> {
  const maxHeight = `${seen.height - 2 * AIR}px`;
  dialog.style.maxHeight = maxHeight;
  if (along) {
    const { left, top } = clearOf(along, dialog.getBoundingClientRect(), seen);
    return { maxHeight, margin: '0', left: `${left}px`, top: `${top}px` };
  }
  const whole = seen.height > innerHeight - AIR;
  return whole
    ? { maxHeight: '', top: '', margin: '' }
    : { maxHeight, top: `${seen.top + AIR}px`, margin: '0 auto' };
}

/** The line that a dialog is about, over the drawing, where it was drawn. */
const AlongLine = ({ line: [[x1, y1], [x2, y2]] }: { line: ScreenLine }) => (
  <svg className="along-line" aria-hidden="true">
    <line x1={x1} y1={y1} x2={x2} y2={y2} />
    <circle cx={x1} cy={y1} r="4" />
    <circle cx={x2} cy={y2} r="4" />
  </svg>
);

/**
 * Shows a dialog and waits for its answer. It stands in a root of its own, so that whoever has no part of the desk at
 * hand (the board, the app) can ask too.
 */
export function ask<T>(draw: (answer: (value: T) => void) => ReactNode): Promise<T> {
  const place = document.body.appendChild(document.createElement('div'));
  const root = createRoot(place);
  const before = document.activeElement;
  return new Promise<T>((resolve) => {
    root.render(
      draw((value) => {
        root.unmount();
        place.remove();
        if (before instanceof HTMLElement) before.focus();
        resolve(value);
      }),
    );
  });
}
