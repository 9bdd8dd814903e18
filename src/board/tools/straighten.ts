import { msg } from '../../base/message.ts';
import type { Mark } from '../../drawing/display.ts';
import { type Corners, isConvex } from '../../geometry/homography.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import { inLayers, shownCorners, toPicture } from '../../plan/picture-place.ts';
import type { Background } from '../../plan/plan.ts';
import { dragged, FIRM, LOOSE } from '../gestures/marks.ts';
import type { Tool, ToolContext, ToolEffect } from './tool.ts';

interface StraightenState {
  /** The corners as they were set, in the plan; null until one was moved. */
  readonly corners: Corners | null;
  /** The corner that is held: which, where the press began, and where the corner was. */
  readonly held: { readonly corner: number; readonly raw: Point; readonly from: Point } | null;
}

const START: StraightenState = { corners: null, held: null };

/** How far in from the sides of the picture the corners begin, in shares of it. */
const INSET = 0.12;

/** The background to straighten: the one that the shelf named, else the topmost that is seen. */
function pictureOf({ plan, level, option }: ToolContext): Background | null {
  const shown = inLayers(plan, level).filter((picture) => !picture.hidden);
  return shown.find((picture) => picture.id === option) ?? shown.at(-1) ?? null;
}

/** Where the corners begin: a little within the picture as it is seen, from its upper left round with the clock. */
function firstCorners(picture: Background): Corners {
  const seen = shownCorners(picture);
  // The picture's own upper left corner is seen elsewhere once it is turned.
  const first = (4 - picture.turn / 90) % 4;
  const corner = (i: number): Point => seen[(first + i) % 4]!;
  const inward = (i: number): Point => {
    const [at, next, last] = [corner(i), corner(i + 1), corner(i + 3)];
    return [
      Math.round(at[0] + INSET * (next[0] + last[0] - 2 * at[0])),
      Math.round(at[1] + INSET * (next[1] + last[1] - 2 * at[1])),
    ];
  };
  return [inward(0), inward(1), inward(2), inward(3)];
}

const cornersNow = (state: StraightenState, context: ToolContext): Corners | null => {
  const picture = pictureOf(context);
  return state.corners ?? (picture && firstCorners(picture));
};

const moved = (corners: Corners, corner: number, to: Point): Corners =>
  corners.map((at, i) => (i === corner ? to : at)) as unknown as Corners;

function nearest(corners: Corners, at: Point): number {
  const far = corners.map((corner) => distance(corner, at));
  return far.indexOf(Math.min(...far));
}

type Step = readonly [StraightenState, readonly ToolEffect[]];

function finish(state: StraightenState, context: ToolContext): Step {
  const picture = pictureOf(context);
  const corners = cornersNow(state, context);
  if (!picture || !corners) return [START, [{ do: 'say', message: msg('Bring a photo first.') }]];
  if (!isConvex(corners)) {
    const message = msg('The four corners must go round the sheet without a dent or a crossing.');
    return [state, [{ do: 'say', message }]];
  }
  const inPicture = corners.map((at) => toPicture(picture, at)) as unknown as Corners;
  return [
    START,
    [{ do: 'straighten', background: picture.id, corners: inPicture }, { do: 'done' }],
  ];
}

/**
 * Four corners on a photo that become the corners of an upright picture. A drag moves the nearest corner along, so that
 * the finger does not hide it; a click puts it there.
 */
export const straighten: Tool<StraightenState> = {
  id: 'straighten',
  label: msg('Straighten the photo'),
  key: '',
  cursor: 'crosshair',
  start: START,
  next(state, event, context) {
    const corners = cornersNow(state, context);
    if (!corners) return [state, []];
    switch (event.type) {
      case 'press': {
        const corner = nearest(corners, event.raw);
        const held = { corner, raw: event.raw, from: corners[corner]! };
        return [{ corners, held }, []];
      }
      case 'move': {
        if (!state.held) return [state, []];
        const { corner, raw, from } = state.held;
        const to: Point = [from[0] + event.raw[0] - raw[0], from[1] + event.raw[1] - raw[1]];
        return [{ ...state, corners: moved(corners, corner, to) }, []];
      }
      case 'release': {
        if (!state.held) return [state, []];
        const { corner, raw } = state.held;
        const click = !dragged(raw, event.raw, context, event.touch);
        return [{ corners: click ? moved(corners, corner, event.raw) : corners, held: null }, []];
      }
      case 'key':
        return event.key === 'Enter' ? finish(state, context) : [state, []];
      case 'abandon': {
        if (!state.held) return [state, []];
        const { corner, from } = state.held;
        return [{ corners: moved(corners, corner, from), held: null }, []];
      }
      case 'cancel':
        return [START, []];
      default:
        return [state, []];
    }
  },
  overlay(state, context): Mark[] {
    const corners = cornersNow(state, context);
    if (!corners) return [];
    const [a, b, c, d] = corners;
    const middle = (p: Point, q: Point): Point => [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
    return [
      { op: 'line', points: [middle(a, b), middle(d, c)], style: LOOSE },
      { op: 'line', points: [middle(a, d), middle(b, c)], style: LOOSE },
      { op: 'line', closed: true, points: corners, style: FIRM },
      ...corners.map((at, i) => handle(at, state.held?.corner === i)),
    ];
  },
  anchor: () => null,
  snaps: () => [],
  hint: () =>
    msg(
      'Drag the four corners onto those of the sheet or of a rectangular room, then press Enter.',
    ),
};

/** A ring with a cross that leaves the place itself free to be seen. */
const handle = (at: Point, held: boolean): Mark => ({
  op: 'symbol',
  at,
  marks: [
    { op: 'circle', at: [0, 0], radius: 3, style: { stroke: 'pick', width: held ? 0.9 : 0.6 } },
    ...([-1, 1] as const).flatMap((way): Mark[] => [
      {
        op: 'line',
        points: [
          [way * 1, 0],
          [way * 4.6, 0],
        ],
        style: FIRM,
      },
      {
        op: 'line',
        points: [
          [0, way * 1],
          [0, way * 4.6],
        ],
        style: FIRM,
      },
    ]),
  ],
});
