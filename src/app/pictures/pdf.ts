import * as pdfjs from 'pdfjs-dist';
import rendererUrl from 'pdfjs-dist/build/pdf.renderer.min.mjs?url';
import workerUrl from 'pdfjs-dist/build/pdf.worker.min.mjs?url';
import type { Part } from '../../drawing/display.ts';
import { fitPixels, MOST_PIXELS } from '../../worker/picture-size.ts';
import type { PageLines } from './page-lines.ts';
import { readPdfLines } from './pdf-lines.ts';
import { trouble } from './trouble.ts';

/** Points in an inch. */
const POINTS = 72;
/** Finest drawing of a page, in pixels to the inch: beyond it only the file grows. */
const FINEST = 400;
const THUMBNAIL = 220;

/** How large a page is, and as how many pixels it counts. */
export interface PageSize {
  readonly width: number;
  readonly height: number;
  /** mm on paper across. */
  readonly paper: number;
}

export interface OpenPdf {
  readonly pages: number;
  /** Address of a small picture of a page; give it back with `URL.revokeObjectURL`. */
  thumbnail(page: number): Promise<string>;
  /** The size of a page at the finest that is kept. */
  size(page: number): Promise<PageSize>;
  /**
   * Draws a part of a page, so many pixels wide and high, away from the screen. Rejects with an `AbortError` once the
   * signal says that nobody waits for it.
   */
  draw(
    page: number,
    part: Part,
    size: { readonly width: number; readonly height: number },
    signal?: AbortSignal,
  ): Promise<ImageBitmap>;
  /** What a page draws with straight lines and filled shapes, in points. */
  lines(page: number): Promise<PageLines>;
  close(): Promise<void>;
}

/** Opens a PDF; throws `Trouble` for one that is locked, damaged or empty. The bytes are handed over. */
export async function openPdf(name: string, bytes: Uint8Array): Promise<OpenPdf> {
  pdfjs.GlobalWorkerOptions.workerSrc = workerUrl;
  // Pages are drawn by a worker of the reader's own, so that the board stays live.
  pdfjs.GlobalWorkerOptions.rendererSrc = rendererUrl;
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

  const draw: OpenPdf['draw'] = async (n, part, { width, height }, signal) => {
    signal?.throwIfAborted();
    try {
      const page = await doc.getPage(n);
      const plain = page.getViewport({ scale: 1 });
      const scale = width / ((part.x1 - part.x0) * plain.width);
      const viewport = page.getViewport({
        scale,
        offsetX: -part.x0 * plain.width * scale,
        offsetY: -part.y0 * plain.height * scale,
      });
      const canvas = new OffscreenCanvas(width, height);
      const task = page.render({ canvas: canvas as unknown as HTMLCanvasElement, viewport });
      const stop = () => task.cancel();
      signal?.addEventListener('abort', stop);
      await task.promise.finally(() => signal?.removeEventListener('abort', stop));
      return canvas.transferToImageBitmap();
    } catch {
      signal?.throwIfAborted();
      return trouble(
        'Page {page} of “{name}” cannot be drawn. Print it to a new PDF, or bring a picture of it.',
        { page: n, name },
      );
    }
  };

  return {
    pages: doc.numPages,
    async thumbnail(n) {
      const page = await doc.getPage(n);
      const { width, height } = page.getViewport({ scale: 1 });
      const scale = THUMBNAIL / Math.max(width, height);
      const size = {
        width: Math.max(1, Math.round(width * scale)),
        height: Math.max(1, Math.round(height * scale)),
      };
      const bitmap = await draw(n, { x0: 0, y0: 0, x1: 1, y1: 1 }, size);
      const canvas = new OffscreenCanvas(size.width, size.height);
      canvas.getContext('bitmaprenderer')!.transferFromImageBitmap(bitmap);
      return URL.createObjectURL(await canvas.convertToBlob({ type: 'image/png' }));
    },
    async size(n) {
      const page = await doc.getPage(n);
      const { width, height } = page.getViewport({ scale: 1 });
      const scale = FINEST / POINTS;
      const pixels = fitPixels(width * scale, height * scale, MOST_PIXELS);
      return { ...pixels, paper: (width / POINTS) * 25.4 };
    },
    draw,
    async lines(n) {
      const page = await doc.getPage(n);
      const [operators, layers] = await Promise.all([
        page.getOperatorList(),
        doc.getOptionalContentConfig(),
      ]);
      return readPdfLines(operators, page.getViewport({ scale: 1 }), (group) =>
        layers.isVisible(group as Parameters<typeof layers.isVisible>[0]),
      );
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
