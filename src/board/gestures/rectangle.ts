import { type Message, msg } from '../../base/message.ts';
import type { Mark } from '../../drawing/display.ts';
import type { Point } from '../../geometry/point.ts';
import type { SnapKind } from '../snap-targets.ts';
import type { Call, Tool, ToolContext, ToolEffect, ToolEvent } from '../tools/tool.ts';
import { dragged, FIRM, lengthTag, ring, unitsOf } from './marks.ts';

/** A corner that stands, and the one across from it that moves. */
export interface RectangleState {
  readonly a: Point | null;
  readonly to: Point | null;
  /** Raw place of the press that runs, and whether it set the first corner. */
  readonly press: { readonly raw: Point; readonly first: boolean } | null;
  /** The sides that were typed: along the first building line and along the other; below zero against them. */
  readonly typed: readonly [number | null, number | null];
}

const START: RectangleState = { a: null, to: null, press: null, typed: [null, null] };

export interface RectangleParts {
  readonly id: string;
  readonly label: Message;
  readonly key: string;
  readonly options?: Tool['options'];
  readonly snaps: readonly SnapKind[];
  readonly hint: Message;
  /** `typed`: both sides were typed. */
  call(outline: readonly Point[], context: ToolContext, typed: boolean): Call;
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

/** The sides as they are drawn: a typed one holds. */
function drawn(state: RectangleState, context: ToolContext): [number, number] {
  const [w, h] = sides(state.a!, state.to!, turnOf(context));
  return [state.typed[0] ?? w, state.typed[1] ?? h];
}

/** Which side a direction is along, and which way; null where none was said. */
function wayOf(angle: number | undefined, context: ToolContext): readonly [0 | 1, 1 | -1] | null {
  if (angle === undefined) return null;
  const turn =
    ((angle - (context.plan.tables.levels.get(context.level)?.frameAngle ?? 0)) * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return Math.abs(c) >= Math.abs(s) ? [0, c < 0 ? -1 : 1] : [1, s < 0 ? -1 : 1];
}

/**
 * A rectangle along the building lines: by a drag, or by a click at each of two corners. Typed lengths set the first
 * side and then the second; `12 x 9` sets both. A direction says along which line a length lies and which way.
 */
export function rectangleTool(parts: RectangleParts): Tool<RectangleState> {
  const finish = (
    state: RectangleState,
    size: readonly [number, number],
    context: ToolContext,
    typed = false,
  ): Step => {
    if (Math.abs(size[0]) < 1 || Math.abs(size[1]) < 1) return [{ ...state, press: null }, []];
    const outline = corners(state.a!, size, context);
    const call = parts.call(outline, context, typed);
    return [
      START,
      [
        { do: 'run', command: call },
        { do: 'stand', at: outline[1]! },
      ],
    ];
  };

  const typed = (
    state: RectangleState,
    { mm, second, angle }: Extract<ToolEvent, { type: 'length' }>,
    context: ToolContext,
  ): Step => {
    if (!state.a) return [state, []];
    const way = wayOf(angle, context);
    const by = sides(state.a, state.to ?? state.a, turnOf(context)).map(sign) as [number, number];
    if (way) by[way[0]] = way[1];
    if (second !== undefined) return finish(state, [by[0] * mm, by[1] * second], context, true);
    const [w, h] = state.typed;
    const side = way?.[0] ?? (w === null ? 0 : 1);
    const typed = side === 0 ? ([by[0] * mm, h] as const) : ([w, by[1] * mm] as const);
    if (typed[0] === null || typed[1] === null) return [{ ...state, typed, press: null }, []];
    return finish(state, [typed[0], typed[1]], context, true);
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
          return typed(state, event, context);
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
    typedFirst: true,
    snaps: () => parts.snaps,
    hint: (state) => {
      if (!state.a) return parts.hint;
      if (state.typed.some((side) => side !== null))
        return msg('Now the other side: click, or type its length.');
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
