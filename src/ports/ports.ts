import type { Transaction } from '../plan/change.ts';
import type { Plan } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';

/** A picture or a PDF that lies under the drawing: its bytes are kept apart from the plan, by their hash. */
export interface Asset {
  readonly hash: string;
  readonly name: string;
  /** `image/png`, `image/jpeg`, `application/pdf`, … */
  readonly type: string;
  readonly bytes: Uint8Array;
}

/** Where pictures are kept. */
export interface AssetPort {
  get(hash: string): Promise<Asset | null>;
  put(asset: Asset): Promise<void>;
}

/** What is found again when the page is opened: the plan, its steps and how far they are undone. */
export interface Saved {
  readonly plan: Plan;
  readonly steps: readonly Transaction[];
  /** Steps that are in force; those beyond can be redone. */
  readonly cursor: number;
  readonly savedAt: number;
}

/** The journal of the open job on this device. */
export interface JournalPort {
  load(): Promise<Saved | null>;
  /** Starts anew from a plan that was opened or begun. */
  begin(plan: Plan): Promise<void>;
  /** Appends a step; steps beyond `cursor - 1` are forgotten. Resolves when it is safely kept. */
  append(step: Transaction, cursor: number): Promise<void>;
  /** Notes an undo or a redo. */
  move(cursor: number): Promise<void>;
}

/** Computes surveys away from the screen; an answer that a newer question overtook is null. */
export interface SurveyPort {
  survey(plan: Plan): Promise<Survey | null>;
}
