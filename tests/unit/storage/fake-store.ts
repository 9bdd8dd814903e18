import {
  type JournalStore,
  type KeptRecord,
  type Slot,
  TakenOver,
} from '../../../src/storage/journal-store.ts';

/**
 * How an operation fails: before it does anything, after it has done everything, with part of the text written, or
 * so without a word.
 */
export type Fault = 'before' | 'after' | 'torn' | 'silent';

/** A disk in memory that can be told to fail at its nth operation, and to stay dead from then on. */
export class FakeStore implements JournalStore {
  readonly slots = {
    steps: new Map<number, KeptRecord>(),
    snapshots: new Map<number, KeptRecord>(),
  };
  owner = '';
  operations = 0;
  failAt = Number.POSITIVE_INFINITY;
  fault: Fault = 'before';
  /** Whether everything after the failure fails too, as when the page is gone. */
  dead = false;

  async #do<T>(work: () => T, torn: () => void = () => undefined): Promise<T> {
    await Promise.resolve();
    this.operations++;
    if (this.dead && this.operations > this.failAt) throw new Error('the disk is gone');
    if (this.operations !== this.failAt) return work();
    if (this.fault === 'after') work();
    if (this.fault === 'torn' || this.fault === 'silent') torn();
    if (this.fault === 'silent') return undefined as T;
    throw new Error(`operation ${this.operations} failed`);
  }

  #check(owner: string): void {
    if (owner !== this.owner) throw new TakenOver();
  }

  claim(owner: string): Promise<void> {
    return this.#do(() => {
      this.owner = owner;
    });
  }

  readAll(slot: Slot): Promise<readonly KeptRecord[]> {
    return this.#do(() => [...this.slots[slot].values()]);
  }

  read(slot: Slot, seq: number): Promise<KeptRecord | null> {
    return this.#do(() => this.slots[slot].get(seq) ?? null);
  }

  write(owner: string, slot: Slot, record: KeptRecord): Promise<void> {
    return this.#do(
      () => {
        this.#check(owner);
        this.slots[slot].set(record.seq, record);
      },
      () => this.slots[slot].set(record.seq, { ...record, text: record.text.slice(0, -5) }),
    );
  }

  remove(owner: string, slot: Slot, from: number, to: number): Promise<void> {
    return this.#do(() => {
      this.#check(owner);
      for (const seq of [...this.slots[slot].keys()])
        if (seq >= from && seq <= to) this.slots[slot].delete(seq);
    });
  }

  /** The same disk after the page is gone and opened again. */
  reopened(): FakeStore {
    const next = new FakeStore();
    for (const slot of ['steps', 'snapshots'] as const)
      for (const [seq, record] of this.slots[slot]) next.slots[slot].set(seq, record);
    return next;
  }
}
