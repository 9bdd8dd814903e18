import { type Message, msg } from '../../base/message.ts';
import type { Mark } from '../../drawing/display.ts';
import type { Point } from '../../geometry/point.ts';
import type { SnapKind } from '../snap.ts';
import type { Call, Tool, ToolContext, ToolEffect } from '../tools/tool.ts';
import { dragged, FIRM, lengthTag, ring, unitsOf } from './marks.ts';

/** A corner that stands, and the one across from it that moves. */
export interface RectangleState {
  readonly a: Point | null;
  readonly to: Point | null;
  /** Raw place of the press that runs, and whether it set the first corner. */
  readonly press: { readonly raw: Point; readonly first: boolean } | null;
  /** The first side, once it was typed. */
  readonly width: number | null;
}

const START: RectangleState = { a: null, to: null, press: null, width: null };

export interface RectangleParts {
  readonly id: string;
  readonly label: Message;
  readonly key: string;
  readonly options?: Tool['options'];
  readonly snaps: readonly SnapKind[];
  readonly hint: Message;
  call(outline: readonly Point[], context: ToolContext): Call;
}

type Step = readonly [RectangleState, readonly ToolEffect[]];

const turnOf = (context: ToolContext): readonly [number, number] => {
  const degrees = context.plan.tables.levels.get(context.level)?.frameAngle ?? 0;
  const angle = (degrees * Math.PI) / 180;
  return degrees === 0 ? [1, 0] : [Math.cos(angle), Math.sin(angle)];
};

/** Sides of the rectangle along the building lines, with sign. */
function sides(a: Point, to: Point, [c, s]: readonly [number, number]): [number, number] {
  const dx = to[0] - a[0];
  const dy = to[1] - a[1];
  return [dx * c + dy * s, dy * c - dx * s];
}

/** The four corners, clockwise from `a` where both sides are positive. */
function corners(a: Point, [w, h]: readonly [number, number], context: ToolContext): Point[] {
  const [c, s] = turnOf(context);
  const at = (x: number, y: number): Point => [
    Math.round(a[0] + x * c - y * s),
    Math.round(a[1] + x * s + y * c),
  ];
  return [at(0, 0), at(w, 0), at(w, h), at(0, h)];
}

const sign = (n: number): number => (n < 0 ? -1 : 1);

/** The sides as they are drawn: a typed width holds. */
function drawn(state: RectangleState, context: ToolContext): [number, number] {
  const [w, h] = sides(state.a!, state.to!, turnOf(context));
  return state.width === null ? [w, h] : [sign(w) * state.width, h];
}

/**
 * A rectangle along the building lines: by a drag, or by a click at each of two corners. Typed lengths set the first
 * side and then the second; `12 x 9` sets both.
 */
export function rectangleTool(parts: RectangleParts): Tool<RectangleState> {
  const finish = (
    state: RectangleState,
    size: readonly [number, number],
    context: ToolContext,
  ): Step => {
    if (Math.abs(size[0]) < 1 || Math.abs(size[1]) < 1) return [{ ...state, press: null }, []];
    const call = parts.call(corners(state.a!, size, context), context);
    return [START, [{ do: 'run', command: call }]];
  };

  const typed = (
    state: RectangleState,
    mm: number,
    second: number | undefined,
    context: ToolContext,
  ): Step => {
    if (!state.a) return [state, []];
    const [w, h] = sides(state.a, state.to ?? state.a, turnOf(context));
    if (second !== undefined) return finish(state, [sign(w) * mm, sign(h) * second], context);
    if (state.width === null) return [{ ...state, width: mm, press: null }, []];
    return finish(state, [sign(w) * state.width, sign(h) * mm], context);
  };

  return {
    id: parts.id,
    label: parts.label,
    key: parts.key,
    ...(parts.options ? { options: parts.options } : {}),
    cursor: 'crosshair',
    start: START,
    next(state, event, context) {
      switch (event.type) {
        case 'press': {
          const first = state.a === null;
          const a = state.a ?? event.at;
          return [{ ...state, a, to: event.at, press: { raw: event.raw, first } }, []];
        }
        case 'move':
          return state.a ? [{ ...state, to: event.at }, []] : [state, []];
        case 'release': {
          if (!state.a || !state.press) return [state, []];
          const moved = dragged(state.press.raw, event.raw, context, event.touch);
          const ended = { ...state, to: event.at, press: null };
          if (state.press.first && !moved) return [ended, []];
          return finish(ended, drawn(ended, context), context);
        }
        case 'key':
          if (event.key !== 'Enter' || !state.a || !state.to) return [state, []];
          return finish(state, drawn(state, context), context);
        case 'length':
          return typed(state, event.mm, event.second, context);
        case 'abandon':
          return [state.press?.first ? START : state.a ? { ...state, press: null } : START, []];
        case 'cancel':
          return [START, []];
        case 'double':
          return [state, []];
      }
    },
    overlay: (state, context) => rectangleMarks(state, context),
    anchor: (state) => state.a,
    snaps: () => parts.snaps,
    hint: (state) => {
      if (!state.a) return parts.hint;
      if (state.width !== null) return msg('Now the other side: click, or type its length.');
      return msg('Click the corner across, or type both sides, such as 12 x 9.');
    },
  };
}

function rectangleMarks(state: RectangleState, context: ToolContext): Mark[] {
  if (!state.a) return [];
  if (!state.to) return [ring(state.a)];
  const points = corners(state.a, drawn(state, context), context);
  const units = unitsOf(context);
  return [
    { op: 'line', closed: true, points, style: FIRM },
    ...lengthTag(points[0]!, points[1]!, units),
    ...lengthTag(points[1]!, points[2]!, units),
  ];
}
