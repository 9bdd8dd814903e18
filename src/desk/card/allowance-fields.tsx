import { ALLOWANCE_FIELDS, type Allowances, allowancesOf } from '../../plan/allowances.ts';
import type { OwnAllowances } from '../../plan/commands/allowances.ts';
import type { Plan } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { useActions, usePlan, useUnits } from '../context.tsx';
import { OptionalLengthField, OptionalWholeField, showLength } from '../controls/fields.tsx';
import { Button, Fold } from '../controls/parts.tsx';

type Field = keyof Allowances;

/** Allowances that may be left empty, for what holds above: that stands in the empty field. */
export function AllowanceFields({
  own,
  above,
  differing,
  onCommit,
}: {
  own: OwnAllowances;
  /** What holds above, each in words. */
  above: Readonly<Record<Field, string>>;
  /** Fields in which some rows differ, so that emptying one takes back what any of them has of its own. */
  differing?: ReadonlySet<Field>;
  onCommit(fields: OwnAllowances): void;
}) {
  return ALLOWANCE_FIELDS.map((field) => {
    const common = {
      label: t(`setting.${field}`),
      value: own[field] ?? null,
      follows: above[field],
      mixed: differing?.has(field) ?? false,
      onCommit: (value: number | null) => onCommit({ [field]: value }),
    };
    if (field === 'wastePercent')
      return <OptionalWholeField key={field} {...common} sign="%" max={100} />;
    const step = field === 'orderStep';
    return <OptionalLengthField key={field} {...common} min={step ? 1 : 0} exact={step} />;
  });
}

/** Allowances as they are written in empty fields. */
export function allowanceWords(
  allowances: Allowances,
  units: 'ft' | 'm',
): Readonly<Record<Field, string>> {
  const words = ALLOWANCE_FIELDS.map((field) => [
    field,
    field === 'wastePercent' ? `${allowances[field]} %` : showLength(allowances[field], units),
  ]);
  return Object.fromEntries(words) as Record<Field, string>;
}

/** The allowances that these jacks have of their own: one that they have in common, null where they differ or none has. */
export function commonAllowances(plan: Plan, jacks: readonly string[]): OwnAllowances {
  const all = jacks.map((id) => plan.tables.jacks.get(id)?.allowances ?? null);
  return Object.fromEntries(
    ALLOWANCE_FIELDS.map((field) => {
      const values = new Set(all.map((own) => own?.[field] ?? null));
      return [field, values.size === 1 ? [...values][0]! : null];
    }),
  );
}

/** The allowances in which these jacks differ by what they have of their own. */
export function differingAllowances(plan: Plan, jacks: readonly string[]): ReadonlySet<Field> {
  const values = (field: Field) =>
    new Set(jacks.map((id) => plan.tables.jacks.get(id)?.allowances?.[field] ?? null));
  return new Set(ALLOWANCE_FIELDS.filter((field) => values(field).size > 1));
}

/** What stands in the empty fields of some jacks: what holds above all of them, or that they differ. */
function aboveAll(
  plan: Plan,
  jacks: readonly string[],
  units: 'ft' | 'm',
): Readonly<Record<Field, string>> {
  const words = jacks.flatMap((id) => {
    const jack = plan.tables.jacks.get(id);
    return jack ? allowanceWords(allowancesOf(plan, { ...jack, allowances: null }), units) : [];
  });
  const own = differingAllowances(plan, jacks);
  const differs = (field: Field) =>
    own.has(field) || new Set(words.map((of) => of[field])).size > 1;
  return Object.fromEntries(
    ALLOWANCE_FIELDS.map((field) => [
      field,
      differs(field) ? t('allow.differ') : (words[0]?.[field] ?? ''),
    ]),
  ) as Record<Field, string>;
}

/** The allowances of one run or of several at once, folded away until somebody wants them. */
export function AllowanceFold({ jacks }: { jacks: readonly string[] }) {
  const actions = useActions();
  const plan = usePlan();
  const units = useUnits();
  const own = jacks.some((id) => plan.tables.jacks.get(id)?.allowances != null);
  const commit = (fields: OwnAllowances) => {
    actions.run('allow-jacks', { jacks, fields });
  };
  return (
    <Fold
      title={t.count('allow.title-all', jacks.length)}
      {...(own ? { aside: t('allow.own') } : {})}
    >
      <p className="note">{t('allow.hint')}</p>
      <AllowanceFields
        own={commonAllowances(plan, jacks)}
        above={aboveAll(plan, jacks, units)}
        differing={differingAllowances(plan, jacks)}
        onCommit={commit}
      />
      {own ? (
        <Button
          look="quiet"
          onClick={() => commit(Object.fromEntries(ALLOWANCE_FIELDS.map((field) => [field, null])))}
        >
          {t('allow.back')}
        </Button>
      ) : null}
    </Fold>
  );
}
