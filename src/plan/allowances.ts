import { type Jack, type Plan, type Settings, settings } from './plan.ts';

/** What is added to the path of a cable, and how it is ordered; lengths in mm. */
export type Allowances = Pick<
  Settings,
  'outletSlack' | 'fieldLoop' | 'closetLoop' | 'wastePercent' | 'orderStep'
>;

const FIELDS = [
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
  const kind = jack.device === null ? undefined : plan.tables.devices.get(jack.device)?.kind;
  const rows = kind === undefined ? [] : [...plan.tables.allowances.values()];
  const ofKind = rows.find((row) => row.kind === kind);
  const job = settings(plan);
  return Object.fromEntries(
    FIELDS.map((field) => [field, jack.allowances?.[field] ?? ofKind?.[field] ?? job[field]]),
  ) as unknown as Allowances;
}
