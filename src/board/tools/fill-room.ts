import { msg } from '../../base/message.ts';
import type { Mark } from '../../drawing/display.ts';
import type { Point } from '../../geometry/point.ts';
import { arePassages, enclosureOn } from '../../plan/commands/draw.ts';
import { lengthTag, previewOf, ring, unitsOf } from '../gestures/marks.ts';
import { inArea } from './room.ts';
import type { Call, Tool, ToolContext, ToolEffect } from './tool.ts';

type Leaks = readonly (readonly [Point, Point])[];

/** Whether a press runs, and the gaps that kept a room from closing when it was last asked for. */
interface FillState {
  readonly pressed: boolean;
  readonly leaks: Leaks;
}

const START: FillState = { pressed: false, leaks: [] };

const callAt = ([x, y]: Point, { level, area }: ToolContext, passages = false): Call => ({
  name: 'fill-room',
  args: {
    level,
    at: [Math.round(x), Math.round(y)],
    ...(passages ? { passages } : {}),
    ...inArea(area),
  },
});

/** A first click shows where the walls leak; a second in the same room says that those are doorways. */
function fill(
  before: Leaks,
  raw: Point,
  context: ToolContext,
): readonly [FillState, readonly ToolEffect[]] {
  const found = enclosureOn(context.plan, context.level, raw);
  const leaks = found.closed ? [] : found.leaks;
  const again = arePassages(leaks) && String(leaks) === String(before);
  const effects: ToolEffect[] = [{ do: 'run', command: callAt(raw, context, again) }];
  return [leaks.length === 0 || again ? START : { pressed: false, leaks }, effects];
}

/** Draws a room where somebody clicks between walls that close round the place; shows where they do not. */
export const fillRoom: Tool<FillState> = {
  id: 'fill-room',
  label: msg('Room between walls'),
  key: 'y',
  cursor: 'crosshair',
  start: START,
  next(state, event, context) {
    switch (event.type) {
      case 'press':
        return [{ ...state, pressed: true }, []];
      case 'move':
        return [state, [previewOf(callAt(event.raw, context), context)]];
      case 'release':
        return state.pressed ? fill(state.leaks, event.raw, context) : [state, []];
      case 'abandon':
      case 'cancel':
        return [START, [{ do: 'preview', changes: null }]];
      default:
        return [state, []];
    }
  },
  overlay: ({ leaks }, context): readonly Mark[] =>
    leaks.flatMap(([a, b]): Mark[] => [
      { op: 'line', points: [a, b], style: { stroke: 'warn', width: 0.9, dash: [1.6, 1] } },
      ring(a),
      ring(b),
      ...lengthTag(a, b, unitsOf(context)),
    ]),
  anchor: () => null,
  snaps: () => [],
  hint: ({ leaks }) =>
    arePassages(leaks)
      ? msg(
          'The walls leak where the line is dashed. Click again to count that as a doorway, or close it with a wall.',
        )
      : leaks.length > 0
        ? msg(
            'The walls leak where the line is dashed. Close the gap with a wall, then click again.',
          )
        : msg(
            'Click inside walls that close round a place. Doorways up to 4 ft (1.2 m) count as closed.',
          ),
};
