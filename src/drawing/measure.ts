import { cutShort } from '../base/cut-short.ts';
import type { TextMeasure } from './display.ts';
import { FONT_WIDTHS, type FontWidths } from './font-widths.ts';

/** Height of the capitals as a part of the em, the same in all faces (from the fonts). */
export const CAP_HEIGHT = 0.668;

interface Lookup {
  readonly table: ReadonlyMap<number, number>;
  readonly missing: number;
}

function lookup(font: FontWidths): Lookup {
  const table = new Map<number, number>();
  for (const [first, widths] of font.runs) {
    widths.forEach((width, i) => {
      table.set(first + i, width);
    });
  }
  return { table, missing: font.missing };
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
    const { table, missing } = LOOKUPS[bold ? (`${face}-bold` as const) : face];
    let sum = 0;
    for (const char of text) sum += table.get(char.codePointAt(0)!) ?? missing;
    return (sum * size) / 1000;
  },
};

/** Letters that say how others are put together, and have no outline of their own. */
const BETWEEN = /[\p{Cc}\p{Cf}\p{M}]/u;

/** Whether the fonts that the program ships have a letter; a box stands in its place where they have not. */
export const hasLetter = (letter: string, face: 'sans' | 'mono'): boolean =>
  BETWEEN.test(letter) || LOOKUPS[face].table.has(letter.codePointAt(0)!);

/** A word in pieces no wider than `width`: itself where it fits. */
function piecesOf(word: string, widthOf: (text: string) => number, width: number): string[] {
  if (widthOf(word) <= width) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const letter of word) {
    if (piece !== '' && widthOf(piece + letter) > width) {
      pieces.push(piece);
      piece = '';
    }
    piece += letter;
  }
  return [...pieces, piece];
}

/** Breaks words into lines no wider than `width`; a word that is too long for a line is broken as well. */
export function wrapText(
  measure: TextMeasure,
  text: string,
  width: number,
  size: number,
  bold = false,
): string[] {
  const widthOf = (words: string): number => measure.width(words, size, 'sans', bold);
  const lines: string[] = [];
  let line = '';
  const words = text.split(/\s+/).filter((w) => w !== '');
  for (const word of words.flatMap((whole) => piecesOf(whole, widthOf, width))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && widthOf(longer) > width) {
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
    cut = cutShort(cut, cut.length - 1).trimEnd();
  return `${cut}…`;
}
