import type { Mark } from '../drawing/display.ts';
import { hasLetter } from '../drawing/measure.ts';
import type { Page } from './sheet.ts';

function* textsOf(marks: readonly Mark[]): Iterable<Extract<Mark, { op: 'text' }>> {
  for (const mark of marks) {
    if (mark.op === 'text') yield mark;
    if (mark.op === 'group' || mark.op === 'symbol') yield* textsOf(mark.marks);
  }
}

/** The letters on some pages that the fonts of the sheets do not have, each once, in the order in which they come. */
export function lackingLetters(pages: readonly Page[]): string[] {
  const lacking = new Set<string>();
  for (const page of pages)
    for (const { text, face = 'sans' } of textsOf(page.marks))
      for (const letter of text.normalize('NFC')) if (!hasLetter(letter, face)) lacking.add(letter);
  return [...lacking];
}
