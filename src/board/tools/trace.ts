import { type Message, msg } from '../../base/message.ts';
import type { Mark, Style } from '../../drawing/display.ts';
import { wallCorners } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import type { Doubt } from '../../geometry/wall-finder/doubts.ts';
import type { WallOffer } from '../../geometry/wall-finder/find-walls.ts';
import { dragged, FIRM, ring, samePlace } from '../gestures/marks.ts';
import { offerAt, offersIn } from '../offers.ts';
import type { Tool, ToolContext, ToolEffect } from './tool.ts';
import { WALLS } from './wall.ts';

interface TraceState {
  /** Where a box was begun that is being drawn, and where it has come to. */
  readonly a: Point | null;
  readonly to: Point | null;
  /** Where the press began that runs, and whether it began the box. */
  readonly press: { readonly raw: Point; readonly first: boolean } | null;
  /** What lies under the pointer. */
  readonly over: WallOffer | null;
}

const START: TraceState = { a: null, to: null, press: null, over: null };

type Step = readonly [TraceState, readonly ToolEffect[]];

const OFFERED: Style = { stroke: 'pick', width: 0.35, dash: [1.6, 1] };
const DOUBTED: Style = { stroke: 'warn', width: 0.35, dash: [0.4, 0.9] };

/** How near to a wall's body a click still means it, px. */
const REACH = 5;
const REACH_TOUCH = 14;

const under = (at: Point, touch: boolean, context: ToolContext): WallOffer | null =>
  offerAt(context.offers(), at, (touch ? REACH_TOUCH : REACH) * context.pixel);

function take(walls: readonly WallOffer[], { level, option }: ToolContext): ToolEffect[] {
  if (walls.length === 0) return [];
  const { thickness: _, ...look } = WALLS.find((wall) => wall.id === option)?.look ?? {};
  const measured = walls.map(({ a, b, thickness, windows }) => ({ a, b, thickness, windows }));
  return [{ do: 'run', command: { name: 'take-walls', args: { level, walls: measured, look } } }];
}

/** What a box holds: what is sure, and with Shift what is in doubt as well. */
const inBox = (a: Point, b: Point, shift: boolean, context: ToolContext): WallOffer[] =>
  offersIn(context.offers(), a, b, b[0] < a[0]).filter(
    ({ doubts }) => shift || doubts.length === 0,
  );

function release(
  state: TraceState,
  raw: Point,
  { shift, touch }: { shift: boolean; touch: boolean },
  context: ToolContext,
): Step {
  const { a, press } = state;
  if (!a || !press) return [state, []];
  if (!dragged(press.raw, raw, context, touch)) {
    const hit = under(raw, touch, context);
    if (hit) return [START, take([hit], context)];
    const { trouble } = context.offers();
    if (press.first && trouble) return [START, [{ do: 'say', message: trouble }]];
    if (press.first) return [{ ...state, press: null }, []];
  }
  return takeBox(a, raw, shift, context);
}

function takeBox(a: Point, b: Point, shift: boolean, context: ToolContext): Step {
  const held = inBox(a, b, shift, context);
  const none = msg('No sure wall lies in that box. Click what is in doubt, one by one.');
  return [START, held.length > 0 ? take(held, context) : [{ do: 'say', message: none }]];
}

/** Takes over walls that a vector background shows: each by a click, several by a box. */
export const trace: Tool<TraceState> = {
  id: 'trace',
  label: msg('Take over walls'),
  key: 'Shift+W',
  options: WALLS.map(({ id, label }) => ({ id, label })),
  cursor: 'crosshair',
  start: START,
  waits: ({ a }) => a === null,
  next(state, event, context) {
    switch (event.type) {
      case 'press': {
        const first = state.a === null;
        return [
          { a: state.a ?? event.raw, to: event.raw, press: { raw: event.raw, first }, over: null },
          [],
        ];
      }
      case 'move': {
        if (state.a) return [{ ...state, to: event.raw }, []];
        const over = under(event.raw, event.touch, context);
        return over === state.over ? [state, []] : [over ? { ...START, over } : START, []];
      }
      case 'release':
        return release(state, event.raw, event, context);
      case 'key': {
        const { a, to } = state;
        return event.key === 'Enter' && a && to
          ? takeBox(a, to, event.shift, context)
          : [state, []];
      }
      case 'abandon':
        return [state.press?.first || !state.a ? START : { ...state, press: null }, []];
      // A second click in the same place begins no box.
      case 'double':
      case 'cancel':
        return [START, []];
      default:
        return [state, []];
    }
  },
  overlay({ a, to, over }, context): readonly Mark[] {
    const marks = marksOf(context.offers().open);
    if (over) return [...marks, body(over, { ...FIRM, fill: 'pick', opacity: 0.35 })];
    if (!a || !to) return marks;
    if (samePlace(a, to)) return [...marks, ring(a)];
    const points: Point[] = [a, [to[0], a[1]], to, [a[0], to[1]]];
    return [
      ...marks,
      ...inBox(a, to, false, context).map((offer) => body(offer, FIRM)),
      { op: 'line', closed: true, points, style: FIRM },
    ];
  },
  anchor: () => null,
  snaps: () => [],
  hint({ a, over }, context) {
    const { open, left, trouble } = context.offers();
    if (trouble) return trouble;
    if (over) return hintOver(over);
    if (a) return msg('Click the corner across. A box takes the sure walls; with Shift all.');
    if (open.length === 0) return msg('All walls that were offered are drawn.');
    const doubtful = open.filter(({ doubts }) => doubts.length > 0).length;
    return msg(
      'Walls offered: {count}, in doubt (dotted): {doubtful}. Click one or drag a box; nothing is added by itself. Long lines left, as not understood: {left}.',
      { count: open.length, doubtful, left },
    );
  },
};

const WHY: Readonly<Record<Doubt, string>> = {
  alone: 'it touches no other wall',
  thick: 'it is very thick',
  between: 'there are other lines between its faces',
  beside: 'another seems to run right beside it',
};

function hintOver({ thickness, doubts, windows }: WallOffer): Message {
  const params = { thickness: { mm: thickness }, windows: windows.length };
  if (doubts.length > 0)
    return msg(
      `In doubt: ${doubts.map((doubt) => WHY[doubt]).join(', and ')}. {thickness} thick, as measured. Click to take it over all the same.`,
      params,
    );
  if (windows.length === 0)
    return msg('A wall {thickness} thick, as measured. Click to take it over.', params);
  if (windows.length === 1)
    return msg(
      'A wall {thickness} thick, as measured, with a window. Click to take it over.',
      params,
    );
  return msg(
    'A wall {thickness} thick, as measured, with {windows} windows. Click to take it over.',
    params,
  );
}

const body = ({ a, b, thickness }: WallOffer, style: Style): Mark => ({
  op: 'line',
  closed: true,
  points: wallCorners(a, b, thickness),
  style,
});

const MARKS = new WeakMap<readonly WallOffer[], readonly Mark[]>();

/** The outlines of what is offered, made once for each list. */
function marksOf(open: readonly WallOffer[]): readonly Mark[] {
  const there = MARKS.get(open);
  if (there) return there;
  const marks = open.map((offer) => body(offer, offer.doubts.length > 0 ? DOUBTED : OFFERED));
  MARKS.set(open, marks);
  return marks;
}
