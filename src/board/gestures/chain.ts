import { type Message, msg } from '../../base/message.ts';
import type { Mark } from '../../drawing/display.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import type { SnapKind } from '../snap-targets.ts';
import type { Call, PointerStep, Tool, ToolContext, ToolEffect } from '../tools/tool.ts';
import {
  CLICK,
  dragged,
  FIRM,
  LOOSE,
  lengthTag,
  ring,
  samePlace,
  TAP,
  towards,
  unitsOf,
} from './marks.ts';

/** Points that were clicked, and where the next one would be. */
export interface ChainState {
  readonly points: readonly Point[];
  readonly to: Point | null;
  /** The press that runs: its raw place, and its place. */
  readonly press: { readonly raw: Point; readonly at: Point } | null;
}

const START: ChainState = { points: [], to: null, press: null };

export interface ChainParts {
  readonly id: string;
  readonly label: Message;
  readonly key: string;
  readonly options?: Tool['options'];
  readonly snaps: readonly SnapKind[];
  readonly hint: Message;
  /** Fewest points that make something. */
  readonly least: number;
  /** Whether clicking the first point closes it, and whether the drawing is always closed. */
  readonly closes: 'never' | 'may' | 'always';
  /** What the chain becomes. */
  call(points: readonly Point[], closed: boolean, context: ToolContext): Call;
}

type Step = readonly [ChainState, readonly ToolEffect[]];

/**
 * A chain of points: each click, or each drag from one place to the next, sets one. Enter, a double click or the
 * first point ends it; Backspace takes the last point back; a typed length sets the next along the current direction.
 */
export function chainTool(parts: ChainParts): Tool<ChainState> {
  const finish = (state: ChainState, closed: boolean, context: ToolContext): Step => {
    if (state.points.length < parts.least) return [{ ...state, press: null }, []];
    const call = parts.call(state.points, closed || parts.closes === 'always', context);
    return [
      START,
      [
        { do: 'run', command: call },
        { do: 'stand', at: state.points.at(-1)! },
      ],
    ];
  };

  const add = (state: ChainState, at: Point, reach: number, context: ToolContext): Step => {
    const { points } = state;
    const first = points[0];
    const last = points.at(-1);
    const closing =
      parts.closes !== 'never' && first && points.length >= 3 && distance(first, at) <= reach;
    if (closing) return finish(state, true, context);
    if (last && samePlace(last, at)) return [{ ...state, press: null, to: at }, []];
    return [{ points: [...points, at], to: at, press: null }, []];
  };

  const release = (state: ChainState, event: PointerStep, context: ToolContext): Step => {
    if (!state.press) return [state, []];
    const reach = (event.touch ? TAP : CLICK) * context.pixel;
    if (!dragged(state.press.raw, event.raw, context, event.touch))
      return add(state, event.at, reach, context);
    // A drag draws a whole piece: where nothing was drawn yet its beginning counts too.
    const begun = state.points.length === 0 ? { ...state, points: [state.press.at] } : state;
    return add(begun, event.at, reach, context);
  };

  const key = (state: ChainState, pressed: string, context: ToolContext): Step => {
    if (pressed === 'Enter') return finish(state, false, context);
    if (pressed === 'Backspace' && state.points.length > 0) {
      const points = state.points.slice(0, -1);
      const to = points.at(-1) ?? null;
      return [to === null ? START : { points, to, press: null }, []];
    }
    return [state, []];
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
        case 'press':
          return [{ ...state, press: { raw: event.raw, at: event.at }, to: event.at }, []];
        case 'move':
          if (state === START) return [state, []];
          return [{ ...state, to: event.at }, []];
        case 'release':
          return release(state, event, context);
        case 'double':
          return finish(state, false, context);
        case 'key':
          return key(state, event.key, context);
        case 'length': {
          const last = state.points.at(-1);
          if (!last) return [state, []];
          return add(
            { ...state, press: null },
            towards(last, state.to ?? last, event.mm, event.angle),
            0,
            context,
          );
        }
        case 'abandon':
          return [state.points.length === 0 ? START : { ...state, press: null }, []];
        case 'cancel':
          return [START, []];
      }
    },
    overlay: (state, context) => chainMarks(parts, state, context),
    anchor: (state) => state.points.at(-1) ?? state.press?.at ?? null,
    typedFirst: true,
    snaps: () => parts.snaps,
    hint: (state) => (state.points.length === 0 ? parts.hint : more(parts, state)),
  };
}

function more(parts: ChainParts, state: ChainState): Message {
  if (state.points.length < parts.least)
    return msg('Click the next point, or type 12\'6" or 12\'6" < 45. Esc drops it.');
  if (parts.closes === 'never')
    return msg('Click on, or type 12\'6" or 12\'6" < 45. Enter or a double click ends it.');
  return msg('Click on, or type 12\'6" or 12\'6" < 45. The first point or Enter closes it.');
}

function chainMarks(parts: ChainParts, state: ChainState, context: ToolContext): Mark[] {
  const points = state.points.length === 0 && state.press ? [state.press.at] : state.points;
  const last = points.at(-1);
  if (!last) return [];
  const marks: Mark[] = [];
  if (points.length > 1) marks.push({ op: 'line', points, style: FIRM });
  const to = state.to;
  if (to && !samePlace(last, to)) {
    marks.push({ op: 'line', points: [last, to], style: FIRM });
    if (parts.closes === 'always' && points.length > 1)
      marks.push({ op: 'line', points: [to, points[0]!], style: LOOSE });
    marks.push(...lengthTag(last, to, unitsOf(context)));
  }
  if (parts.closes !== 'never' && points.length >= 3) marks.push(ring(points[0]!));
  return marks;
}
