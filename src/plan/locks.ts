import { msg } from '../base/message.ts';
import { type AnyEntity, DRAWN, type Plan, type Ref } from './plan.ts';

/** Whether a row is kept from being moved or deleted by mistake. A background's lock only keeps the hand off it. */
export function isLocked(plan: Plan, { table, id }: Ref): boolean {
  if (table === 'backgrounds') return false;
  const row = plan.tables[table].get(id) as (AnyEntity & { readonly locked?: boolean }) | undefined;
  return row?.locked === true;
}

/** The tables whose rows can be locked. */
export const LOCKABLE = [...DRAWN, 'openings'] as const;
export type Lockable = (typeof LOCKABLE)[number];

/** Whether the rows of a table can be locked. */
export const isLockable = (table: string): table is Lockable =>
  (LOCKABLE as readonly string[]).includes(table);

/** Why a locked row stays as it is. */
export const LOCKED = msg('It is locked. Unlock it on its card first.');
