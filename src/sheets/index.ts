import { planSheet } from './plan-sheet.ts';
import { quoteSheet } from './quote-sheet.ts';
import { recordSheet } from './record-sheet.ts';
import { scheduleSheet } from './schedule-sheet.ts';
import type { Sheet } from './sheet.ts';

/** Every sheet, in the order in which a set is bound. */
export const sheets: readonly Sheet[] = [planSheet, scheduleSheet, recordSheet, quoteSheet];
