import { useEffect } from 'react';

/**
 * Where what had the focus goes away, as a button does that removes its own row, the focus goes to the drawing. The
 * browser would begin again at the top of the page, and keys would be heard nowhere.
 */
export function useLostFocus(): void {
  useEffect(() => {
    let last: Element | null = null;
    const note = (event: FocusEvent) => {
      last = event.target as Element;
    };
    const gone = new MutationObserver(() => {
      if (!last || last.isConnected || document.activeElement !== document.body) return;
      last = null;
      if (document.querySelector('dialog[open]')) return;
      document
        .querySelector<HTMLElement>('#board [role="application"]')
        ?.focus({ preventScroll: true });
    });
    document.addEventListener('focusin', note);
    gone.observe(document.body, { childList: true, subtree: true });
    return () => {
      document.removeEventListener('focusin', note);
      gone.disconnect();
    };
  }, []);
}
