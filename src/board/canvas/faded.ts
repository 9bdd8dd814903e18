import type { Ink } from '../../drawing/display.ts';
import { PALETTES, type Palette } from '../../drawing/palette.ts';
import type { BoardTheme } from './paint-board.ts';

const channels = (colour: string): readonly number[] =>
  [1, 3, 5].map((i) => Number.parseInt(colour.slice(i, i + 2), 16));

const mixed = (a: string, b: string, share: number): string => {
  const to = channels(b);
  const hex = channels(a).map((v, i) => Math.round(v * share + to[i]! * (1 - share)));
  return `#${hex.map((v) => v.toString(16).padStart(2, '0')).join('')}`;
};

const made = new Map<string, Palette>();

/**
 * A theme's inks, nearer to the paper. What is faded stays solid, so that nothing shows through a symbol, as it would
 * if it were made transparent.
 *
 * @param strength 1 for the inks as they are, 0 for paper
 */
export function fadedPalette(theme: BoardTheme, strength: number): Palette {
  const palette = PALETTES[theme];
  if (strength >= 1) return palette;
  const key = `${theme} ${strength}`;
  let faded = made.get(key);
  if (!faded) {
    const inks = Object.entries(palette) as [Ink, string][];
    faded = Object.fromEntries(
      inks.map(([ink, colour]) => [ink, mixed(colour, palette.paper, strength)]),
    ) as Palette;
    made.set(key, faded);
  }
  return faded;
}
