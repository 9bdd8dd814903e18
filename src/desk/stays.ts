import { useEffect } from 'react';

/** How often the focus has gone to another place of the page. */
let stays = 0;

/** Counts the stays, from when the desk stands. */
export function useStays(): void {
  useEffect(() => {
    const moved = () => {
      stays += 1;
    };
    document.addEventListener('focusin', moved);
    return () => document.removeEventListener('focusin', moved);
  }, []);
}

/**
 * The merge key of a change that is made in a field: as long as somebody stays in it, and tries one value after another,
 * that is one gesture and one step. Another thing, another field, and the same one at another time are steps of their own.
 */
export const stayKey = (of: string, fields: Readonly<Record<string, unknown>>): string =>
  `stay ${stays} ${of} ${Object.keys(fields).sort().join()}`;
