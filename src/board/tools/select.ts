import { msg } from '../../base/message.ts';
import type { Mark } from '../../drawing/display.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import { pointsOf } from '../../plan/commands/move-point.ts';
import { placeAlong } from '../../plan/openings.ts';
import { type Plan, type Ref, refKey } from '../../plan/plan.ts';
import { withRoomCompany } from '../../plan/room-company.ts';
import { placesOfRow } from '../../plan/row-places.ts';
import { dragged, lengthTag, previewOf, samePlace, towards, unitsOf } from '../gestures/marks.ts';
import type { SnapKind } from '../snap-targets.ts';
import type { Call, PointerStep, Tool, ToolContext, ToolEffect } from './tool.ts';

/** A point of the one selected thing. */
interface Handle {
  readonly ref: Ref;
  readonly index: number;
  readonly at: Point;
}

type SelectState =
  | { readonly mode: 'idle' }
  | {
      readonly mode: 'pressed';
      readonly raw: Point;
      readonly hits: readonly Ref[];
      readonly handle: Handle | null;
    }
  | {
      readonly mode: 'moving';
      readonly refs: readonly Ref[];
      /** Place of the point that snaps, and how far it lies from the pointer. */
      readonly from: Point;
      readonly offset: Point;
      readonly to: Point;
    }
  | {
      readonly mode: 'handle';
      readonly handle: Handle;
      readonly offset: Point;
      readonly to: Point;
      readonly alone: boolean;
    }
  | {
      readonly mode: 'box';
      readonly a: Point;
      readonly to: Point;
    };

const START: SelectState = { mode: 'idle' };

type Step = readonly [SelectState, readonly ToolEffect[]];

const has = (refs: readonly Ref[], ref: Ref): boolean =>
  refs.some((other) => other.table === ref.table && other.id === ref.id);

/** How near the pointer and a finger must come to a handle, px. */
const HANDLE = 8;
const HANDLE_TOUCH = 22;

function handleAt(raw: Point, touch: boolean, context: ToolContext): Handle | null {
  const ref = context.selection[0];
  if (!ref || context.selection.length !== 1) return null;
  const reach = (touch ? HANDLE_TOUCH : HANDLE) * context.pixel;
  let best: Handle | null = null;
  let least = reach;
  pointsOf(context.plan, ref).forEach((at, index) => {
    const d = distance(at, raw);
    if (d > least) return;
    least = d;
    best = { ref, index, at };
  });
  return best;
}

/** Places of a row; of an opening its middle in the wall. */
function placesOf(plan: Plan, ref: Ref): readonly Point[] {
  const opening = ref.table === 'openings' ? plan.tables.openings.get(ref.id) : undefined;
  const wall = opening && plan.tables.walls.get(opening.wall);
  return wall ? [placeAlong(wall, opening.along)] : placesOfRow(plan, ref);
}

/** The point of what is moved that snaps: of the thing under the pointer the nearest to it. */
function carriedPoint(raw: Point, grabbed: Ref, plan: Plan): Point {
  let best = raw;
  let least = Number.POSITIVE_INFINITY;
  for (const at of placesOf(plan, grabbed)) {
    const d = distance(at, raw);
    if (d < least) {
      least = d;
      best = at;
    }
  }
  return best;
}

/** Large things would be moved by accident: they move only once they are selected. */
const SLOW: ReadonlySet<Ref['table']> = new Set(['zones', 'keepouts', 'backgrounds']);

function begin(
  state: Extract<SelectState, { mode: 'pressed' }>,
  event: PointerStep,
  context: ToolContext,
): Step {
  const { raw, hits, handle } = state;
  const offset = (at: Point): Point => [at[0] - raw[0], at[1] - raw[1]];
  if (handle)
    return drag(
      { mode: 'handle', handle, offset: offset(handle.at), to: handle.at, alone: event.ctrl },
      event,
      context,
    );
  const grabbed = hits.find((ref) => has(context.selection, ref)) ?? hits[0];
  const moves =
    grabbed &&
    grabbed.table !== 'jacks' &&
    !event.shift &&
    (has(context.selection, grabbed) || !SLOW.has(grabbed.table));
  if (!moves) return [{ mode: 'box', a: raw, to: event.raw }, [{ do: 'hover', ref: null }]];
  const picked = has(context.selection, grabbed) ? context.selection : [grabbed];
  const refs = withRoomCompany(context.plan, picked);
  const from = carriedPoint(raw, grabbed, context.plan);
  const moving: SelectState = { mode: 'moving', refs, from, offset: offset(from), to: from };
  const [next, effects] = drag(moving, event, context);
  return [next, [{ do: 'select', refs: picked }, { do: 'hover', ref: null }, ...effects]];
}

/** The place of the carried point for an event that was snapped for the pointer alone. */
const first = (offset: Point, raw: Point): Point => [
  Math.round(raw[0] + offset[0]),
  Math.round(raw[1] + offset[1]),
];

const shiftOf = (from: Point, to: Point): Point => [to[0] - from[0], to[1] - from[1]];

function callOf(state: SelectState): Call | null {
  if (state.mode === 'moving') {
    if (samePlace(state.from, state.to)) return null;
    return { name: 'move', args: { refs: state.refs, by: shiftOf(state.from, state.to) } };
  }
  if (state.mode !== 'handle' || samePlace(state.handle.at, state.to)) return null;
  const { ref, index } = state.handle;
  return { name: 'move-point', args: { ref, index, to: state.to, alone: state.alone } };
}

const shown = (state: SelectState, context: ToolContext): ToolEffect => {
  const call = callOf(state);
  return call ? previewOf(call, context) : { do: 'preview', changes: null };
};

function drag(state: SelectState, event: PointerStep, context: ToolContext): Step {
  if (state.mode !== 'moving' && state.mode !== 'handle') return [state, []];
  const alone = state.mode === 'handle' ? { alone: event.ctrl } : {};
  const next = { ...state, ...alone, to: first(state.offset, event.raw) } as SelectState;
  return [next, [shown(next, context)]];
}

/** Later moves of a drag: the carried point was snapped. */
function follow(state: SelectState, event: PointerStep, context: ToolContext): Step {
  if (state.mode === 'moving') {
    const next: SelectState = { ...state, to: event.at };
    return [next, [shown(next, context)]];
  }
  if (state.mode === 'handle') {
    const next: SelectState = { ...state, to: event.at, alone: event.ctrl };
    return [next, [shown(next, context)]];
  }
  return [state, []];
}

function click(
  state: Extract<SelectState, { mode: 'pressed' }>,
  event: PointerStep,
  context: ToolContext,
): Step {
  const { selection } = context;
  // Ctrl-click goes to what lies beneath the thing that is selected.
  const held = state.hits.findIndex((ref) => has(selection, ref));
  const ref = event.ctrl && held >= 0 ? state.hits[(held + 1) % state.hits.length] : state.hits[0];
  if (!event.shift) return [START, [{ do: 'select', refs: ref ? [ref] : [] }]];
  if (!ref) return [START, []];
  const key = refKey(ref);
  const rest = selection.filter((other) => refKey(other) !== key);
  return [
    START,
    [{ do: 'select', refs: rest.length < selection.length ? rest : [...selection, ref] }],
  ];
}

function release(state: SelectState, event: PointerStep, context: ToolContext): Step {
  if (state.mode === 'pressed') return click(state, event, context);
  if (state.mode === 'box') {
    const held = context.inBox(state.a, event.raw, event.raw[0] < state.a[0]);
    const before = event.shift ? context.selection : [];
    const more = held.filter((ref) => !has(before, ref));
    return [START, [{ do: 'select', refs: [...before, ...more] }]];
  }
  const [ended] = follow(state, event, context);
  return [START, ending(ended)];
}

/** A drag that ended: one step, or nothing where it came back to its beginning. */
function ending(state: SelectState): readonly ToolEffect[] {
  const call = callOf(state);
  return call ? [{ do: 'run', command: call }] : [{ do: 'preview', changes: null }];
}

function move(state: SelectState, event: PointerStep, context: ToolContext): Step {
  switch (state.mode) {
    case 'idle': {
      const ref = context.hit(event.raw, event.touch)[0] ?? null;
      return [state, [{ do: 'hover', ref }]];
    }
    case 'pressed':
      if (!dragged(state.raw, event.raw, context, event.touch)) return [state, []];
      return begin(state, event, context);
    case 'box':
      return [{ ...state, to: event.raw }, []];
    default:
      return follow(state, event, context);
  }
}

const SNAPS: readonly SnapKind[] = [
  'grid',
  'end',
  'middle',
  'centre',
  'edge',
  'right-angle',
  'perpendicular',
  'extension',
  'aligned',
];
const SYMBOL_SNAPS: readonly SnapKind[] = ['grid', 'aligned', 'right-angle'];
const SYMBOLS: ReadonlySet<Ref['table']> = new Set([
  'closets',
  'devices',
  'outlets',
  'powers',
  'notes',
  'openings',
]);

/**
 * Picks, moves and reshapes: click, shift-click, drag, a box from left to right for what lies inside and from right to
 * left for what it touches, and the points of the one selected thing.
 */
export const select: Tool<SelectState> = {
  id: 'select',
  label: msg('Select'),
  key: 'v',
  cursor: 'default',
  start: START,
  next(state, event, context) {
    switch (event.type) {
      case 'press': {
        const handle = handleAt(event.raw, event.touch, context);
        const hits = context.hit(event.raw, event.touch);
        return [{ mode: 'pressed', raw: event.raw, hits, handle }, []];
      }
      case 'move':
        return move(state, event, context);
      case 'release':
        return state.mode === 'idle' ? [state, []] : release(state, event, context);
      case 'length': {
        if (state.mode !== 'moving' && state.mode !== 'handle') return [state, []];
        const from = state.mode === 'moving' ? state.from : state.handle.at;
        return [START, ending({ ...state, to: towards(from, state.to, event.mm, event.angle) })];
      }
      case 'abandon':
      case 'cancel':
        return [START, state === START ? [] : [{ do: 'preview', changes: null }]];
      default:
        return [state, []];
    }
  },
  overlay(state, context) {
    if (state.mode === 'box') return [boxMark(state)];
    if (state.mode !== 'moving' || samePlace(state.from, state.to)) return [];
    const thread: Mark = {
      op: 'line',
      points: [state.from, state.to],
      style: { stroke: 'pick', width: 0.2, dash: [0.8, 0.8] },
    };
    // A device shows the length of its run as it moves; a second figure would only be in the way.
    const runs = state.refs.every((ref) => ref.table === 'devices' || ref.table === 'outlets');
    return runs ? [thread] : [thread, ...lengthTag(state.from, state.to, unitsOf(context))];
  },
  anchor(state) {
    if (state.mode === 'moving') return state.from;
    return state.mode === 'handle' ? state.handle.at : null;
  },
  snaps(state) {
    if (state.mode === 'handle') return SNAPS;
    if (state.mode !== 'moving') return [];
    return state.refs.every((ref) => SYMBOLS.has(ref.table)) ? SYMBOL_SNAPS : SNAPS;
  },
  carried(state) {
    if (state.mode === 'moving') return { offset: state.offset, refs: state.refs };
    if (state.mode === 'handle') return { offset: state.offset, refs: [state.handle.ref] };
    return null;
  },
  hint(state) {
    if (state.mode === 'moving')
      return msg('Shift keeps a right angle. Type a length to move by it. Esc puts it back.');
    if (state.mode === 'handle')
      return msg('What meets here comes along. With Ctrl it stays. Esc puts it back.');
    if (state.mode === 'box')
      return msg('To the right: what lies inside. To the left: all that it touches.');
    return msg('Click to select, drag to move, drag over empty paper for a box.');
  },
};

function boxMark({ a, to }: { readonly a: Point; readonly to: Point }): Mark {
  const touching = to[0] < a[0];
  return {
    op: 'line',
    closed: true,
    points: [a, [to[0], a[1]], to, [a[0], to[1]]],
    style: { stroke: 'pick', width: 0.25, ...(touching ? { dash: [1.4, 0.9] } : {}) },
  };
}
