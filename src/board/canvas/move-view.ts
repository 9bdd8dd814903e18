import type { SessionApi } from '../session.ts';
import { zoomed } from '../view.ts';

/** A place on the board, px from its corner. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Moves the view along with what is under the pointer. */
export function panBy(session: SessionApi, dx: number, dy: number): void {
  const { viewport, actions } = session.getState();
  const { scale, left, top } = viewport;
  actions.set({ viewport: { ...viewport, left: left - dx / scale, top: top - dy / scale } });
}

const spread = ([a, b]: readonly [Spot, Spot]) => ({
  x: (a.x + b.x) / 2,
  y: (a.y + b.y) / 2,
  apart: Math.hypot(a.x - b.x, a.y - b.y),
});

/** Fingers nearer to one another than this do not say how far they went apart, px. */
const TOO_NEAR = 4;

/** Moves and scales the view so that what was under two fingers stays under them. */
export function pinchBy(
  session: SessionApi,
  before: readonly [Spot, Spot],
  after: readonly [Spot, Spot],
): void {
  const [from, to] = [spread(before), spread(after)];
  panBy(session, to.x - from.x, to.y - from.y);
  const { viewport, actions } = session.getState();
  if (from.apart > TOO_NEAR)
    actions.set({ viewport: zoomed(viewport, to.apart / from.apart, to.x, to.y) });
}

/** Turns a wheel: it zooms about the pointer, and goes sideways where it is turned so or with Shift. */
export function wheelAt(session: SessionApi, event: WheelEvent, at: Spot): void {
  const line = event.deltaMode === 1 ? 30 : event.deltaMode === 2 ? 300 : 1;
  const dx = event.deltaX * line;
  const dy = event.deltaY * line;
  if (!event.ctrlKey && (event.shiftKey || Math.abs(dx) > Math.abs(dy))) {
    panBy(session, -(dx || dy), 0);
    return;
  }
  const { viewport, actions } = session.getState();
  // A pinch on a trackpad comes as a wheel with Ctrl and small steps.
  const factor = Math.exp(-Math.max(-240, Math.min(240, dy)) * (event.ctrlKey ? 0.01 : 0.0017));
  actions.set({ viewport: zoomed(viewport, factor, at.x, at.y) });
}
