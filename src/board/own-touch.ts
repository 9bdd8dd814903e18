/** Whatever a finger's drag means here, the browser has no part in it. */
const keep = (event: TouchEvent): void => {
  if (event.cancelable) event.preventDefault();
};

/**
 * Keeps a drag on an element from the browser. `touch-action: none` keeps it from scrolling, but Chromium counts a drag
 * that is lifted in motion as the throw of a page all the same, and takes the next tap, wherever it is, as what stops
 * the throw: the tap never becomes a click. A tap still does. Returns what gives the drags back.
 */
export function keepDrags(element: HTMLElement): () => void {
  element.addEventListener('touchmove', keep, { passive: false });
  return () => element.removeEventListener('touchmove', keep);
}
