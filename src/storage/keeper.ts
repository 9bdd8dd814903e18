import { type Message, msg } from '../base/message.ts';
import type { History } from '../plan/history.ts';
import type { JournalPort } from '../ports/ports.ts';
import { TakenOver } from './journal-store.ts';

/** How the journal stands with what is on the screen. */
export type KeepState =
  | { readonly state: 'saving' | 'saved' }
  | { readonly state: 'failed'; readonly why: Message }
  /** Another tab writes the journal now; nothing more is kept from here. */
  | { readonly state: 'taken' };

export interface Keeper {
  /** Takes note of the newest state; states that come while one is being written are written together. */
  keep(history: History): void;
  /** Resolves when everything is written or has failed. */
  settled(): Promise<void>;
}

/** Why something could not be kept, in words that say what to do. */
export function keepTrouble(error: unknown): Message {
  if (error instanceof Error && error.name === 'QuotaExceededError')
    return msg(
      'There is no room left on this device to keep the job. Save it as a file now, then free some room.',
    );
  return msg('The last steps are not kept on this device ({reason}). Save the job as a file now.', {
    reason: error instanceof Error ? error.message : String(error),
  });
}

/** Writes every committed state through a journal, one at a time. What fails is written with the next state. */
export function createKeeper(
  journal: JournalPort,
  start: History,
  tell: (state: KeepState) => void,
): Keeper {
  /** What is surely kept; null after a failure, when nobody knows. */
  let kept: History | null = start;
  let wanted = start;
  let taken = false;
  let running: Promise<void> | null = null;

  async function attempt(target: History): Promise<void> {
    try {
      await journal.record(target);
      kept = target;
      if (wanted === target) tell({ state: 'saved' });
    } catch (error) {
      kept = null;
      taken = error instanceof TakenOver;
      if (taken) tell({ state: 'taken' });
      else if (wanted === target) tell({ state: 'failed', why: keepTrouble(error) });
    }
  }

  async function run(): Promise<void> {
    tell({ state: 'saving' });
    let target: History;
    do {
      target = wanted;
      await attempt(target);
    } while (wanted !== target && !taken);
    running = null;
  }

  return {
    keep(history) {
      wanted = history;
      if (taken || running || history === kept) return;
      running = run();
    },
    settled: () => running ?? Promise.resolve(),
  };
}
