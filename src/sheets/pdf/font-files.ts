import type { PdfFonts } from './write-pdf.ts';

/** The files of `public/fonts` that hold each face of the PDF, without their ending. */
export const FONT_FILES: Readonly<Record<keyof PdfFonts, string>> = {
  sans: 'AtkinsonHyperlegibleNext_400Regular',
  'sans-bold': 'AtkinsonHyperlegibleNext_700Bold',
  mono: 'AtkinsonHyperlegibleMono_400Regular',
  'mono-bold': 'AtkinsonHyperlegibleMono_700Bold',
};
