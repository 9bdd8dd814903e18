import * as pdfjs from 'pdfjs-dist';
import parserUrl from 'pdfjs-dist/build/pdf.worker.min.mjs?url';
import { WHOLE } from '../../drawing/display.ts';
import { fitPixels, MOST_PIXELS } from '../../worker/picture-size.ts';
import { type PackedPage, packPage } from './page-placed.ts';
import { NoFilters, WorkerCanvases } from './pdf-canvases.ts';
import { readPdfLines } from './pdf-lines.ts';
import type { DrawPart, PageSize, PdfRefusal } from './pdf-protocol.ts';

/** Points in an inch. */
const POINTS = 72;
/** Finest drawing of a page, in pixels to the inch: beyond it only the file grows. */
const FINEST = 400;
const THUMBNAIL = 220;

/** A PDF that is read in the worker where this runs. */
export interface PdfReader {
  readonly pages: number;
  thumbnail(page: number): Promise<Blob>;
  size(page: number): Promise<PageSize>;
  readonly draw: DrawPart;
  lines(page: number): Promise<PackedPage>;
}

/** Why a file is not read. */
export class Refused extends Error {
  readonly why: PdfRefusal;

  constructor(why: PdfRefusal) {
    super(why);
    this.why = why;
  }
}

/** The parser, in a worker below this one: pages are drawn while the next of their parts are unpacked. */
function startParser(): pdfjs.PDFWorker {
  const parser = new Worker(new URL(parserUrl, import.meta.url), { type: 'module' });
  parser.addEventListener('error', (event) => {
    // What is thrown here ends this worker's work as well, which says so to whoever waits.
    throw new Error(event.message || 'its parser did not start');
  });
  return new pdfjs.PDFWorker({ port: parser as unknown as null });
}

/** Opens a PDF; `home` is where the page's own files lie. Throws `Refused` for one that cannot be read. */
export async function readPdf(file: Blob, home: string): Promise<PdfReader> {
  const base = new URL('pdfjs/', home).href;
  const loading = pdfjs.getDocument({
    data: await file.arrayBuffer(),
    worker: startParser(),
    // A worker has its own fonts, under the same name as a document has.
    ownerDocument: globalThis as unknown as HTMLDocument,
    CanvasFactory: WorkerCanvases,
    FilterFactory: NoFilters,
    useWorkerFetch: true,
    enableXfa: false,
    cMapUrl: `${base}cmaps/`,
    standardFontDataUrl: `${base}standard_fonts/`,
    wasmUrl: `${base}wasm/`,
    iccUrl: `${base}iccs/`,
  });
  const doc = await loading.promise.catch((error: unknown) => {
    throw new Refused(error instanceof pdfjs.PasswordException ? 'locked' : 'damaged');
  });
  if (doc.numPages === 0) throw new Refused('empty');

  const draw: DrawPart = async (n, part, { width, height }, signal) => {
    const page = await doc.getPage(n);
    signal?.throwIfAborted();
    const plain = page.getViewport({ scale: 1 });
    const scale = width / ((part.x1 - part.x0) * plain.width);
    const viewport = page.getViewport({
      scale,
      offsetX: -part.x0 * plain.width * scale,
      offsetY: -part.y0 * plain.height * scale,
    });
    const canvas = new OffscreenCanvas(width, height);
    const task = page.render({ canvas: canvas as unknown as HTMLCanvasElement, viewport });
    task.onContinue = afterMessages;
    const stop = () => task.cancel();
    signal?.addEventListener('abort', stop);
    await task.promise.finally(() => signal?.removeEventListener('abort', stop));
    return canvas.transferToImageBitmap();
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
      const bitmap = await draw(n, WHOLE, size);
      const canvas = new OffscreenCanvas(size.width, size.height);
      canvas.getContext('bitmaprenderer')!.transferFromImageBitmap(bitmap);
      return canvas.convertToBlob({ type: 'image/png' });
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
      const lines = readPdfLines(operators, page.getViewport({ scale: 1 }), (group) =>
        layers.isVisible(group as Parameters<typeof layers.isVisible>[0]),
      );
      return packPage(lines);
    },
  };
}

const waiting: (() => void)[] = [];
const turns = new MessageChannel();
turns.port1.onmessage = () => waiting.shift()?.();

/**
 * Goes on once the messages that have come are read: pdfjs pauses every few milliseconds, and the word to stop comes as
 * a message. A timer would wait longer than that each time.
 */
function afterMessages(goOn: () => void): void {
  waiting.push(goOn);
  turns.port2.postMessage(null);
}
