import type { History } from '../plan/history.ts';
import type { JournalPort, Kept } from '../ports/ports.ts';
import {
  advance,
  advanceBetween,
  readAdvance,
  readHistory,
  writeAdvance,
  writeHistory,
} from './history-text.ts';
import { isWhole, type JournalStore, type KeptRecord, type Slot, seal } from './journal-store.ts';

/** Steps between two snapshots, unless the caller says otherwise. */
const SNAPSHOT_EVERY = 64;

/** Where the journal stands: the state that is kept, the number and sum of the last record, steps since a snapshot. */
interface Mark {
  readonly history: History;
  readonly seq: number;
  readonly link: number;
  readonly since: number;
}

const inOrder = (records: readonly KeptRecord[]): KeptRecord[] =>
  [...records].sort((a, b) => a.seq - b.seq);

/** The state in a snapshot; null when it is damaged or does not fit this version. */
function opened(snapshot: KeptRecord): Mark | null {
  if (!isWhole(snapshot)) return null;
  try {
    const { seq, link, text } = snapshot;
    return { history: readHistory(text), seq, link, since: 0 };
  } catch {
    return null;
  }
}

/** The state one step on; null when the record is damaged, is not the next one or does not start from this state. */
function stepped(mark: Mark, record: KeptRecord | undefined): Mark | null {
  if (!record || record.link !== mark.link || !isWhole(record)) return null;
  try {
    const history = advance(mark.history, readAdvance(record.text));
    return { history, seq: record.seq, link: record.sum, since: mark.since + 1 };
  } catch {
    return null;
  }
}

/**
 * The newest whole state: the newest snapshot that can be read, and every step after it up to the first that cannot.
 *
 * @returns null when no snapshot can be read
 */
export function restore(
  snapshots: readonly KeptRecord[],
  steps: readonly KeptRecord[],
): Mark | null {
  const bySeq = new Map(steps.map((record) => [record.seq, record]));
  for (const snapshot of inOrder(snapshots).reverse()) {
    let mark = opened(snapshot);
    if (!mark) continue;
    for (let next = stepped(mark, bySeq.get(mark.seq + 1)); next; ) {
      mark = next;
      next = stepped(mark, bySeq.get(mark.seq + 1));
    }
    return mark;
  }
  return null;
}

/**
 * The journal over a disk: a record for each step, a snapshot now and then. The last two snapshots are kept with the
 * steps since the older one, so that one damaged record never costs more than what came after it.
 *
 * Calls come one after another; each resolves when what it wrote has been read back.
 *
 * @param owner a name that no other tab has; who claims last owns the journal
 * @param every steps between two snapshots; a load replays at most twice as many
 */
export function createJournal(
  store: JournalStore,
  owner: string,
  every = SNAPSHOT_EVERY,
): JournalPort {
  let mark: Mark | null = null;
  let top = 0;

  async function write(slot: Slot, record: KeptRecord): Promise<void> {
    await store.write(owner, slot, record);
    const back = await store.read(slot, record.seq);
    if (!back || back.text !== record.text || !isWhole(back))
      throw new Error('what was written could not be read back');
  }

  /** Tidies up what no load needs any more; what a failure leaves behind only takes room. */
  async function removeUpTo(seq: number): Promise<void> {
    await store.remove(owner, 'snapshots', 0, seq - 1).catch(() => undefined);
    await store.remove(owner, 'steps', 0, seq).catch(() => undefined);
  }

  async function snapshot(at: Mark): Promise<void> {
    await write('snapshots', seal(at.seq, at.link, writeHistory(at.history)));
    mark = { ...at, since: 0 };
    const older = inOrder(await store.readAll('snapshots')).at(-2);
    if (older) await removeUpTo(older.seq);
  }

  async function begin(history: History): Promise<void> {
    // A number that no step has: an older snapshot can then never run on into this job.
    const seq = top + 1;
    const text = writeHistory(history);
    // Should this fail after all was written, no step of the earlier job may follow: the next record begins again.
    mark = null;
    await write('snapshots', seal(seq, seq, text));
    top = seq;
    mark = { history, seq, link: seq, since: 0 };
    await removeUpTo(seq);
  }

  return {
    async load(): Promise<Kept | null> {
      await store.claim(owner);
      const [snapshots, steps] = [await store.readAll('snapshots'), await store.readAll('steps')];
      top = Math.max(0, ...[...snapshots, ...steps].map((record) => record.seq));
      if (top === 0) return null;
      mark = restore(snapshots, steps);
      const end = mark?.seq ?? -1;
      const lost = [...snapshots, ...steps].filter((record) => record.seq > end).length;
      if (!mark) return { history: null, lost };
      return { history: mark.history, lost };
    },

    begin,

    async record(history: History): Promise<void> {
      const by = mark && advanceBetween(mark.history, history);
      if (!mark || !by) return begin(history);
      const record = seal(mark.seq + 1, mark.link, writeAdvance(by));
      await write('steps', record);
      top = Math.max(top, record.seq);
      mark = { history, seq: record.seq, link: record.sum, since: mark.since + 1 };
      if (mark.since < every) return;
      // The step is kept; a snapshot that fails is tried again with the next step.
      await snapshot(mark).catch(() => undefined);
    },
  };
}
