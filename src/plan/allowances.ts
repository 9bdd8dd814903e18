import { type Jack, type Plan, type Settings, settings } from './plan.ts';

/** What is added to the path of a cable, and how it is ordered; lengths in mm. */
export type Allowances = Pick<
  Settings,
  'outletSlack' | 'fieldLoop' | 'closetLoop' | 'wastePercent' | 'orderStep'
>;

/** The allowances, in the order in which they are shown. */
export const ALLOWANCE_FIELDS = [
  'outletSlack',
  'fieldLoop',
  'closetLoop',
  'wastePercent',
  'orderStep',
] as const satisfies readonly (keyof Allowances)[];

/**
 * The allowances of one jack's cable, field by field: its own, else those of the kind of device that it serves, else
 * those of the job.
 */
export function allowancesOf(plan: Plan, jack: Jack): Allowances {
  const ofKind = kindRow(plan, jack);
  const job = settings(plan);
  const of = (field: keyof Allowances) => jack.allowances?.[field] ?? ofKind?.[field] ?? job[field];
  return {
    outletSlack: of('outletSlack'),
    fieldLoop: of('fieldLoop'),
    closetLoop: of('closetLoop'),
    wastePercent: of('wastePercent'),
    orderStep: of('orderStep'),
  };
}

/** The row of the kind of device that a jack serves; undefined where that kind has no allowances of its own. */
function kindRow(plan: Plan, jack: Jack) {
  const kind = jack.device === null ? undefined : plan.tables.devices.get(jack.device)?.kind;
  if (kind === undefined) return undefined;
  for (const row of plan.tables.allowances.values()) if (row.kind === kind) return row;
  return undefined;
}

/** Who says what an allowance of a jack's cable is: the jack itself, the kind of its device, or the job. */
export function allowanceSource(
  plan: Plan,
  jack: Jack,
  field: keyof Allowances,
): 'jack' | 'kind' | 'job' {
  if (jack.allowances?.[field] != null) return 'jack';
  return kindRow(plan, jack)?.[field] != null ? 'kind' : 'job';
}
