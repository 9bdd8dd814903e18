import type { Message } from '../base/message.ts';
import type { Mark, TextMeasure } from '../drawing/display.ts';
import type { Point } from '../geometry/point.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import type { Plan } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';

export type PaperName = 'letter' | 'tabloid' | 'a4' | 'a3';

/** Sizes in mm, short side first. Letter 8.5 × 11 in and Tabloid 11 × 17 in (ANSI/ASME Y14.1); A4, A3 (ISO 216). */
export const PAPERS: Readonly<
  Record<PaperName, { readonly short: number; readonly long: number }>
> = {
  letter: { short: 215.9, long: 279.4 },
  tabloid: { short: 279.4, long: 431.8 },
  a4: { short: 210, long: 297 },
  a3: { short: 297, long: 420 },
};

/** A page to be printed: its size and its marks, in paper mm from the top left corner. */
export interface Page {
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
  /** Where `3 of 7` goes; printing fills it in once all pages are known. */
  readonly number?: { readonly at: Point; readonly size: number };
}

export interface SheetContext {
  readonly plan: Plan;
  readonly survey: Survey;
  readonly kinds: KindRegistry;
  readonly paper: PaperName;
  readonly measure: TextMeasure;
  /** Day of printing in words; the caller's clock, so that sheets stay reproducible. */
  readonly printed: string;
}

/** One kind of sheet. A file in this folder and a line in `index.ts`; it sees neither a canvas nor a PDF library. */
export interface Sheet {
  readonly id: string;
  readonly title: Message;
  pages(context: SheetContext): readonly Page[];
}
