/**
 * Watches the space bar, with which any drag moves the view: it counts where the board has the focus, or nothing has.
 * Answers whether it is down; the element says so, too, for the cursor.
 */
export function watchSpace(element: HTMLElement, signal: AbortSignal): () => boolean {
  let down = false;
  const set = (next: boolean) => {
    down = next;
    element.dataset.space = String(next);
  };
  const press = (event: KeyboardEvent) => {
    const focused = document.activeElement;
    if (event.key !== ' ' || !(element.contains(focused) || focused === document.body)) return;
    event.preventDefault();
    set(true);
  };
  const release = (event: KeyboardEvent) => {
    if (event.key === ' ') set(false);
  };
  window.addEventListener('keydown', press, { signal });
  window.addEventListener('keyup', release, { signal });
  // A key that is let go of in another window is not heard here.
  window.addEventListener('blur', () => set(false), { signal });
  return () => down;
}
