import { msg } from '../../base/message.ts';
import type { Mark } from '../../drawing/display.ts';
import { dimensionLine } from '../../drawing/opening-marks.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import {
  FIRM,
  LOOSE,
  lengthTag,
  previewOf,
  ring,
  samePlace,
  towards,
  unitsOf,
} from '../gestures/marks.ts';
import type { Call, PointerStep, Tool, ToolContext, ToolEffect } from './tool.ts';

/** Two places that are measured, and where the pointer is, which says how far aside the line goes. */
interface DimensionState {
  readonly a: Point | null;
  readonly b: Point | null;
  readonly to: Point | null;
  readonly pressed: boolean;
}

const START: DimensionState = { a: null, b: null, to: null, pressed: false };

/** How far the pointer lies to the left of the way from a to b, mm. */
function asideOf(a: Point, b: Point, p: Point): number {
  const length = distance(a, b) || 1;
  return Math.round(((p[0] - a[0]) * (b[1] - a[1]) - (p[1] - a[1]) * (b[0] - a[0])) / length);
}

function callOf({ a, b, to }: DimensionState, { level }: ToolContext): Call | null {
  if (!a || !b) return null;
  return {
    name: 'draw-dimension',
    args: { level, a, b, ...(to ? { aside: asideOf(a, b, to) } : {}) },
  };
}

type Step = readonly [DimensionState, readonly ToolEffect[]];

function set(state: DimensionState, at: Point, context: ToolContext): Step {
  if (!state.a) return [{ ...START, a: at, to: at }, []];
  if (!state.b)
    return samePlace(state.a, at)
      ? [{ ...state, pressed: false }, []]
      : [{ ...state, b: at, to: at, pressed: false }, []];
  const call = callOf({ ...state, to: at }, context);
  return [START, call ? [{ do: 'run', command: call }] : []];
}

function moved(state: DimensionState, { at, raw }: PointerStep, context: ToolContext): Step {
  if (!state.a) return [state, []];
  const next = { ...state, to: state.b ? raw : at };
  const call = callOf(next, context);
  return [next, call ? [previewOf(call, context)] : []];
}

/** A dimension line: its two places, and a third click for how far aside it stands. */
export const dimension: Tool<DimensionState> = {
  id: 'dimension',
  label: msg('Dimension line'),
  key: 'z',
  cursor: 'crosshair',
  start: START,
  next(state, event, context) {
    switch (event.type) {
      case 'press':
        return [{ ...state, pressed: true }, []];
      case 'move':
        return moved(state, event, context);
      case 'release':
        if (!state.pressed) return [state, []];
        return set({ ...state, pressed: false }, state.b ? event.raw : event.at, context);
      case 'key':
        if (event.key !== 'Enter' || !state.b || !state.to) return [state, []];
        return set(state, state.to, context);
      case 'length': {
        if (!state.a) return [state, []];
        if (!state.b)
          return set(state, towards(state.a, state.to ?? state.a, event.mm, event.angle), context);
        const left = state.to !== null && asideOf(state.a, state.b, state.to) < 0 ? -1 : 1;
        const args = { level: context.level, a: state.a, b: state.b, aside: left * event.mm };
        return [START, [{ do: 'run', command: { name: 'draw-dimension', args } }]];
      }
      case 'abandon':
        return [{ ...state, pressed: false }, []];
      case 'cancel':
        return [START, [{ do: 'preview', changes: null }]];
      default:
        return [state, []];
    }
  },
  overlay({ a, b, to }, context): readonly Mark[] {
    if (!a) return [];
    if (b) {
      const row = { id: '', level: '', a, b, aside: to ? asideOf(a, b, to) : 0, locked: false };
      return [{ op: 'line', points: dimensionLine(row), style: LOOSE }, ring(a), ring(b)];
    }
    if (!to || samePlace(a, to)) return [ring(a)];
    return [{ op: 'line', points: [a, to], style: FIRM }, ...lengthTag(a, to, unitsOf(context))];
  },
  anchor: ({ a, b }) => b ?? a,
  snaps: ({ b }) =>
    b
      ? []
      : [
          'grid',
          'end',
          'middle',
          'place',
          'face',
          'centre',
          'edge',
          'right-angle',
          'perpendicular',
          'under-end',
          'under-line',
        ],
  hint: ({ a, b }) => {
    if (!a) return msg('Click one end of what you measure.');
    if (!b) return msg('Click the other end.');
    return msg('Click where the line goes, or type how far aside it stands.');
  },
};
