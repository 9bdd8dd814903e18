import { type Message, renderMessage } from '../base/message.ts';
import type { Ink, Mark } from '../drawing/display.ts';
import { fitText } from '../drawing/measure.ts';
import { rect } from '../drawing/symbols.ts';
import type { Point } from '../geometry/point.ts';
import { job } from '../plan/plan.ts';
import type { Page, SheetContext } from './sheet.ts';
import { PAPERS } from './sheet.ts';

/** Nothing is printed nearer to the paper's edge, mm: half an inch, which every printer can reach. */
export const MARGIN = 12.7;
/** The border's middle lies so far inside that its ink stays within the margin. */
const BORDER = 0.6;
export const EDGE = MARGIN + BORDER / 2;

export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Width and height of a sheet. */
export function paperSize(
  { paper }: Pick<SheetContext, 'paper'>,
  landscape: boolean,
): { readonly width: number; readonly height: number } {
  const { short, long } = PAPERS[paper];
  return landscape ? { width: long, height: short } : { width: short, height: long };
}

/** What lies inside the border of a sheet. */
export const insideBorder = (size: { width: number; height: number }): Rect => ({
  x: EDGE,
  y: EDGE,
  width: size.width - 2 * EDGE,
  height: size.height - 2 * EDGE,
});

/** The outline of a box on the sheet; `line` in paper mm. */
export const box = ({ x, y, width, height }: Rect, line = 0.25): Mark =>
  rect(x, y, width, height, { stroke: 'ink', width: line });

/** The border of a sheet. */
export const border = (size: { width: number; height: number }): Mark =>
  box(insideBorder(size), BORDER);

/** A straight line on the sheet; `width` in paper mm. */
export const ruleLine = (a: Point, b: Point, width = 0.25, stroke: Ink = 'ink'): Mark => ({
  op: 'line',
  points: [a, b],
  style: { stroke, width },
});

export interface TextLook {
  readonly bold?: boolean;
  readonly face?: 'sans' | 'mono';
  readonly ink?: Ink;
  readonly align?: 'left' | 'centre' | 'right';
  readonly vertical?: 'baseline' | 'middle';
}

/** Words on the sheet; `size` is the height of the type in paper mm. */
export const text = (at: Point, words: string, size: number, look: TextLook = {}): Mark => ({
  op: 'text',
  at,
  text: words,
  size,
  ink: 'ink',
  ...look,
});

/** A text that is made smaller, down to the least size, before it is cut to fit a width. */
export function textWithin(
  { measure }: Pick<SheetContext, 'measure'>,
  at: Point,
  words: string,
  width: number,
  [size, least]: readonly [number, number],
  look: TextLook = {},
): Mark {
  const face = look.face ?? 'sans';
  const bold = look.bold ?? false;
  const natural = measure.width(words, size, face, bold);
  const fitted = natural <= width ? size : Math.max(least, (size * width) / natural);
  return text(at, fitText(measure, words, width + 0.01, fitted, face, bold), fitted, look);
}

/** Words in the job's units. */
export const say = ({ plan }: Pick<SheetContext, 'plan'>, message: Message): string =>
  renderMessage(message, job(plan).units);

/** Fills in `n of m` on every page. */
export function numbered(pages: readonly Page[]): Page[] {
  return pages.map((page, i) => {
    if (!page.number) return page;
    const { at, size } = page.number;
    const words = `${i + 1} of ${pages.length}`;
    return {
      ...page,
      marks: [...page.marks, text(at, words, size, { bold: true, align: 'centre' })],
    };
  });
}
