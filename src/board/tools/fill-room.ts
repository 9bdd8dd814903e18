import { msg } from '../../base/message.ts';
import type { Mark } from '../../drawing/display.ts';
import type { Point } from '../../geometry/point.ts';
import { enclosureOn } from '../../plan/commands/draw.ts';
import { lengthTag, previewOf, ring, unitsOf } from '../gestures/marks.ts';
import type { Call, Tool, ToolContext, ToolEffect } from './tool.ts';

/** Whether a press runs, and the gaps that kept a room from closing when it was last asked for. */
interface FillState {
  readonly pressed: boolean;
  readonly leaks: readonly (readonly [Point, Point])[];
}

const START: FillState = { pressed: false, leaks: [] };

const callAt = ([x, y]: Point, { level }: ToolContext): Call => ({
  name: 'fill-room',
  args: { level, at: [Math.round(x), Math.round(y)] },
});

function fill(raw: Point, context: ToolContext): readonly [FillState, readonly ToolEffect[]] {
  const found = enclosureOn(context.plan, context.level, raw);
  const effects: ToolEffect[] = [{ do: 'run', command: callAt(raw, context) }];
  const leaks = found.closed ? [] : found.leaks;
  return [leaks.length === 0 ? START : { pressed: false, leaks }, effects];
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
        return [{ pressed: true, leaks: [] }, []];
      case 'move':
        return [state, [previewOf(callAt(event.raw, context), context)]];
      case 'release':
        return state.pressed ? fill(event.raw, context) : [state, []];
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
    leaks.length > 0
      ? msg('The walls leak where the line is dashed. Close the gap with a wall, then click again.')
      : msg(
          'Click inside walls that close round a place. Doorways up to 4 ft (1.2 m) count as closed.',
        ),
};
