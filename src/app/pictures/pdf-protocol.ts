import type { Part } from '../../drawing/display.ts';
import type { PackedPage } from './page-placed.ts';

/** How large a page is, and as how many pixels it counts at the finest that is kept. */
export interface PageSize {
  readonly width: number;
  readonly height: number;
  /** mm on paper across. */
  readonly paper: number;
}

/** Draws a part of a page, so many pixels wide and high; the signal says that nobody waits for it any longer. */
export type DrawPart = (
  page: number,
  part: Part,
  size: { readonly width: number; readonly height: number },
  signal?: AbortSignal,
) => Promise<ImageBitmap>;

/** What can be asked of the reader of a PDF, and what it answers. */
export interface PdfJobs {
  /** Opens a file; `home` is where the page's own files lie. Answers how many pages it has. */
  open: { ask: { readonly file: Blob; readonly home: string }; answer: number };
  /** A small picture of a page, as a PNG. */
  thumbnail: { ask: { readonly page: number }; answer: Blob };
  size: { ask: { readonly page: number }; answer: PageSize };
  /** Draws a part of a page, so many pixels wide and high. */
  draw: {
    ask: {
      readonly page: number;
      readonly part: Part;
      readonly width: number;
      readonly height: number;
    };
    answer: ImageBitmap;
  };
  /** What a page draws with straight lines and filled shapes. */
  lines: { ask: { readonly page: number }; answer: PackedPage };
}

/** One question; its answer bears the same number. */
export type PdfAsk = {
  [W in keyof PdfJobs]: { readonly id: number; readonly want: W } & PdfJobs[W]['ask'];
}[keyof PdfJobs];

/** Nobody waits any longer for the answer to a question. */
export interface PdfStop {
  readonly stop: number;
}

/** Why a file is not read. */
export type PdfRefusal = 'locked' | 'damaged' | 'empty';

export type PdfAnswer =
  | { readonly id: number; readonly done: PdfJobs[keyof PdfJobs]['answer'] }
  | { readonly id: number; readonly refused: PdfRefusal }
  | { readonly id: number; readonly failed: string };
