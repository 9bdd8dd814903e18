import { pictureKey } from '../drawing/display.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { job, type Plan } from '../plan/plan.ts';
import type { AssetPort } from '../ports/ports.ts';
import type { Survey } from '../results/types.ts';
import { FONT_FILES } from '../sheets/pdf/font-files.ts';
import type { PdfAsset, PdfFonts } from '../sheets/pdf/write-pdf.ts';
import type { PaperName } from '../sheets/sheet.ts';
import { flatOf } from './pictures/take.ts';
import { trouble } from './pictures/trouble.ts';

async function fontBytes(name: string): Promise<Uint8Array> {
  const answer = await fetch(new URL(`fonts/${name}.ttf`, document.baseURI));
  if (!answer.ok)
    trouble('A font for printing could not be loaded. Reload the page, then print again.');
  return new Uint8Array(await answer.arrayBuffer());
}

async function fonts(): Promise<PdfFonts> {
  const entries = Object.entries(FONT_FILES).map(
    async ([face, name]) => [face, await fontBytes(name)] as const,
  );
  return Object.fromEntries(await Promise.all(entries)) as unknown as PdfFonts;
}

async function pictures(plan: Plan, store: AssetPort): Promise<Map<string, PdfAsset>> {
  const found = new Map<string, PdfAsset>();
  const { canEmbed } = await import('../sheets/pdf/embed-page.ts');
  for (const { asset: hash, page, hidden } of plan.tables.backgrounds.values()) {
    const key = pictureKey(hash, page);
    if (hidden || found.has(key)) continue;
    const asset = await store.get(hash);
    if (!asset)
      trouble('A background of this job is no longer on this device. Hide or remove it to print.');
    // A page of a PDF is printed as the lines that it is; one that would come out otherwise, as a fine picture.
    const asLines = asset.type === 'application/pdf' && (await canEmbed(asset.bytes, page));
    found.set(key, asLines ? asset : await flatOf(asset, page));
  }
  return found;
}

/** A printed job, and the letters in it that its fonts do not have. */
export interface Printed {
  readonly pdf: Blob;
  readonly pages: number;
  readonly lacking: readonly string[];
}

/** The printed job as a PDF. The writer and the sheets are loaded when they are first needed. */
export async function printedPdf(
  plan: Plan,
  survey: Survey,
  kinds: KindRegistry,
  store: AssetPort,
  choice: { readonly paper: PaperName; readonly sheets: readonly string[]; readonly now: Date },
): Promise<Printed> {
  const [{ printJob }, { lackingLetters }, { writePdf }, faces, assets] = await Promise.all([
    import('../sheets/print-job.ts'),
    import('../sheets/lacking-letters.ts'),
    import('../sheets/pdf/write-pdf.ts'),
    fonts(),
    pictures(plan, store),
  ]);
  const { paper, sheets, now } = choice;
  const printed = new Intl.DateTimeFormat('en-US', { dateStyle: 'long' }).format(now);
  const pages = printJob(plan, survey, kinds, { paper, sheets, printed });
  const options = { fonts: faces, assets, title: job(plan).name, date: now };
  const bytes = await writePdf(pages, options);
  const pdf = new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'application/pdf' });
  return { pdf, pages: pages.length, lacking: lackingLetters(pages) };
}
