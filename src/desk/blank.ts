import type { Plan } from '../plan/plan.ts';
import { TABLES, type TableName } from '../plan/schema.ts';

/** Tables that a job has from the start. */
const GIVEN: readonly TableName[] = ['job', 'settings', 'prices', 'levels'];

/** Whether nothing that needs cable has been placed yet, so that there is nothing to measure or to price. */
export const isUnplaced = (plan: Plan): boolean =>
  plan.tables.devices.size === 0 && plan.tables.jacks.size === 0;

/** Whether nothing has been drawn or placed yet. */
export const isBlank = (plan: Plan): boolean =>
  TABLES.every((table) => GIVEN.includes(table) || plan.tables[table].size === 0);
