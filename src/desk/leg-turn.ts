import type { SessionApi } from '../board/session.ts';
import { strange, TOOL } from './tool-ids.ts';

/**
 * What a leg that is opened finds in hand: a tool that draws, places or scales on other legs alone is put back, and a
 * picture is let go of when Base is left, since it is worked on nowhere else. All else stays selected, so that one can
 * read the run of a device that was just placed.
 *
 * @returns stops it
 */
export function watchLegs(session: SessionApi): () => void {
  return session.subscribe((now, before) => {
    if (now.leg === before.leg) return;
    if (strange(now.tool, now.leg)) now.actions.pick(TOOL.select);
    const kept = now.selection.filter((ref) => ref.table !== 'backgrounds' || now.leg === 'base');
    if (kept.length < now.selection.length) now.actions.select(kept);
  });
}
