import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import { ALLOWANCE_FIELDS, type Allowances } from '../allowances.ts';
import { Draft } from '../change.ts';
import { type Jack, makeRow } from '../plan.ts';
import type { Command } from './command.ts';

/** Some allowances; null takes what holds above. */
export type OwnAllowances = { readonly [F in keyof Allowances]?: number | null };

type Own = NonNullable<Jack['allowances']>;

const NONE: Own = {
  outletSlack: null,
  fieldLoop: null,
  closetLoop: null,
  wastePercent: null,
  orderStep: null,
};

const isNone = (own: Own): boolean => ALLOWANCE_FIELDS.every((field) => own[field] === null);

const misfit = msg('That value does not fit. Nothing was changed.');

/** Gives a kind of device allowances of its own. A row without any goes. */
export const allowKind: Command<{ kind: Id; fields: OwnAllowances }> = (
  plan,
  { kind, fields },
  { kinds },
) => {
  const known = kinds.get(kind);
  if (!known) return { ok: false, why: msg('There is no device kind "{kind}".', { kind }) };
  const row = [...plan.tables.allowances.values()].find((other) => other.kind === kind);
  const draft = new Draft(plan);
  const { id: _, ...before } = row ?? { id: '', kind, ...NONE };
  try {
    const next = makeRow('allowances', row?.id ?? draft.fresh('allowances'), {
      ...before,
      ...fields,
    });
    if (!isNone(next)) draft.put('allowances', next);
    else if (row) draft.remove({ table: 'allowances', id: row.id });
  } catch {
    return { ok: false, why: misfit };
  }
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Change allowances of {kind}', { kind: known.label.text.toLowerCase() }),
  };
};

/** Gives the runs of some jacks allowances of their own. */
export const allowJacks: Command<{ jacks: readonly Id[]; fields: OwnAllowances }> = (
  plan,
  { jacks, fields },
) => {
  const which = jacks.flatMap((id) => plan.tables.jacks.get(id) ?? []);
  if (which.length === 0) return { ok: false, why: msg('That jack is no longer there.') };
  const draft = new Draft(plan);
  try {
    for (const jack of which) {
      const own = { ...NONE, ...jack.allowances, ...fields };
      const { id, ...rest } = jack;
      draft.put('jacks', makeRow('jacks', id, { ...rest, allowances: isNone(own) ? null : own }));
    }
  } catch {
    return { ok: false, why: misfit };
  }
  return {
    ok: true,
    changes: draft.changes(),
    label:
      which.length === 1
        ? msg('Change allowances of {label}', { label: which[0]!.label })
        : msg('Change allowances of {count} runs', { count: which.length }),
  };
};
