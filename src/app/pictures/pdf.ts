import * as pdfjs from 'pdfjs-dist';
import workerUrl from 'pdfjs-dist/build/pdf.worker.min.mjs?url';
import type { Flat } from '../../worker/picture-protocol.ts';
import { MOST_PIXELS } from '../../worker/picture-size.ts';
import { flattenCanvas, whiteCanvas } from './flatten.ts';
import { trouble } from './trouble.ts';

/** Points in an inch. */
const POINTS = 72;
/** Finest drawing of a page, in pixels to the inch: beyond it only the file grows. */
const FINEST = 400;
const THUMBNAIL = 220;

/** A page of a PDF, drawn, with the size of one pixel on the paper. */
export interface DrawnPage extends Flat {
  /** mm on paper for one pixel. */
  readonly paper: number;
}

export interface OpenPdf {
  readonly pages: number;
  /** Address of a small picture of a page; give it back with `URL.revokeObjectURL`. */
  thumbnail(page: number): Promise<string>;
  draw(page: number): Promise<DrawnPage>;
  close(): Promise<void>;
}

/** Opens a PDF; throws `Trouble` for one that is locked, damaged or empty. */
export async function openPdf(name: string, bytes: Uint8Array): Promise<OpenPdf> {
  pdfjs.GlobalWorkerOptions.workerSrc = workerUrl;
  const base = new URL('pdfjs/', document.baseURI).href;
  const loading = pdfjs.getDocument({
    data: bytes,
    enableXfa: false,
    cMapUrl: `${base}cmaps/`,
    standardFontDataUrl: `${base}standard_fonts/`,
    wasmUrl: `${base}wasm/`,
    iccUrl: `${base}iccs/`,
  });
  const doc = await loading.promise.catch((error: unknown) => refuse(name, error));
  if (doc.numPages === 0) trouble('“{name}” has no pages. Bring another PDF.', { name });

  async function paint(page: pdfjs.PDFPageProxy, scale: number): Promise<OffscreenCanvas> {
    const viewport = page.getViewport({ scale });
    const { canvas, context } = whiteCanvas(
      Math.max(1, Math.floor(viewport.width)),
      Math.max(1, Math.floor(viewport.height)),
    );
    const canvasContext = context as unknown as CanvasRenderingContext2D;
    await page.render({ canvas: null, canvasContext, viewport }).promise;
    return canvas;
  }

  return {
    pages: doc.numPages,
    async thumbnail(n) {
      const page = await doc.getPage(n);
      const { width, height } = page.getViewport({ scale: 1 });
      const canvas = await paint(page, THUMBNAIL / Math.max(width, height));
      return URL.createObjectURL(await canvas.convertToBlob({ type: 'image/png' }));
    },
    async draw(n) {
      try {
        const page = await doc.getPage(n);
        const { width, height } = page.getViewport({ scale: 1 });
        const scale = Math.min(FINEST / POINTS, Math.sqrt(MOST_PIXELS / (width * height)));
        const flat = await flattenCanvas(await paint(page, scale));
        return { ...flat, paper: 25.4 / (POINTS * scale) };
      } catch {
        return trouble(
          'Page {page} of “{name}” cannot be drawn. Print it to a new PDF, or bring a picture of it.',
          {
            page: n,
            name,
          },
        );
      }
    },
    close: () => loading.destroy(),
  };
}

function refuse(name: string, error: unknown): never {
  if (error instanceof pdfjs.PasswordException)
    return trouble(
      '“{name}” is locked with a password. Print it to a new PDF without one, then bring that.',
      { name },
    );
  return trouble('“{name}” is damaged: no PDF can be read from it. Bring another copy of it.', {
    name,
  });
}
