import { useEffect } from 'react';

/**
 * Reads what is typed as soon as the page goes out of sight, as if its field was left: a phone may put the page away for
 * good while somebody is called off, and what stands in a field is kept nowhere.
 */
export function useTypedKept(): void {
  useEffect(() => {
    const leave = () => {
      const field = document.activeElement;
      const typing = field instanceof HTMLElement && field.matches('input, textarea');
      if (!typing || document.visibilityState !== 'hidden') return;
      field.blur();
      field.focus({ preventScroll: true });
    };
    document.addEventListener('visibilitychange', leave);
    return () => document.removeEventListener('visibilitychange', leave);
  }, []);
}
