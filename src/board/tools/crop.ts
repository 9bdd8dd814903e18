import { msg } from '../../base/message.ts';
import type { Mark } from '../../drawing/display.ts';
import type { Point } from '../../geometry/point.ts';
import { fromPicture, toPicture } from '../../plan/picture-place.ts';
import { pictureUnder } from '../gestures/known-length.ts';
import { dragged, FIRM, ring, samePlace } from '../gestures/marks.ts';
import type { Tool, ToolContext, ToolEffect } from './tool.ts';

interface CropState {
  readonly a: Point | null;
  readonly to: Point | null;
  /** Where the press began that runs, and whether it set the first corner. */
  readonly press: { readonly raw: Point; readonly first: boolean } | null;
}

const START: CropState = { a: null, to: null, press: null };

type Step = readonly [CropState, readonly ToolEffect[]];

function finish(state: CropState, b: Point, context: ToolContext): Step {
  const { a } = state;
  if (!a || samePlace(a, b)) return [{ ...state, press: null }, []];
  const picture = pictureUnder(a, context);
  if (!picture) return [START, [{ do: 'say', message: msg('Bring a plan first.') }]];
  const args = { background: picture.id, a, b };
  return [START, [{ do: 'run', command: { name: 'crop-background', args } }, { do: 'done' }]];
}

/** A box on a background, along the picture's own sides; only what lies in it is shown. */
export const crop: Tool<CropState> = {
  id: 'crop',
  label: msg('Crop the background'),
  key: '',
  cursor: 'crosshair',
  start: START,
  next(state, event, context) {
    switch (event.type) {
      case 'press': {
        const first = state.a === null;
        return [{ a: state.a ?? event.raw, to: event.raw, press: { raw: event.raw, first } }, []];
      }
      case 'move':
        return state.a ? [{ ...state, to: event.raw }, []] : [state, []];
      case 'release': {
        if (!state.press) return [state, []];
        const moved = dragged(state.press.raw, event.raw, context, event.touch);
        if (state.press.first && !moved) return [{ ...state, press: null }, []];
        return finish(state, event.raw, context);
      }
      case 'key':
        return event.key === 'Enter' && state.to ? finish(state, state.to, context) : [state, []];
      case 'abandon':
        return [state.press?.first || !state.a ? START : { ...state, press: null }, []];
      case 'cancel':
        return [START, []];
      default:
        return [state, []];
    }
  },
  overlay({ a, to }, context): Mark[] {
    if (!a) return [];
    const picture = pictureUnder(a, context);
    if (!to || !picture || samePlace(a, to)) return [ring(a)];
    const [p, q] = [toPicture(picture, a), toPicture(picture, to)];
    const box: Point[] = [p, [q[0], p[1]], q, [p[0], q[1]]];
    const points = box.map((pixel) => fromPicture(picture, pixel));
    return [{ op: 'line', closed: true, points, style: FIRM }];
  },
  anchor: () => null,
  snaps: () => [],
  hint: ({ a }) =>
    a
      ? msg('Click the corner across from it.')
      : msg('Drag a box round the part of the picture to keep.'),
};
