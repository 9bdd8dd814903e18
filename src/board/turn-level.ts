import type { Id } from '../base/ids.ts';
import { jacksOfRefs } from '../plan/jacks.ts';
import type { Ref } from '../plan/plan.ts';
import { type SessionApi, type SessionStore, shownPlan } from './session.ts';

/**
 * Opens another level. What was picked stays picked as far as it is seen there: a riser that comes out on it, and the
 * runs of devices, outlets and jacks whose way goes on there. The rest is let go, so that no key works on what is not
 * in sight.
 */
export function turnLevel(session: SessionApi, level: Id): void {
  const state = session.getState();
  state.actions.set({ level, hover: null, selection: seenOn(state, level) });
}

function seenOn(state: SessionStore, level: Id): readonly Ref[] {
  const plan = shownPlan(state);
  const { selection, survey } = state;
  const risers = selection.filter(({ table, id }) => {
    const riser = table === 'risers' ? plan.tables.risers.get(id) : undefined;
    return riser?.level === level || riser?.upper === level;
  });
  const picked = new Set(jacksOfRefs(plan, selection));
  const runs = (survey?.runs ?? []).filter(
    (run) => picked.has(run.jack) && run.segments.some((segment) => segment.level === level),
  );
  return [...risers, ...runs.map((run): Ref => ({ table: 'jacks', id: run.jack }))];
}
