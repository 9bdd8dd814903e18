import type { TextMeasure } from './display.ts';
import { FONT_WIDTHS, type FontWidths } from './font-widths.ts';

/** Height of the capitals as a part of the em, the same in all faces (from the fonts). */
export const CAP_HEIGHT = 0.668;

type Lookup = (code: number) => number;

function lookup(font: FontWidths): Lookup {
  const table = new Map<number, number>();
  for (const [first, widths] of font.runs) {
    widths.forEach((width, i) => {
      table.set(first + i, width);
    });
  }
  return (code) => table.get(code) ?? font.missing;
}

const LOOKUPS: Readonly<Record<keyof typeof FONT_WIDTHS, Lookup>> = {
  sans: lookup(FONT_WIDTHS.sans),
  'sans-bold': lookup(FONT_WIDTHS['sans-bold']),
  mono: lookup(FONT_WIDTHS.mono),
  'mono-bold': lookup(FONT_WIDTHS['mono-bold']),
};

/**
 * Measures with the advance widths of the fonts that the program ships. No kerning: the PDF sets none, and a canvas
 * agrees with `fontKerning = 'none'`.
 */
export const fontMeasure: TextMeasure = {
  width(text, size, face, bold) {
    const widthOf = LOOKUPS[bold ? (`${face}-bold` as const) : face];
    let sum = 0;
    for (const char of text) sum += widthOf(char.codePointAt(0)!);
    return (sum * size) / 1000;
  },
};

/** Breaks words into lines no wider than `width`; a word that is too long alone stands on a line of its own. */
export function wrapText(
  measure: TextMeasure,
  text: string,
  width: number,
  size: number,
  bold = false,
): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((w) => w !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && measure.width(longer, size, 'sans', bold) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  if (line !== '') lines.push(line);
  return lines;
}

/** Cuts a text with an ellipsis so that it is no wider than `width`. */
export function fitText(
  measure: TextMeasure,
  text: string,
  width: number,
  size: number,
  face: 'sans' | 'mono' = 'sans',
  bold = false,
): string {
  if (measure.width(text, size, face, bold) <= width) return text;
  let cut = text;
  while (cut.length > 1 && measure.width(`${cut}…`, size, face, bold) > width)
    cut = cut.slice(0, -1).trimEnd();
  return `${cut}…`;
}
