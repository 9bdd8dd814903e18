import { type Message, msg, renderMessage } from '../base/message.ts';
import type { SessionApi } from '../board/session.ts';
import { type History, startHistory } from '../plan/history.ts';
import { emptyPlan } from '../plan/plan.ts';
import type { AssetPort, JournalPort } from '../ports/ports.ts';
import { assetsOfHistory, memoryAssets } from '../storage/assets.ts';
import { openDisk } from '../storage/disk.ts';
import { createJournal } from '../storage/journal.ts';
import type { JournalStore } from '../storage/journal-store.ts';
import { createKeeper, keepTrouble } from '../storage/keeper.ts';

/** The name under which the records of an unreadable job are handed over. */
export const UNREAD_FILE = 'unread-job.json';

/** What is there to work with: where pictures are kept, the job as it was left, and how to go on keeping it. */
export interface Kept {
  readonly assets: AssetPort;
  readonly history: History | null;
  /** Words about what was found, for a notice. */
  readonly found: Message | null;
  /** What was kept of a job that cannot be read, to be handed over before another job takes its place. */
  readonly unread: Blob | null;
  readonly journal: JournalPort | null;
}

/** Opens what this browser keeps. Where it keeps nothing, the job lives in this page alone, and a notice says so. */
export async function openKept(owner: string): Promise<Kept> {
  try {
    const disk = await openDisk();
    const journal = createJournal(disk.journal, owner);
    const loaded = await journal.load();
    const history = loaded?.history ?? null;
    if (history) await disk.assets.prune(assetsOfHistory(history)).catch(() => undefined);
    const unread = loaded && !history ? await recordsOf(disk.journal) : null;
    return { assets: disk.assets, history, found: wordsOf(loaded), unread, journal };
  } catch (error) {
    return {
      assets: memoryAssets(),
      history: null,
      found: shutOut(error),
      unread: null,
      journal: null,
    };
  }
}

/** Why nothing can be kept here. */
export function shutOut(error: unknown): Message {
  // The store was made by a program that came after this one: its job is still there.
  if (error instanceof Error && error.name === 'VersionError')
    return msg(
      'A job was kept on this device by a newer version of this program, and this one leaves it alone. Reload the page to get the newest version. What you do here now is not kept: save it as a file.',
    );
  const reason = error instanceof Error ? error.message : String(error);
  return msg(
    'This browser keeps nothing ({reason}). Save the job as a file before you shut the page.',
    { reason },
  );
}

/** Every record as it lies on the disk, for somebody who can make something of it. */
async function recordsOf(store: JournalStore): Promise<Blob> {
  const records = {
    snapshots: await store.readAll('snapshots'),
    steps: await store.readAll('steps'),
  };
  return new Blob([JSON.stringify(records)], { type: 'application/json' });
}

function wordsOf(loaded: Awaited<ReturnType<JournalPort['load']>>): Kept['found'] {
  if (!loaded || (loaded.history && loaded.lost === 0)) return null;
  if (!loaded.history)
    return msg(
      'The job that was kept on this device cannot be read: it is damaged, or another version kept it. All that was kept is handed to you as the file “{file}”: do not throw it away. Open the file that you saved last.',
      { file: UNREAD_FILE },
    );
  return msg(
    'The end of what was kept on this device was damaged. The job is here as it was {count} steps before its last one.',
    { count: loaded.lost },
  );
}

/** Keeps every committed step from now on, and shows how that stands. Resolves when the job is kept as it is now. */
export async function keepFrom(
  session: SessionApi,
  kept: Kept,
  taken: () => void,
): Promise<() => void> {
  const { actions } = session.getState();
  const { journal } = kept;
  if (!journal) {
    actions.set({ kept: { state: 'failed', at: null } });
    return () => undefined;
  }
  const start = session.getState().history;
  let said = '';
  const fail = (why: Message) => {
    actions.set({ kept: { state: 'failed', at: null } });
    const words = renderMessage(why, 'm');
    if (words !== said) actions.say(why, 'warning');
    said = words;
  };
  const isNew = start !== kept.history || kept.found !== null;
  let first: History | null = start;
  if (isNew)
    await journal.begin(start).catch((error) => {
      first = null;
      fail(keepTrouble(error));
    });
  const keeper = createKeeper(journal, first ?? startHistory(emptyPlan()), (now) => {
    if (now.state === 'taken') return taken();
    if (now.state === 'failed') return fail(now.why);
    said = '';
    const at = now.state === 'saved' ? Date.now() : session.getState().kept.at;
    actions.set({ kept: { state: now.state, at } });
  });
  let worked = false;
  const stop = session.subscribe((now, before) => {
    if (now.history === before.history) return;
    // A browser that asks its user is not to do so before any work is done here.
    if (!worked) askToStay();
    worked = true;
    keeper.keep(now.history);
  });
  keeper.keep(session.getState().history);
  return stop;
}

/** Asks the browser not to clear away what is kept here when it needs room. It may refuse. */
function askToStay(): void {
  navigator.storage?.persist?.().catch(() => undefined);
}
