import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Asset, AssetPort } from '../ports/ports.ts';
import { type JournalStore, type KeptRecord, TakenOver } from './journal-store.ts';

interface Shape extends DBSchema {
  steps: { key: number; value: KeptRecord };
  snapshots: { key: number; value: KeptRecord };
  /** One row: who writes the journal. */
  owner: { key: string; value: string };
  assets: { key: string; value: Asset };
}

/** What this browser keeps for us. */
export interface Disk {
  readonly journal: JournalStore;
  readonly assets: AssetPort;
}

/** Opens the store of this browser. Rejects where there is none, as in some private windows. */
export async function openDisk(): Promise<Disk> {
  const db = await openDB<Shape>('dropwise', 1, {
    upgrade(fresh) {
      fresh.createObjectStore('steps', { keyPath: 'seq' });
      fresh.createObjectStore('snapshots', { keyPath: 'seq' });
      fresh.createObjectStore('owner');
      fresh.createObjectStore('assets', { keyPath: 'hash' });
    },
  });
  return { journal: journalOn(db), assets: assetsOn(db) };
}

/** Resolves only once the data is on the disk itself; on a busy disk that takes half a second. */
const STRICT = { durability: 'strict' } as const;
/**
 * Resolves once the system has the data: from then on it outlives the page and the browser, and a loss of power costs
 * the last seconds. Steps are written so, since those that wait behind a slow one would be lost with the page.
 */
const PROMPT = { durability: 'relaxed' } as const;

function journalOn(db: IDBPDatabase<Shape>): JournalStore {
  /** Writes in one stroke with the look at who owns the journal, so that a tab that lost it cannot write late. */
  async function asOwner(
    owner: string,
    slot: 'steps' | 'snapshots',
    work: (store: {
      put(record: KeptRecord): Promise<unknown>;
      delete(range: IDBKeyRange): Promise<unknown>;
    }) => Promise<unknown>,
  ): Promise<void> {
    const hold = slot === 'steps' ? PROMPT : STRICT;
    const stroke = db.transaction([slot, 'owner'], 'readwrite', hold);
    // Both are asked for at once: on a busy page every answer that is waited for takes its time.
    const holder = stroke.objectStore('owner').get('journal');
    const written = work(stroke.objectStore(slot));
    written.catch(() => undefined);
    if ((await holder) !== owner) {
      stroke.done.catch(() => undefined);
      stroke.abort();
      throw new TakenOver();
    }
    await Promise.all([written, stroke.done]);
  }
  return {
    claim: async (owner) => {
      const stroke = db.transaction('owner', 'readwrite', STRICT);
      await Promise.all([stroke.store.put(owner, 'journal'), stroke.done]);
    },
    readAll: (slot) => db.getAll(slot),
    read: async (slot, seq) => (await db.get(slot, seq)) ?? null,
    write: (owner, slot, record) => asOwner(owner, slot, (store) => store.put(record)),
    remove: (owner, slot, from, to) =>
      asOwner(owner, slot, async (store) => {
        if (from <= to) await store.delete(IDBKeyRange.bound(from, to));
      }),
  };
}

function assetsOn(db: IDBPDatabase<Shape>): AssetPort {
  return {
    get: async (hash) => (await db.get('assets', hash)) ?? null,
    put: async (asset) => {
      const stroke = db.transaction('assets', 'readwrite', STRICT);
      await Promise.all([stroke.store.put(asset), stroke.done]);
    },
    prune: async (wanted) => {
      const stroke = db.transaction('assets', 'readwrite');
      for (const hash of await stroke.store.getAllKeys())
        if (!wanted.has(hash)) await stroke.store.delete(hash);
      await stroke.done;
    },
  };
}
