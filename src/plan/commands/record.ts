import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import { BUILT_FIELDS, type Built, NOT_BUILT } from '../built.ts';
import { Draft } from '../change.ts';
import { type Jack, makeRow, type Plan } from '../plan.ts';
import type { Command } from './command.ts';

/** What is to be recorded of one cable; fields that are not named stay as they are. */
export interface BuiltRecord {
  readonly jack: Id;
  readonly fields: Partial<Built>;
}

const isBlank = (built: Built): boolean =>
  BUILT_FIELDS.every((field) => built[field] === NOT_BUILT[field]);

/** The record with its fields; what is recorded first also keeps where its outlet hangs, and what is blank is none. */
function recorded(plan: Plan, jack: Jack, fields: Partial<Built>): Jack['built'] {
  const before = jack.built ?? NOT_BUILT;
  const at = before.at ?? plan.tables.outlets.get(jack.outlet)?.at ?? null;
  const next = { ...before, at, ...fields };
  return isBlank(next) ? null : next;
}

/** Records cables as they were built: one that was typed, or a whole list that came back. */
export const record: Command<{ records: readonly BuiltRecord[] }> = (plan, { records }) => {
  const draft = new Draft(plan);
  const labels: string[] = [];
  try {
    for (const { jack: id, fields } of records) {
      const jack = draft.plan.tables.jacks.get(id);
      if (!jack) return { ok: false, why: msg('That jack is no longer there.') };
      const { id: _, ...rest } = jack;
      draft.put('jacks', makeRow('jacks', id, { ...rest, built: recorded(plan, jack, fields) }));
      labels.push(jack.label);
    }
  } catch {
    return { ok: false, why: msg('That value does not fit. Nothing was changed.') };
  }
  const [label = ''] = labels;
  return {
    ok: true,
    changes: draft.changes(),
    label:
      labels.length === 1
        ? msg('Record {label} as built', { label })
        : msg('Record {count} cables as built', { count: labels.length }),
  };
};
