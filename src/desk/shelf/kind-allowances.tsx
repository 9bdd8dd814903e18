import { useState } from 'react';
import { ALLOWANCE_FIELDS } from '../../plan/allowances.ts';
import type { OwnAllowances } from '../../plan/commands/allowances.ts';
import { type Plan, settings } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { AllowanceFields, allowanceWords } from '../card/allowance-fields.tsx';
import { useActions, useKinds, usePlan, useUnits } from '../context.tsx';
import { SelectField } from '../controls/choices.tsx';
import { Button, Fold } from '../controls/parts.tsx';
import { kindName } from '../names.ts';

/** How many allowances a kind of device has of its own. */
export function ownOfKind(plan: Plan, kind: string): number {
  const row = [...plan.tables.allowances.values()].find((other) => other.kind === kind);
  return row ? ALLOWANCE_FIELDS.filter((field) => row[field] !== null).length : 0;
}

/** Allowances of a kind of device where they are not those of the job, and the jacks that have their own. */
export function KindAllowances() {
  const plan = usePlan();
  const kinds = useKinds();
  const [chosen, setChosen] = useState<string | null>(null);
  const placed = new Set([...plan.tables.devices.values()].map((device) => device.kind));
  const listed = [...kinds.keys()].filter((id) => placed.has(id) || ownOfKind(plan, id) > 0);
  const kind = chosen !== null && listed.includes(chosen) ? chosen : listed[0];
  const own = listed.reduce((sum, id) => sum + ownOfKind(plan, id), 0);
  if (kind === undefined) return null;
  return (
    <Fold
      title={t('runs.kinds')}
      {...(own > 0 ? { aside: t('runs.kinds-own', { count: own }) } : {})}
    >
      <p className="note">{t('runs.kinds-hint')}</p>
      <SelectField
        label={t('field.kind')}
        value={kind}
        options={listed.map((id) => {
          const count = ownOfKind(plan, id);
          const name = kindName(plan, kinds, id);
          const label =
            count === 0 ? name : t('runs.group', { name, runs: t('runs.kinds-own', { count }) });
          return { value: id, label };
        })}
        onChoose={setChosen}
      />
      <OneKind key={kind} kind={kind} />
      <OwnJacks />
    </Fold>
  );
}

function OneKind({ kind }: { kind: string }) {
  const actions = useActions();
  const plan = usePlan();
  const units = useUnits();
  const row = [...plan.tables.allowances.values()].find((other) => other.kind === kind);
  const own: OwnAllowances = row ?? {};
  return (
    <AllowanceFields
      own={own}
      above={allowanceWords(settings(plan), units)}
      onCommit={(fields) => void actions.run('allow-kind', { kind, fields })}
    />
  );
}

/** Jacks with allowances of their own, so that none is forgotten. */
function OwnJacks() {
  const actions = useActions();
  const jacks = [...usePlan().tables.jacks.values()].filter((jack) => jack.allowances !== null);
  if (jacks.length === 0) return null;
  return (
    <>
      <p className="note">{t.count('runs.jacks-own', jacks.length)}</p>
      <Button
        look="quiet"
        onClick={() => actions.select(jacks.map(({ id }) => ({ table: 'jacks', id })))}
      >
        {t('runs.jacks-show')}
      </Button>
    </>
  );
}
