import { msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import { dragged } from '../gestures/marks.ts';
import type { Tool } from './tool.ts';

interface PanState {
  /** The place that stays under the pointer. */
  readonly held: Point | null;
  /** Whether the pointer has gone far enough to mean a drag. */
  readonly drags: boolean;
}

const START: PanState = { held: null, drags: false };

/** Looks without changing anything: a drag moves the drawing, and a click picks what lies there. */
export const pan: Tool<PanState> = {
  id: 'pan',
  label: msg('Hand'),
  key: 'h',
  cursor: 'grab',
  start: START,
  next(state, event, context) {
    switch (event.type) {
      case 'press':
        return [{ held: event.raw, drags: false }, []];
      case 'move': {
        const { held } = state;
        if (!held) return [state, []];
        const drags = state.drags || dragged(held, event.raw, context, event.touch);
        const by: Point = [held[0] - event.raw[0], held[1] - event.raw[1]];
        return [{ held, drags }, drags ? [{ do: 'pan', by }] : []];
      }
      case 'release': {
        if (!state.held || state.drags) return [START, []];
        const [hit] = context.hit(event.raw, event.touch);
        return [START, [{ do: 'select', refs: hit ? [hit] : [] }]];
      }
      case 'abandon':
      case 'cancel':
        return [START, []];
      default:
        return [state, []];
    }
  },
  overlay: () => [],
  anchor: () => null,
  snaps: () => [],
  hint: () =>
    msg(
      'Drag to move the drawing, click to select; nothing else moves. Space or the middle button does the same with any tool.',
    ),
};
