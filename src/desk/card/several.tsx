import { groupBy } from '../../base/group.ts';
import { jacksOfRefs } from '../../plan/jacks.ts';
import { type AnyEntity, type Plan, type Ref, refKey } from '../../plan/plan.ts';
import type { TableName } from '../../plan/schema.ts';
import { t } from '../../text/index.ts';
import { useActions, useKinds, useShownPlan } from '../context.tsx';
import { CheckField, type Option, SelectField } from '../controls/choices.tsx';
import { LengthField } from '../controls/fields.tsx';
import { Section } from '../controls/parts.tsx';
import { nameOf } from '../names.ts';
import { Along, Arrange, ReplaceKind } from './arrange.tsx';
import { AREAS, CONSTRUCTIONS, MOUNTS, PATHWAYS, TOPS } from './choices.ts';
import { DeleteButton } from './common.tsx';
import { CardHead } from './head.tsx';
import { RunsTogether } from './pinning.tsx';
import { Repeat } from './repeat.tsx';

/** Several things at once: how many of each, what they have in common, and what can be done to all. */
export function Several({ refs }: { refs: readonly Ref[] }) {
  const plan = useShownPlan();
  const kinds = useKinds();
  const counts = countNames(refs.map((ref) => nameKindOf(plan, kinds, ref)));
  const table = commonTable(refs);
  const jacks = jacksOfRefs(plan, refs);
  return (
    <>
      <CardHead title={titleOf(counts, refs.length)} below={t('several.below')} />
      {counts.length === 1 ? null : (
        <ul className="several-counts">
          {counts.map(([name, count]) => (
            <li key={name}>
              <span className="grow">{name}</span>
              <span className="figure">{count}</span>
            </li>
          ))}
        </ul>
      )}
      {table ? <CommonFields table={table} refs={refs} key={refs.map(refKey).join()} /> : null}
      {jacks.length > 0 ? <RunsTogether jacks={jacks} /> : null}
      <Arrange refs={refs} />
      <Repeat refs={refs} />
      <Along />
      <DeleteButton refs={refs} label={t('several.delete', { count: refs.length })} />
    </>
  );
}

/** What is alike is named; what is not is counted alone. */
const titleOf = ([first, ...others]: [string, number][], count: number): string =>
  first && others.length === 0
    ? t('several.same', { count, name: first[0] })
    : t('several.title', { count });

const nameKindOf = (plan: Plan, kinds: ReturnType<typeof useKinds>, ref: Ref): string => {
  // Counted by what they are, not by what each is called.
  if (ref.table === 'jacks') return t('thing.jacks');
  const row = plan.tables[ref.table].get(ref.id) as AnyEntity & { name?: string };
  if (!('name' in row) || row.name === '') return nameOf(plan, kinds, ref);
  return ref.table === 'devices'
    ? nameOf(withoutName(plan, ref), kinds, ref)
    : t(`thing.${ref.table}`);
};

const withoutName = (plan: Plan, ref: Ref): Plan => ({
  tables: {
    ...plan.tables,
    devices: new Map([[ref.id, { ...plan.tables.devices.get(ref.id)!, name: '' }]]),
  },
});

/** How often each name occurs, most often first. */
export const countNames = (names: readonly string[]): [string, number][] =>
  [...groupBy(names, (name) => name)]
    .map(([name, these]): [string, number] => [name, these.length])
    .sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));

const commonTable = (refs: readonly Ref[]): TableName | null =>
  refs.every((ref) => ref.table === refs[0]!.table) ? refs[0]!.table : null;

/** Fields that make sense for many at once, by table. */
const FIELDS: Partial<Record<TableName, readonly CommonField[]>> = {
  walls: [
    { name: 'construction', label: () => t('field.construction'), options: CONSTRUCTIONS },
    { name: 'top', label: () => t('field.top'), options: TOPS },
    { name: 'thickness', label: () => t('field.thickness'), length: true },
    { name: 'rated', label: () => t('field.rated') },
    { name: 'exterior', label: () => t('field.exterior') },
  ],
  devices: [
    { name: 'cord', label: () => t('field.cord'), length: true },
    { name: 'height', label: () => t('field.port-height'), length: true },
  ],
  outlets: [
    { name: 'mount', label: () => t('field.mount'), options: MOUNTS },
    { name: 'height', label: () => t('field.outlet-height'), length: true },
  ],
  zones: [{ name: 'area', label: () => t('field.area'), options: AREAS }],
  pathways: [{ name: 'kind', label: () => t('field.kind'), options: PATHWAYS }],
  keepouts: [{ name: 'clearance', label: () => t('field.clearance'), length: true }],
};

interface CommonField {
  readonly name: string;
  label(): string;
  readonly options?: () => readonly Option<string>[];
  readonly length?: true;
}

/** The value that all of them have in a field; undefined where they differ. */
export function commonValue(plan: Plan, refs: readonly Ref[], field: string): unknown {
  const values = refs.map(
    (ref) => (plan.tables[ref.table].get(ref.id) as unknown as Record<string, unknown>)?.[field],
  );
  return values.every((value) => value === values[0]) ? values[0] : undefined;
}

function CommonFields({ table, refs }: { table: TableName; refs: readonly Ref[] }) {
  const fields = FIELDS[table];
  if (!fields) return null;
  return (
    <Section title={t('several.common')}>
      {table === 'devices' ? <ReplaceKind refs={refs} /> : null}
      {fields.map((field) => (
        <CommonInput key={field.name} field={field} refs={refs} />
      ))}
    </Section>
  );
}

function CommonInput({ field, refs }: { field: CommonField; refs: readonly Ref[] }) {
  const plan = useShownPlan();
  const actions = useActions();
  const value = commonValue(plan, refs, field.name);
  // One step for all: they carry the same key, which no other edit has.
  const edit = (next: unknown) => {
    const merge = `several ${field.name} ${refs.map(refKey).join()} ${String(next)}`;
    for (const ref of refs)
      actions.run('edit', { table: ref.table, id: ref.id, fields: { [field.name]: next } }, merge);
    actions.select(refs);
  };
  if (field.options)
    return (
      <SelectField
        label={field.label()}
        value={value === undefined ? '' : String(value)}
        options={[
          ...(value === undefined ? [{ value: '', label: t('several.differ') }] : []),
          ...field.options(),
        ]}
        onChoose={(next) => next !== '' && edit(next)}
      />
    );
  if (field.length)
    return (
      <LengthField
        label={field.label()}
        value={typeof value === 'number' ? value : Number.NaN}
        onCommit={edit}
      />
    );
  return <CheckField label={field.label()} checked={value === true} onChange={edit} />;
}
