import { type Message, msg } from '../../base/message.ts';
import type { Mark } from '../../drawing/display.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Side } from '../../geometry/open-sides.ts';
import type { Point } from '../../geometry/point.ts';
import { arePassages, enclosureOn } from '../../plan/commands/fill-room.ts';
import {
  dragged,
  FIRM,
  LOOSE,
  lengthTag,
  previewOf,
  ring,
  samePlace,
  unitsOf,
} from '../gestures/marks.ts';
import { REACH } from '../snap.ts';
import { inArea } from './room.ts';
import type { Call, PointerStep, Tool, ToolContext, ToolEffect } from './tool.ts';

/** What was said of the next room: its open sides, the press that runs, and where it leaked when it was asked for. */
interface FillState {
  readonly press: { readonly at: Point; readonly raw: Point } | null;
  /** Where a line ends that is being drawn along an open side. */
  readonly to: Point | null;
  readonly sides: readonly Side[];
  readonly leaks: readonly Side[];
}

type Step = readonly [FillState, readonly ToolEffect[]];

const START: FillState = { press: null, to: null, sides: [], leaks: [] };

/** What is left once a press is over. */
const left = (sides: readonly Side[], leaks: readonly Side[]): FillState =>
  sides.length + leaks.length === 0 ? START : { press: null, to: null, sides, leaks };

const callAt = (
  [x, y]: Point,
  sides: readonly Side[],
  { level, area }: ToolContext,
  passages = false,
): Call => ({
  name: 'fill-room',
  args: {
    level,
    at: [Math.round(x), Math.round(y)],
    ...(passages ? { passages } : {}),
    ...(sides.length > 0 ? { sides } : {}),
    ...inArea(area),
  },
});

/** A first click shows where the walls leak; a second in the same room says that those are doorways. */
function fill({ sides, leaks: before }: FillState, raw: Point, context: ToolContext): Step {
  const found = enclosureOn(context.plan, context.level, raw, sides);
  const leaks = found.closed ? [] : found.leaks;
  const again = arePassages(leaks) && String(leaks) === String(before);
  const effects: ToolEffect[] = [{ do: 'run', command: callAt(raw, sides, context, again) }];
  return [found.closed || again ? START : left(sides, leaks), effects];
}

/** The end of a line drawn before that the pointer is near to, since the next one goes on from it; else its own place. */
function onOwn(sides: readonly Side[], { at, raw }: PointerStep, { pixel }: ToolContext): Point {
  const near = (p: Point): boolean => distance(p, raw) <= REACH * pixel;
  return sides.flat().find(near) ?? at;
}

/** A drag draws a line along a side that is open; a click asks for the room. */
function release(state: FillState, event: PointerStep, context: ToolContext): Step {
  if (!state.press) return [state, []];
  const { at, raw } = state.press;
  if (!dragged(raw, event.raw, context, event.touch)) return fill(state, event.raw, context);
  const to = onOwn(state.sides, event, context);
  if (samePlace(at, to)) return [left(state.sides, state.leaks), []];
  return [left([...state.sides, [at, to]], []), []];
}

function move(state: FillState, event: PointerStep, context: ToolContext): Step {
  const { press, sides } = state;
  if (!press) return [state, [previewOf(callAt(event.raw, sides, context), context)]];
  const drawn = dragged(press.raw, event.raw, context, event.touch);
  return [
    { ...state, to: drawn ? onOwn(sides, event, context) : null },
    [{ do: 'preview', changes: null }],
  ];
}

/** Draws a room where somebody clicks between walls that close round the place; shows where they do not. */
export const fillRoom: Tool<FillState> = {
  id: 'fill-room',
  label: msg('Room between walls'),
  key: 'y',
  cursor: 'crosshair',
  start: START,
  over: ({ press, sides }) => press === null && sides.length === 0,
  next(state, event, context) {
    switch (event.type) {
      case 'press':
        return [
          { ...state, press: { at: onOwn(state.sides, event, context), raw: event.raw } },
          [],
        ];
      case 'move':
        return move(state, event, context);
      case 'release':
        return release(state, event, context);
      case 'key':
        return event.key === 'Backspace' ? [left(state.sides.slice(0, -1), []), []] : [state, []];
      case 'abandon':
        return [left(state.sides, []), [{ do: 'preview', changes: null }]];
      case 'cancel':
        return [START, [{ do: 'preview', changes: null }]];
      default:
        return [state, []];
    }
  },
  overlay: ({ press, to, sides, leaks }, context): readonly Mark[] => [
    ...sides.flatMap(([a, b]): Mark[] => [
      { op: 'line', points: [a, b], style: FIRM },
      ring(a),
      ring(b),
    ]),
    ...(press && to
      ? [
          { op: 'line', points: [press.at, to], style: LOOSE } as const,
          ring(press.at),
          ...lengthTag(press.at, to, unitsOf(context)),
        ]
      : []),
    ...leaks.flatMap(([a, b]): Mark[] => [
      { op: 'line', points: [a, b], style: { stroke: 'warn', width: 0.9, dash: [1.6, 1] } },
      ring(a),
      ring(b),
      ...lengthTag(a, b, unitsOf(context)),
    ]),
  ],
  anchor: ({ press, to }) => (to ? (press?.at ?? null) : null),
  lengths: false,
  ends: false,
  snaps: () => ['end', 'centre', 'face', 'right-angle', 'under-end', 'under-line'],
  hint: ({ to, sides, leaks }) => hintOf(to !== null, sides.length > 0, leaks),
};

function hintOf(drawing: boolean, open: boolean, leaks: readonly Side[]): Message {
  if (drawing) return msg('Let go at the other end of the side that is open.');
  if (arePassages(leaks))
    return msg(
      'The walls leak where the line is dashed. Click again to count that as a doorway, or close it with a wall.',
    );
  if (leaks.length > 0)
    return msg(
      'The walls leak where the line is dashed. Drag a line across the gap, or close it with a wall, then click again.',
    );
  if (open)
    return msg(
      'Drag along the next side that is open, or click inside the room. Backspace takes a line back.',
    );
  return msg(
    'Click inside walls that close round a place, doorways up to 4 ft (1.2 m) counted as closed. Drag along a side that is open.',
  );
}
