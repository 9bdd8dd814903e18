import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as fontkit from 'fontkit';

/**
 * Reads the advance widths out of the fonts that the program ships and writes `src/drawing/font-widths.ts`:
 * `npx tsx tests/unit/drawing/make-font-widths.ts`. Its test compares the file with the fonts.
 */
const FONTS = {
  sans: 'AtkinsonHyperlegibleNext_400Regular.ttf',
  'sans-bold': 'AtkinsonHyperlegibleNext_700Bold.ttf',
  mono: 'AtkinsonHyperlegibleMono_400Regular.ttf',
  'mono-bold': 'AtkinsonHyperlegibleMono_700Bold.ttf',
} as const;

const root = new URL('../../../', import.meta.url);

export interface Widths {
  missing: number;
  runs: [first: number, widths: number[]][];
}

/** Advance widths in thousandths of the em, in runs of neighbouring characters. */
export function widthsOf(file: string): Widths {
  const font = fontkit.create(readFileSync(new URL(`public/fonts/${file}`, root))) as fontkit.Font;
  const width = (glyph: fontkit.Glyph) => Math.round((glyph.advanceWidth * 1000) / font.unitsPerEm);
  const runs: Widths['runs'] = [];
  for (const code of [...font.characterSet].sort((a, b) => a - b)) {
    const last = runs[runs.length - 1];
    const w = width(font.glyphForCodePoint(code));
    if (last && last[0] + last[1].length === code) last[1].push(w);
    else runs.push([code, [w]]);
  }
  return { missing: width(font.getGlyph(0)), runs };
}

export const allWidths = (): Record<string, Widths> =>
  Object.fromEntries(Object.entries(FONTS).map(([name, file]) => [name, widthsOf(file)]));

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const body = Object.entries(allWidths())
    .map(([name, { missing, runs }]) => {
      const rows = runs.map(([first, widths]) => `      [${first}, [${widths.join(', ')}]],`);
      return `  '${name}': {\n    missing: ${missing},\n    runs: [\n${rows.join('\n')}\n    ],\n  },`;
    })
    .join('\n');
  writeFileSync(
    new URL('src/drawing/font-widths.ts', root),
    `/** Made by tests/unit/drawing/make-font-widths.ts from public/fonts; do not edit. */
export interface FontWidths {
  /** Width of what stands for a character that the font does not have. */
  readonly missing: number;
  /** First character of a run and the widths of it and its followers, in thousandths of the em. */
  readonly runs: readonly (readonly [first: number, widths: readonly number[]])[];
}

export const FONT_WIDTHS: Readonly<
  Record<'sans' | 'sans-bold' | 'mono' | 'mono-bold', FontWidths>
> = {
${body}
};
`,
  );
}
