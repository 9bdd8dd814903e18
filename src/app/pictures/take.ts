import type { ChoosePage } from '../../desk/services.ts';
import { WHOLE } from '../../drawing/display.ts';
import type { Asset } from '../../ports/ports.ts';
import { hashOf } from '../../storage/assets.ts';
import { isPhoto } from '../../worker/light-share.ts';
import type { Flat } from '../../worker/picture-protocol.ts';
import { fitPixels } from '../../worker/picture-size.ts';
import { flattenDrawing, flattenRaster } from './flatten.ts';
import type { OpenPdf } from './pdf.ts';
import type { Sniffed } from './sniff.ts';
import { HEADER, statedDots } from './stated-dots.ts';
import { openSvg } from './svg.ts';
import { trouble } from './trouble.ts';

/** A picture that was taken in. */
export interface Taken {
  readonly asset: Asset;
  readonly page: number;
  readonly width: number;
  readonly height: number;
  /** How wide it is on paper, mm, where the file says so. */
  readonly paper: number | null;
  /** How many of its pixels make an inch on paper, as the header of a scan says; nobody has checked it. */
  readonly dots: number | null;
  /** Whether it is a photo, and not lines on paper, as its pixels have it. */
  readonly photo: boolean;
}

/** How a picture is taken in. */
export interface Taking {
  readonly choosePage: ChoosePage;
  /** Stops it; what was begun then rejects with an `AbortError`. */
  readonly signal: AbortSignal;
  /** Tells how far it is, 0 to 1. */
  progress(share: number): void;
}

/** Bytes of a PDF or an SVG up to which it is kept as it is, sharp at any zoom; a larger one is kept as a picture. */
export const MOST_KEPT = { pdf: 24_000_000, svg: 8_000_000 } as const;
/** Pixels of a first look at a drawing that is kept as it is: whether it can be drawn at all. */
const LOOK = 1_000_000;

type Kind = Exclude<Sniffed['kind'], 'plan' | 'empty' | 'other'>;

/**
 * Takes a picture in: pictures are flattened once, drawings kept as they are unless they are very large. Named by its
 * bytes. Null when no page was chosen.
 */
export async function takePicture(file: File, kind: Kind, taking: Taking): Promise<Taken | null> {
  if (kind === 'pdf') return takePdf(file, taking);
  if (kind === 'svg') return takeSvg(file, taking);
  taking.progress(0.2);
  const flat = await flattenRaster(file.name, file, kind === 'jpeg', taking.signal);
  taking.progress(0.8);
  const stated = statedDots(new Uint8Array(await file.slice(0, HEADER).arrayBuffer()));
  return { ...(await flattened(file.name, flat, null)), dots: stated && dotsOf(flat, stated) };
}

/** The dots that are left to an inch of a picture that may have been made smaller. */
const dotsOf = (flat: Flat, stated: NonNullable<ReturnType<typeof statedDots>>): number =>
  stated.dots * Math.sqrt((flat.width * flat.height) / (stated.width * stated.height));

async function flattened(name: string, flat: Flat, paper: number | null): Promise<Taken> {
  const { bytes, type, width, height, colours: photo } = flat;
  const asset = { hash: await hashOf(bytes), name, type, bytes };
  return { asset, page: 1, width, height, paper, dots: null, photo };
}

async function takeSvg(file: File, { signal, progress }: Taking): Promise<Taken> {
  progress(0.2);
  const svg = await openSvg(file.name, file);
  try {
    const { width, height, paper } = svg.size;
    if (file.size > MOST_KEPT.svg) {
      const flat = await flattenDrawing(await svg.draw(WHOLE, svg.size), signal);
      return await flattened(file.name, flat, paper);
    }
    const photo = looked(await svg.draw(WHOLE, fitPixels(width, height, LOOK)));
    progress(0.8);
    const bytes = new Uint8Array(await file.arrayBuffer());
    signal.throwIfAborted();
    const hash = await hashOf(bytes);
    const asset = { hash, name: file.name, type: 'image/svg+xml', bytes };
    return { asset, page: 1, width, height, paper, dots: null, photo };
  } finally {
    svg.close();
  }
}

async function takePdf(file: File, taking: Taking): Promise<Taken | null> {
  const { signal, progress } = taking;
  const { openPdf } = await import('./pdf.ts');
  progress(0.15);
  const pdf = await openPdf(file.name, file, signal);
  try {
    progress(0.4);
    const page = pdf.pages === 1 ? 1 : await choose(file.name, pdf, taking);
    if (page === null) return null;
    const { paper, ...size } = await pdf.size(page);
    if (file.size > MOST_KEPT.pdf) {
      const drawn = await pdf.draw(page, WHOLE, size, signal);
      progress(0.7);
      return await flattened(file.name, await flattenDrawing(drawn, signal), paper);
    }
    const look = fitPixels(size.width, size.height, LOOK);
    const photo = looked(await pdf.draw(page, WHOLE, look, signal));
    progress(0.8);
    const bytes = new Uint8Array(await file.arrayBuffer());
    signal.throwIfAborted();
    const hash = await hashOf(bytes);
    const asset = { hash, name: file.name, type: 'application/pdf', bytes };
    return { asset, page, ...size, paper, dots: null, photo };
  } finally {
    pdf.close();
  }
}

/** Whether what was drawn for a first look is a photo; it is of no further use. */
function looked(bitmap: ImageBitmap): boolean {
  const photo = isPhoto(bitmap);
  bitmap.close();
  return photo;
}

/** Offers the pages at once; their pictures come as they are drawn, one after another, until somebody has chosen. */
async function choose(name: string, pdf: OpenPdf, { choosePage }: Taking): Promise<number | null> {
  const drawn: string[] = [];
  let chosen = false;
  let last: Promise<unknown> = Promise.resolve();
  const thumbnail = (page: number): Promise<string | null> => {
    const next = last.then(async () => {
      if (chosen) return null;
      const address = await pdf.thumbnail(page).catch(() => null);
      if (address !== null) drawn.push(address);
      return address;
    });
    last = next;
    return next;
  };
  const pages = Array.from({ length: pdf.pages }, (_, i) => ({
    page: i + 1,
    thumbnail: () => thumbnail(i + 1),
  }));
  try {
    return await choosePage(name, pages);
  } finally {
    chosen = true;
    await last;
    for (const address of drawn) URL.revokeObjectURL(address);
  }
}

/** A kept picture as pixels, as fine as may be kept: its file where that is pixels already, else what it draws. */
export async function pixelsOf(
  { name, type, bytes }: Asset,
  page: number,
  signal?: AbortSignal,
): Promise<Blob | ImageBitmap> {
  const blob = new Blob([bytes as Uint8Array<ArrayBuffer>], { type });
  if (['image/png', 'image/jpeg', 'image/webp'].includes(type)) return blob;
  if (type === 'image/svg+xml') {
    const svg = await openSvg(name, blob);
    try {
      return await svg.draw(WHOLE, svg.size);
    } finally {
      svg.close();
    }
  }
  if (type !== 'application/pdf')
    return trouble('The picture “{name}” is of a kind that cannot be shown.', { name });
  const { openPdf } = await import('./pdf.ts');
  const pdf = await openPdf(name, blob, signal);
  try {
    return await pdf.draw(page, WHOLE, await pdf.size(page), signal);
  } finally {
    pdf.close();
  }
}

/** A kept picture in a form that a PDF takes: PNG or JPEG. */
export async function flatOf(
  asset: Asset,
  page: number,
): Promise<{ type: string; bytes: Uint8Array }> {
  if (asset.type === 'image/png' || asset.type === 'image/jpeg') return asset;
  const pixels = await pixelsOf(asset, page);
  return pixels instanceof Blob ? flattenRaster(asset.name, pixels, false) : flattenDrawing(pixels);
}
