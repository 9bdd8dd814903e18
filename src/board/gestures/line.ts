import { type Message, msg } from '../../base/message.ts';
import type { Mark } from '../../drawing/display.ts';
import type { Point } from '../../geometry/point.ts';
import type { SnapKind } from '../snap-targets.ts';
import type { Tool, ToolContext, ToolEffect } from '../tools/tool.ts';
import { dragged, FIRM, lengthTag, ring, samePlace, towards, unitsOf } from './marks.ts';

/** A line from one place to another; `done` while it is shown after its end. */
export interface LineState {
  readonly a: Point | null;
  readonly to: Point | null;
  readonly press: { readonly raw: Point; readonly first: boolean } | null;
  readonly done: boolean;
}

const START: LineState = { a: null, to: null, press: null, done: false };

export interface LineParts {
  readonly id: string;
  readonly label: Message;
  readonly key: string;
  readonly snaps: readonly SnapKind[];
  readonly hint: Message;
  /** Whether the line stays on the board until the next one. */
  readonly stays: boolean;
  /** Whether its length says something: along a picture without a scale it does not. */
  readonly measured: boolean;
  end(a: Point, b: Point, context: ToolContext): readonly ToolEffect[];
}

type Step = readonly [LineState, readonly ToolEffect[]];

/** One straight line: by a drag, or by a click at each end. */
export function lineTool(parts: LineParts): Tool<LineState> {
  const finish = (state: LineState, to: Point, context: ToolContext): Step => {
    if (!state.a || samePlace(state.a, to)) return [{ ...state, press: null }, []];
    const effects = parts.end(state.a, to, context);
    return [parts.stays ? { a: state.a, to, press: null, done: true } : START, effects];
  };

  return {
    id: parts.id,
    label: parts.label,
    key: parts.key,
    cursor: 'crosshair',
    start: START,
    next(state, event, context) {
      switch (event.type) {
        case 'press': {
          const first = state.a === null || state.done;
          const a = first ? event.at : state.a;
          return [{ a, to: event.at, press: { raw: event.raw, first }, done: false }, []];
        }
        case 'move':
          return state.a && !state.done ? [{ ...state, to: event.at }, []] : [state, []];
        case 'release': {
          if (!state.a || !state.press) return [state, []];
          const moved = dragged(state.press.raw, event.raw, context, event.touch);
          if (state.press.first && !moved) return [{ ...state, to: event.at, press: null }, []];
          return finish(state, event.at, context);
        }
        case 'key':
          if (event.key !== 'Enter' || !state.a || !state.to || state.done) return [state, []];
          return finish(state, state.to, context);
        case 'length':
          if (!state.a || state.done || !parts.measured) return [state, []];
          return finish(
            state,
            towards(state.a, state.to ?? state.a, event.mm, event.angle),
            context,
          );
        case 'abandon':
          return [state.press?.first || !state.a ? START : { ...state, press: null }, []];
        case 'cancel':
          return [START, []];
        case 'double':
          return [state, []];
      }
    },
    overlay: (state, context) => lineMarks(parts, state, context),
    over: ({ done }) => done,
    anchor: (state) => (state.done ? null : state.a),
    ...(parts.measured ? {} : { lengths: false as const }),
    snaps: () => parts.snaps,
    hint: (state) => (state.a && !state.done ? msg('Click the other end.') : parts.hint),
  };
}

/** Short bars across the ends, as on a dimension line. */
const endBar = (at: Point, a: Point, b: Point): Mark => {
  const d = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  const n: Point = [(-(b[1] - a[1]) / d) * 1.6, ((b[0] - a[0]) / d) * 1.6];
  return {
    op: 'symbol',
    at,
    marks: [{ op: 'line', points: [[-n[0], -n[1]], n], style: FIRM }],
  };
};

function lineMarks(parts: LineParts, { a, to }: LineState, context: ToolContext): Mark[] {
  if (!a) return [];
  if (!to || samePlace(a, to)) return [ring(a)];
  return [
    { op: 'line', points: [a, to], style: FIRM },
    endBar(a, a, to),
    endBar(to, a, to),
    ...(parts.measured ? lengthTag(a, to, unitsOf(context)) : []),
  ];
}
