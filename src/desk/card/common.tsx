import { FAR } from '../../base/units.ts';
import { isLockable, isLocked } from '../../plan/locks.ts';
import { type Ref, refKey } from '../../plan/plan.ts';
import type { TableName } from '../../plan/schema.ts';
import { t } from '../../text/index.ts';
import { placeOf } from '../contents/rows.ts';
import { useActions, useShownPlan } from '../context.tsx';
import { CheckField } from '../controls/choices.tsx';
import { LengthField } from '../controls/fields.tsx';
import { Button } from '../controls/parts.tsx';
import { stayKey } from '../stays.ts';

/** Changes fields of one row as one step, and what is tried in a field meanwhile joins it. */
export function useEdit(table: TableName, id: string) {
  const actions = useActions();
  return (fields: Readonly<Record<string, unknown>>): void =>
    void actions.run('edit', { table, id, fields }, stayKey(`${table} ${id}`, fields));
}

/** Where a thing is, typed: it is moved as a whole. */
export function PlaceFields({ of }: { of: Ref }) {
  const actions = useActions();
  const at = placeOf(useShownPlan(), of);
  if (at === null) return null;
  const to = (axis: 0 | 1, mm: number) => {
    const by = axis === 0 ? ([mm - at[0], 0] as const) : ([0, mm - at[1]] as const);
    actions.run('move', { refs: [of], by }, stayKey(refKey(of), { [axis]: mm }));
  };
  return (
    <div className="pair">
      <LengthField label={t('place.east')} value={at[0]} min={-FAR} onCommit={(mm) => to(0, mm)} />
      <LengthField label={t('place.south')} value={at[1]} min={-FAR} onCommit={(mm) => to(1, mm)} />
    </div>
  );
}

/** The foot of a card: the lock of what can be locked, and the button that deletes what is not. */
export function DeleteButton({ refs, label }: { refs: readonly Ref[]; label: string }) {
  const actions = useActions();
  const plan = useShownPlan();
  const can = refs.filter(({ table }) => isLockable(table));
  const locked = can.length > 0 && can.every((ref) => isLocked(plan, ref));
  const keep = (next: boolean) => actions.run('lock', { refs: can, locked: next });
  return (
    <>
      {can.length > 0 ? (
        <CheckField
          label={t('lock.label')}
          hint={t('lock.hint')}
          checked={locked}
          onChange={keep}
        />
      ) : null}
      <DeleteIt refs={refs} label={label} locked={locked} />
    </>
  );
}

function DeleteIt({
  refs,
  label,
  locked,
}: {
  refs: readonly Ref[];
  label: string;
  locked: boolean;
}) {
  const actions = useActions();
  return (
    <Button
      disabled={locked}
      look="quiet"
      className="delete"
      onClick={() => actions.run('delete', { refs })}
    >
      {label}
    </Button>
  );
}
