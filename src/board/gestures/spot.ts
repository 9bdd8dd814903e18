import { type Message, msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import type { Changes } from '../../plan/change.ts';
import type { SnapKind } from '../snap-targets.ts';
import type { Call, Tool, ToolContext, ToolEffect } from '../tools/tool.ts';
import { outcomeOf, previewOf, samePlace } from './marks.ts';

/** Whether a press runs; where the thing would go is the preview, which is part of the plan that is shown. */
export interface SpotState {
  readonly pressed: boolean;
}

const START: SpotState = { pressed: false };
const PRESSED: SpotState = { pressed: true };

export interface SpotParts {
  readonly id: string;
  readonly label: Message;
  readonly key: string;
  readonly snaps: readonly SnapKind[];
  readonly hint: Message;
  /** Whether one is all that is placed at a time. */
  readonly once: boolean;
  /** Where it goes for a snapped place and the pointer's own; the snapped place unless said otherwise. */
  settle?(at: Point, raw: Point, context: ToolContext): Point;
  /** What places one there; null where the tool has not been told what to place. */
  call(at: Point, context: ToolContext): Call | null;
}

type Row = { readonly at?: Point; readonly level?: string; readonly kind?: string };

/** Whether what would be placed stands already: the second click of a double click places nothing. */
function standsThere(changes: Changes, context: ToolContext): boolean {
  const added = changes.find((change) => change.before === null);
  const row = added?.after as Row | undefined;
  if (!added || !row?.at) return false;
  const rows = context.plan.tables[added.table].values() as Iterable<Row>;
  for (const other of rows)
    if (
      other.at &&
      samePlace(other.at, row.at) &&
      other.level === row.level &&
      other.kind === row.kind
    )
      return true;
  return false;
}

/** Places a thing with each click; while it moves, the plan is shown as it would be. */
export function spotTool(parts: SpotParts): Tool<SpotState> {
  const showAt = (at: Point, context: ToolContext): readonly ToolEffect[] => {
    const call = parts.call(at, context);
    return call ? [previewOf(call, context)] : [];
  };

  const placeAt = (at: Point, context: ToolContext): readonly ToolEffect[] => {
    const call = parts.call(at, context);
    if (!call) return [{ do: 'say', message: msg('Pick what to place from the shelf first.') }];
    const outcome = outcomeOf(call, context);
    if (outcome.ok && standsThere(outcome.changes, context)) return [];
    return [{ do: 'run', command: call }, ...(parts.once ? [{ do: 'done' } as const] : [])];
  };

  const settled = (event: { readonly at: Point; readonly raw: Point }, context: ToolContext) =>
    parts.settle?.(event.at, event.raw, context) ?? event.at;

  return {
    id: parts.id,
    label: parts.label,
    key: parts.key,
    cursor: 'crosshair',
    start: START,
    over: () => true,
    next(state, event, context) {
      switch (event.type) {
        case 'press':
          return [PRESSED, showAt(settled(event, context), context)];
        case 'move':
          return [state, showAt(settled(event, context), context)];
        case 'release':
          return state.pressed ? [START, placeAt(settled(event, context), context)] : [state, []];
        case 'abandon':
        case 'cancel':
          return [START, [{ do: 'preview', changes: null }]];
        default:
          return [state, []];
      }
    },
    overlay: () => [],
    anchor: () => null,
    snaps: () => parts.snaps,
    hint: () => parts.hint,
  };
}
