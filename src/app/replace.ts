import { msg } from '../base/message.ts';
import type { SessionApi } from '../board/session.ts';
import { fitPlan } from '../board/view.ts';
import type { Change, Changes } from '../plan/change.ts';
import { commit, startHistory } from '../plan/history.ts';
import type { AnyEntity, Plan } from '../plan/plan.ts';
import { job } from '../plan/plan.ts';
import { TABLES } from '../plan/schema.ts';

/** The changes from one plan to another, row by row. */
export function changesBetween(from: Plan, to: Plan): Changes {
  return TABLES.flatMap((table) => {
    const before = from.tables[table] as ReadonlyMap<string, AnyEntity>;
    const after = to.tables[table] as ReadonlyMap<string, AnyEntity>;
    const ids = new Set([...before.keys(), ...after.keys()]);
    return [...ids]
      .map(
        (id): Change => ({
          table,
          id,
          before: before.get(id) ?? null,
          after: after.get(id) ?? null,
        }),
      )
      .filter((change) => JSON.stringify(change.before) !== JSON.stringify(change.after));
  });
}

/**
 * Takes another job in hand. Where something was done to the job that was open, this is one more step of its history,
 * so that undo brings it back; nothing on this device is lost by opening a file.
 */
export function replacePlan(session: SessionApi, plan: Plan): void {
  const { history, actions } = session.getState();
  const label = msg('Open “{job}”', { job: job(plan).name });
  const changes = changesBetween(history.plan, plan);
  actions.open(
    history.steps.length === 0 ? startHistory(plan) : commit(history, { label, changes }),
  );
  fitPlan(session);
}
