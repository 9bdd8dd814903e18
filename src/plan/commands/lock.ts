import { msg } from '../../base/message.ts';
import { Draft } from '../change.ts';
import { isLockable } from '../locks.ts';
import type { Ref } from '../plan.ts';
import type { Command } from './command.ts';
import { nameOf } from './step-words.ts';

/** Keeps things from being moved or deleted by mistake, or lets them go again. */
export const lock: Command<{ refs: readonly Ref[]; locked: boolean }> = (
  plan,
  { refs, locked },
) => {
  const draft = new Draft(plan);
  for (const { table, id } of refs)
    if (isLockable(table) && plan.tables[table].has(id)) draft.patch(table, id, { locked });
  if (draft.changes().length === 0)
    return {
      ok: false,
      why: locked ? msg('There is nothing here to lock.') : msg('There is nothing here to unlock.'),
    };
  const what = nameOf(plan, refs);
  return {
    ok: true,
    changes: draft.changes(),
    label: locked ? msg('Lock {what}', { what }) : msg('Unlock {what}', { what }),
  };
};
