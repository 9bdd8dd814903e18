import { checksum } from './checksum.ts';

/**
 * One record of the journal. A step leans on the record before it (`link` is that one's sum), so that a record left
 * over from another past is never taken for the next step; a snapshot says which sum the next step leans on.
 */
export interface KeptRecord {
  readonly seq: number;
  readonly link: number;
  readonly text: string;
  readonly sum: number;
}

/** `steps`: what came since the record before. `snapshots`: the whole job after the step of the same number. */
export type Slot = 'steps' | 'snapshots';

/** Somebody else has taken the journal over; nothing was written. */
export class TakenOver extends Error {
  constructor() {
    super('the job was taken over by another tab');
    this.name = 'TakenOver';
  }
}

/**
 * What the journal asks of a disk. Each call is done wholly or not at all; after a failure nobody knows which.
 * Writing calls throw `TakenOver` when another owner has claimed since.
 */
export interface JournalStore {
  claim(owner: string): Promise<void>;
  readAll(slot: Slot): Promise<readonly KeptRecord[]>;
  read(slot: Slot, seq: number): Promise<KeptRecord | null>;
  /** Writes a record in place of the one with its number, if there is one. */
  write(owner: string, slot: Slot, record: KeptRecord): Promise<void>;
  /** Removes the records with numbers from `from` up to and with `to`. */
  remove(owner: string, slot: Slot, from: number, to: number): Promise<void>;
}

/** A record with its sum. */
export const seal = (seq: number, link: number, text: string): KeptRecord => ({
  seq,
  link,
  text,
  sum: checksum(`${seq} ${link} ${text}`),
});

/** Whether a record is as it was sealed. */
export const isWhole = (record: KeptRecord): boolean =>
  typeof record.text === 'string' &&
  record.sum === checksum(`${record.seq} ${record.link} ${record.text}`);
