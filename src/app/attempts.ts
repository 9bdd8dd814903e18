import { type Message, msg } from '../base/message.ts';
import type { SessionApi } from '../board/session.ts';
import { showProgress } from '../desk/index.tsx';
import { unforeseen } from './files.ts';
import type { Taking } from './pictures/take.ts';
import { Trouble } from './pictures/trouble.ts';

/** How something long shows how far it is, and learns that it is to stop. */
export type Steps = Pick<Taking, 'signal' | 'progress'>;

/** Ways of doing what may go wrong: whatever does is said in a notice, and the open job stays as it is. */
export interface Attempts {
  say(message: Message, tone?: 'warning'): void;
  /**
   * Does something that may go wrong, and says what is under way where it takes long.
   *
   * @param under null where it waits for the user, who knows
   * @returns null where it went wrong
   */
  attempt<T>(under: Message | null, act: () => Promise<T>): Promise<T | null>;
  /** Does something long that can be stopped, and shows how far it is. */
  along(words: string, act: (steps: Steps) => Promise<void>): Promise<void>;
}

/** How long something may take before a notice says that it is under way, ms. */
const SILENT = 500;

/** Attempts whose notices are those of a session. */
export function createAttempts(session: SessionApi): Attempts {
  const { actions } = session.getState();
  const say = (message: Message, tone?: 'warning') => actions.say(message, tone);
  const wrong = (error: unknown) =>
    say(error instanceof Trouble ? error.words : unforeseen(error), 'warning');

  /** Says something once it has taken long; the answer ends both. */
  function saySoon(under: Message): () => void {
    let notice: number | null = null;
    const timer = setTimeout(() => {
      say(under);
      notice = session.getState().notices.at(-1)?.id ?? null;
    }, SILENT);
    return () => {
      clearTimeout(timer);
      if (notice !== null) actions.dismiss(notice);
    };
  }

  return {
    say,
    async attempt(under, act) {
      const over = under && saySoon(under);
      try {
        return await act();
      } catch (error) {
        wrong(error);
        return null;
      } finally {
        over?.();
      }
    },
    async along(words, act) {
      const shown = showProgress(words, SILENT);
      try {
        await act(shown);
      } catch (error) {
        if (shown.signal.aborted) say(msg('Stopped. Nothing was changed.'));
        else wrong(error);
      } finally {
        shown.done();
      }
    },
  };
}
