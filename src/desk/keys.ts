import { useEffect } from 'react';
import { useDesk } from './context.tsx';
import { openHelp } from './dialogs/open-help.tsx';

/** Whether a key belongs to what is being typed in. */
const typing = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.closest('input, textarea, select, dialog') !== null;

/** The keys of the desk: save and help. The board has its own, steps back and forth among them. */
export function useDeskKeys(): void {
  const { session, services, kinds } = useDesk();
  useEffect(() => {
    const key = (event: KeyboardEvent) => {
      if (event.defaultPrevented) return;
      const command = event.ctrlKey || event.metaKey;
      const letter = event.key.toLowerCase();
      if (command && letter === 's') {
        event.preventDefault();
        void services.saveFile();
        return;
      }
      if (typing(event.target)) return;
      if (event.key === '?') {
        event.preventDefault();
        openHelp(kinds, session);
      }
    };
    document.addEventListener('keydown', key);
    return () => document.removeEventListener('keydown', key);
  }, [session, services, kinds]);
}
