/**
 * Shuts what lies open over the desk by a press elsewhere. A press on the drawing does no more than that: it neither picks
 * nor places what lies there. Returns what stops it.
 */
export function shutElsewhere(inside: () => Element | null, shut: () => void): () => void {
  const press = (event: PointerEvent) => {
    const { target } = event;
    if (!(target instanceof Element) || inside()?.contains(target)) return;
    if (target.closest('[role=application]')) event.stopPropagation();
    shut();
  };
  document.addEventListener('pointerdown', press, true);
  return () => document.removeEventListener('pointerdown', press, true);
}
