import { useEffect, useSyncExternalStore } from 'react';

/** The part of the page that is seen, px from its upper left corner. */
export interface Seen {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

const same = (a: Seen, b: Seen): boolean =>
  a.left === b.left && a.top === b.top && a.width === b.width && a.height === b.height;

let last: Seen = { left: 0, top: 0, width: 0, height: 0 };

/** A keyboard on the glass covers a part of the page; of a page that somebody has enlarged all counts as seen. */
function seen(): Seen {
  const glass = window.visualViewport;
  const part = glass && glass.scale < 1.01;
  const now = part
    ? { left: glass.offsetLeft, top: glass.offsetTop, width: glass.width, height: glass.height }
    : { left: 0, top: 0, width: innerWidth, height: innerHeight };
  if (!same(now, last)) last = now;
  return last;
}

function watch(changed: () => void): () => void {
  const glass = window.visualViewport;
  const heard = [window, ...(glass ? [glass] : [])];
  for (const one of heard) one.addEventListener('resize', changed);
  glass?.addEventListener('scroll', changed);
  return () => {
    for (const one of heard) one.removeEventListener('resize', changed);
    glass?.removeEventListener('scroll', changed);
  };
}

/** What is seen of the page, now and as a keyboard on the glass comes and goes. */
export const useSeen = (): Seen => useSyncExternalStore(watch, seen);

/** Keeps the field that is typed into in sight while a keyboard on the glass takes room from the page. */
export function useFieldInSight(): void {
  const { height } = useSeen();
  // biome-ignore lint/correctness/useExhaustiveDependencies: less room is the reason to look
  useEffect(() => {
    const field = document.activeElement;
    if (field?.matches('input, textarea, select'))
      field.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [height]);
}
