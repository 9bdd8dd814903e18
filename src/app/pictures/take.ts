import type { ChoosePage, PageChoice } from '../../desk/services.ts';
import type { Asset } from '../../ports/ports.ts';
import { hashOf } from '../../storage/assets.ts';
import type { Flat } from '../../worker/picture-protocol.ts';
import { flattenRaster, flattenSvg } from './flatten.ts';
import type { OpenPdf } from './pdf.ts';
import type { Sniffed } from './sniff.ts';
import { trouble } from './trouble.ts';

/** A picture that was taken in. */
export interface Taken {
  readonly asset: Asset;
  readonly width: number;
  readonly height: number;
  /** mm on paper for one pixel, where the file says its size. */
  readonly paper: number | null;
}

/** Pages that get a picture in the choice; those beyond are offered by their number. */
const PICTURED = 40;

type Kind = Exclude<Sniffed['kind'], 'plan' | 'empty' | 'other'>;

/** Takes a picture in: flattens it once and names it by its bytes; null when no page was chosen. */
export async function takePicture(
  file: File,
  kind: Kind,
  choosePage: ChoosePage,
): Promise<Taken | null> {
  if (kind === 'pdf') return takePdf(file, choosePage);
  const flat =
    kind === 'svg'
      ? await flattenSvg(file.name, file)
      : await flattenRaster(file.name, file, kind === 'jpeg');
  return taken(file.name, flat, null);
}

async function taken(name: string, flat: Flat, paper: number | null): Promise<Taken> {
  const { bytes, type, width, height } = flat;
  return { asset: { hash: await hashOf(bytes), name, type, bytes }, width, height, paper };
}

async function takePdf(file: File, choosePage: ChoosePage): Promise<Taken | null> {
  const { openPdf } = await import('./pdf.ts');
  const pdf = await openPdf(file.name, new Uint8Array(await file.arrayBuffer()));
  try {
    const page = pdf.pages === 1 ? 1 : await choose(file.name, pdf, choosePage);
    if (page === null) return null;
    const flat = await pdf.draw(page);
    return await taken(file.name, flat, flat.paper);
  } finally {
    await pdf.close();
  }
}

async function choose(name: string, pdf: OpenPdf, choosePage: ChoosePage): Promise<number | null> {
  const choices: PageChoice[] = [];
  for (let page = 1; page <= pdf.pages; page++) {
    const thumbnail = page <= PICTURED ? await pdf.thumbnail(page).catch(() => blank()) : blank();
    choices.push({ page, thumbnail });
  }
  try {
    return await choosePage(name, choices);
  } finally {
    for (const { thumbnail } of choices) URL.revokeObjectURL(thumbnail);
  }
}

const blank = (): string =>
  `data:image/svg+xml,${encodeURIComponent('<svg xmlns="http://www.w3.org/2000/svg" width="170" height="220"><path fill="#fff" stroke="#999" d="M.5.5h169v219H.5z"/></svg>')}`;

/**
 * A kept picture in a form that a canvas and a PDF take. Files written elsewhere may hold an SVG, a WebP or a PDF;
 * what was brought here is flat already.
 */
export async function flatOf(asset: Asset): Promise<{ type: string; bytes: Uint8Array }> {
  if (asset.type === 'image/png' || asset.type === 'image/jpeg') return asset;
  const blob = new Blob([asset.bytes as Uint8Array<ArrayBuffer>], { type: asset.type });
  if (asset.type === 'image/svg+xml') return flattenSvg(asset.name, blob);
  if (asset.type === 'image/webp') return flattenRaster(asset.name, blob, false);
  if (asset.type !== 'application/pdf')
    return trouble('The picture “{name}” is of a kind that cannot be shown.', { name: asset.name });
  const { openPdf } = await import('./pdf.ts');
  const pdf = await openPdf(asset.name, asset.bytes.slice());
  try {
    return await pdf.draw(1);
  } finally {
    await pdf.close();
  }
}
