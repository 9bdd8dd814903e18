import { type ReactNode, useEffect, useId, useRef } from 'react';
import { createRoot } from 'react-dom/client';
import { t } from '../../text/index.ts';
import { ICONS } from '../controls/icons.tsx';
import { IconButton } from '../controls/parts.tsx';

/** A dialog over everything; the browser keeps the focus inside and gives it back. Escape means to think better of it. */
export function Dialog({
  title,
  wide,
  onShut,
  children,
}: {
  title: string;
  wide?: boolean;
  onShut(): void;
  children: ReactNode;
}) {
  const box = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const dialog = box.current;
    if (dialog && !dialog.open) dialog.showModal();
    // The browser would begin with the button that shuts; what the dialog asks for comes first.
    dialog?.querySelector<HTMLElement>('[data-first]')?.focus();
    return () => dialog?.close();
  }, []);
  return (
    <dialog
      ref={box}
      className={`dialog${wide ? ' dialog-wide' : ''}`}
      aria-labelledby={id}
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
    </dialog>
  );
}

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
