import type { Message } from '../base/message.ts';
import type { BuiltField, BuiltValue } from '../plan/built-words.ts';
import type { BuiltRecord } from '../plan/commands/record.ts';

/** A cell of a list that came back which says something else than the plan. */
export interface ReturnedCell {
  readonly label: string;
  /** The column as it is headed in the list. */
  readonly column: string;
  readonly field: BuiltField;
  /** What holds as the plan stands: as it is recorded, or else as it follows. */
  readonly before: BuiltValue;
  /** What the list says, as it is understood. */
  readonly after: BuiltValue;
}

/** What a cable schedule that came back would record, and what in it is not understood. */
export interface ReturnedList {
  readonly records: readonly BuiltRecord[];
  readonly cells: readonly ReturnedCell[];
  readonly faults: readonly Message[];
}
