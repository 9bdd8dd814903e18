import type { Background, Plan } from '../plan/plan.ts';
import type { SessionApi, Viewport } from './session.ts';
import { clampScale } from './view.ts';

/**
 * Keeps a picture where it is on the screen while its scale is set, taken back or set again: it may grow or shrink a
 * hundredfold in the building, and whoever drew a line along it still wants to see that line.
 *
 * @returns stops it
 */
export function followPicture(session: SessionApi): () => void {
  return session.subscribe((now, before) => {
    if (now.history.plan === before.history.plan || now.opened !== before.opened) return;
    const scaled = scaledPicture(before.history.plan, now.history.plan, now.level);
    if (!scaled) return;
    const viewport = following(now.viewport, ...scaled);
    now.actions.set({ viewport });
  });
}

/** The first picture of a level that is the same but for its scale, as it was and as it is. */
function scaledPicture(
  before: Plan,
  now: Plan,
  level: string,
): readonly [Background, Background] | null {
  for (const after of now.tables.backgrounds.values()) {
    const was = before.tables.backgrounds.get(after.id);
    if (!was || after.level !== level || after.hidden || was === after) continue;
    const same = was.asset === after.asset && was.turn === after.turn && was.width === after.width;
    if (same && was.mmPerPixel !== after.mmPerPixel) return [was, after];
  }
  return null;
}

/** The view that shows a picture where another showed it before it was scaled. */
function following(view: Viewport, was: Background, now: Background): Viewport {
  const scale = clampScale((view.scale * was.mmPerPixel) / now.mmPerPixel);
  const x = (was.origin[0] - view.left) * view.scale;
  const y = (was.origin[1] - view.top) * view.scale;
  return { ...view, scale, left: now.origin[0] - x / scale, top: now.origin[1] - y / scale };
}
