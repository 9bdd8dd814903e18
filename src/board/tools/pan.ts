import { msg } from '../../base/message.ts';
import type { Point } from '../../geometry/point.ts';
import type { Tool } from './tool.ts';

interface PanState {
  /** The place that stays under the pointer. */
  readonly held: Point | null;
}

const START: PanState = { held: null };

export const pan: Tool<PanState> = {
  id: 'pan',
  label: msg('Hand'),
  key: 'h',
  cursor: 'grab',
  start: START,
  next(state, event) {
    switch (event.type) {
      case 'press':
        return [{ held: event.raw }, []];
      case 'move':
        if (!state.held) return [state, []];
        return [
          state,
          [{ do: 'pan', by: [state.held[0] - event.raw[0], state.held[1] - event.raw[1]] }],
        ];
      case 'release':
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
  hint: () => msg('Drag the drawing. Space or the middle button does the same with any tool.'),
};
