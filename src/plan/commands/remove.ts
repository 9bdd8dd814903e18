import { msg } from '../../base/message.ts';
import { Draft } from '../change.ts';
import { followCeilings } from '../follow-ceilings.ts';
import { removeRows } from '../integrity.ts';
import { isLocked, LOCKED } from '../locks.ts';
import { followWalls } from '../outlet-place.ts';
import type { Ref } from '../plan.ts';
import type { Command } from './command.ts';
import { nameOf, stayedNotice } from './step-words.ts';

/** Removes rows with all that cannot stand without them. What is locked stays. */
export const remove: Command<{ refs: readonly Ref[] }> = (plan, { refs }, { kinds }) => {
  const levels = refs.filter((ref) => ref.table === 'levels').length;
  if (levels > 0 && levels >= plan.tables.levels.size) {
    return { ok: false, why: msg('A plan needs at least one level.') };
  }
  const loose = refs.filter((ref) => !isLocked(plan, ref));
  if (refs.length > 0 && loose.length === 0) return { ok: false, why: LOCKED };
  const draft = new Draft(plan);
  const walls = loose
    .flatMap((ref) => (ref.table === 'walls' ? [plan.tables.walls.get(ref.id)!] : []))
    .filter(Boolean);
  removeRows(
    draft,
    loose.filter((ref) => !['job', 'settings', 'prices'].includes(ref.table)),
  );
  followWalls(draft, walls, kinds);
  if (loose.some(({ table }) => table === 'zones'))
    for (const level of draft.plan.tables.levels.keys()) followCeilings(draft, plan, level, kinds);
  if (draft.changes().length === 0) return { ok: false, why: msg('There is nothing to delete.') };
  const stayed = refs.filter((ref) => isLocked(plan, ref));
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Delete {what}', { what: nameOf(plan, loose) }),
    select: stayed,
    ...stayedNotice(stayed.length),
  };
};
