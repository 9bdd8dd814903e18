import type { Message } from '../base/message.ts';
import { fontMeasure } from '../drawing/measure.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import type { Plan } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';
import { numbered } from './frame.ts';
import { sheets } from './index.ts';
import type { Page, PaperName } from './sheet.ts';

export interface PrintOptions {
  readonly paper: PaperName;
  /** Ids of the sheets, in any order; all where it is left out. Ids that no sheet has are passed over. */
  readonly sheets?: readonly string[];
  /** The day of printing in words. */
  readonly printed: string;
}

/** The sheets that can be printed, in their order. */
export const sheetList = (): readonly { readonly id: string; readonly title: Message }[] =>
  sheets.map(({ id, title }) => ({ id, title }));

/** The pages of a job, numbered through; what the program prints in the browser and at the command line. */
export function printJob(
  plan: Plan,
  survey: Survey,
  kinds: KindRegistry,
  options: PrintOptions,
): Page[] {
  const { paper, printed } = options;
  const wanted = sheets.filter(({ id }) => options.sheets?.includes(id) ?? true);
  const context = { plan, survey, kinds, paper, measure: fontMeasure, printed };
  return numbered(wanted.flatMap((sheet) => sheet.pages(context)));
}
