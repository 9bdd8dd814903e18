import type { History } from '../plan/history.ts';
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

/** The journal of the open job on this device: cut at any moment, it loads to the last whole step. */
export interface JournalPort {
  /** The job as it was left, with its steps; null on a device that has none. */
  load(): Promise<History | null>;
  /** Starts anew from a job that was opened or begun. */
  begin(history: History): Promise<void>;
  /** Keeps what came from one state to the next: a step, an undo or a redo. Resolves when it is safely kept. */
  record(before: History, after: History): Promise<void>;
}

/** Computes surveys away from the screen; an answer that a newer question overtook is null. */
export interface SurveyPort {
  survey(plan: Plan): Promise<Survey | null>;
}
