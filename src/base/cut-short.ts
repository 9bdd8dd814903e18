/** The beginning of a text, no longer than `most`, and never with half a letter at its end, as an emoji may leave. */
export const cutShort = (text: string, most: number): string =>
  text.slice(0, most).replace(/[\ud800-\udbff]$/, '');
