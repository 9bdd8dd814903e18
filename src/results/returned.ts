import type { Message } from '../base/message.ts';
import type { BuiltRecord } from '../plan/commands/record.ts';

/** A cell of a list that came back which says something else than the plan. */
export interface ReturnedCell {
  readonly label: string;
  /** The column as it is headed in the list. */
  readonly column: string;
  /** What the list would say as the plan stands; empty where nothing is recorded. */
  readonly before: string;
  readonly after: string;
}

/** What a cable schedule that came back would record, and what in it is not understood. */
export interface ReturnedList {
  readonly records: readonly BuiltRecord[];
  readonly cells: readonly ReturnedCell[];
  readonly faults: readonly Message[];
}
