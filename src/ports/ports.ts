import type { History } from '../plan/history.ts';
import type { Plan } from '../plan/plan.ts';
import type { CeilingPlane } from '../results/ceiling-plane.ts';
import type { ClosetStudy, Survey } from '../results/types.ts';

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
  /** Forgets every picture that is not wanted. */
  prune(wanted: ReadonlySet<string>): Promise<void>;
}

/** A job as it was found on this device. */
export interface Kept {
  /** The job with its steps; null when what is there cannot be read at all. */
  readonly history: History | null;
  /** Steps at the end that were damaged and are dropped. */
  readonly lost: number;
}

/** The journal of the open job on this device: cut at any moment, it loads to the last whole step. */
export interface JournalPort {
  /** The job as it was left; null on a device that has none. */
  load(): Promise<Kept | null>;
  /** Starts anew from a job, in place of what was kept before. */
  begin(history: History): Promise<void>;
  /** Keeps what came since the last record: steps, undone and done again. Resolves when it is safely kept. */
  record(history: History): Promise<void>;
}

/** Computes surveys away from the screen. A question that a newer one overtakes while it waits is answered by null. */
export interface SurveyPort {
  survey(plan: Plan): Promise<Survey | null>;
  /** What one more closet would do; asked for by itself, and answered when no survey waits. */
  closets(plan: Plan): Promise<ClosetStudy>;
  /** What a cable may do overhead on each level; null when a newer question of the kind overtakes it while it waits. */
  ceilings(plan: Plan): Promise<readonly CeilingPlane[] | null>;
}
