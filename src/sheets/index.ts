import { planSheet } from './plan-sheet.ts';
import type { Sheet } from './sheet.ts';

/** Every sheet, in the order in which a set is bound. */
export const sheets: readonly Sheet[] = [planSheet];
