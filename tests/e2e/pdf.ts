import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { BrowserContext } from '@playwright/test';
import type { PdfOperators } from '../../src/app/pictures/pdf-lines.ts';

/** A PDF as another program reads it. */
export interface ReadPdf {
  /** Width and height in mm, and the text that can be selected. */
  readonly pages: readonly { readonly size: readonly [number, number]; readonly text: string }[];
  /** What printing programs are told about scaling; null where nothing is said. */
  readonly printScaling: string | null;
  readonly title: string;
}

const reader = (file: string): string =>
  readFileSync(createRequire(import.meta.url).resolve(`pdfjs-dist/build/${file}`), 'utf8');

/** The operators of the first page of a PDF, as the reader that the program uses gives them, and its viewport. */
export function operatorsOf(
  context: BrowserContext,
  bytes: Buffer,
): Promise<PdfOperators & Upright> {
  return inReader(context, bytes, async (data) => {
    const at = '/pdf.mjs';
    const pdfjs = (await import(at)) as typeof import('pdfjs-dist');
    pdfjs.GlobalWorkerOptions.workerSrc = '/pdf.worker.mjs';
    const raw = Uint8Array.from(atob(data), (c) => c.charCodeAt(0));
    const page = await (await pdfjs.getDocument({ data: raw }).promise).getPage(1);
    const { fnArray, argsArray } = await page.getOperatorList();
    const { width, height, transform } = page.getViewport({ scale: 1 });
    const plain = JSON.stringify({ fnArray, argsArray, width, height, transform }, (_, value) =>
      value instanceof Float32Array ? [...value] : value,
    );
    return JSON.parse(plain);
  });
}

interface Upright {
  readonly width: number;
  readonly height: number;
  readonly transform: readonly number[];
}

/** Does something with a PDF in a page of its own, where the reader is at hand. */
async function inReader<T>(
  context: BrowserContext,
  bytes: Buffer,
  read: (data: string) => Promise<T>,
  more = '',
): Promise<T> {
  const page = await context.newPage();
  await page.route('http://reader.test/**', async (route) => {
    const file = new URL(route.request().url()).pathname.slice(1);
    if (file === '')
      return route.fulfill({ contentType: 'text/html', body: '<title>reader</title>' });
    return route.fulfill({ contentType: 'text/javascript', body: reader(file) });
  });
  try {
    await page.goto('http://reader.test/');
    return (await page.evaluate(read, bytes.toString('base64') + more)) as T;
  } finally {
    await page.close();
  }
}

/** Reads a PDF with a reader that has nothing to do with the writer, in a page of its own. */
export function readPdf(context: BrowserContext, path: string): Promise<ReadPdf> {
  return inReader(context, readFileSync(path), async (data) => {
    const at = '/pdf.mjs';
    const pdfjs = (await import(at)) as typeof import('pdfjs-dist');
    pdfjs.GlobalWorkerOptions.workerSrc = '/pdf.worker.mjs';
    const raw = Uint8Array.from(atob(data), (c) => c.charCodeAt(0));
    const doc = await pdfjs.getDocument({ data: raw }).promise;
    const pages = [];
    for (let i = 1; i <= doc.numPages; i++) {
      const one = await doc.getPage(i);
      const [x0, y0, x1, y1] = one.view as [number, number, number, number];
      const { items } = await one.getTextContent();
      const text = items.map((item) => ('str' in item ? item.str : '')).join(' ');
      const mm = (pt: number) => (pt / 72) * 25.4;
      pages.push({ size: [mm(x1 - x0), mm(y1 - y0)] as const, text });
    }
    const wishes = (await doc.getViewerPreferences()) as Map<string, unknown> | null;
    const { info } = (await doc.getMetadata()) as { info: { Title?: string } };
    return {
      pages,
      printScaling: (wishes?.get('PrintScaling') as string | undefined) ?? null,
      title: info.Title ?? '',
    };
  });
}

/** The first page of a PDF as a PNG, so many pixels wide. */
export async function pictureOf(
  context: BrowserContext,
  bytes: Buffer,
  width: number,
): Promise<Buffer> {
  const [, png] = await inReader(
    context,
    bytes,
    async (packed) => {
      const [data, pixels] = packed.split(' ') as [string, string];
      const at = '/pdf.mjs';
      const pdfjs = (await import(at)) as typeof import('pdfjs-dist');
      pdfjs.GlobalWorkerOptions.workerSrc = '/pdf.worker.mjs';
      const raw = Uint8Array.from(atob(data), (c) => c.charCodeAt(0));
      const page = await (await pdfjs.getDocument({ data: raw }).promise).getPage(1);
      const scale = Number(pixels) / page.getViewport({ scale: 1 }).width;
      const viewport = page.getViewport({ scale });
      const canvas = document.createElement('canvas');
      canvas.width = Math.round(viewport.width);
      canvas.height = Math.round(viewport.height);
      await page.render({ canvas, viewport }).promise;
      return canvas.toDataURL('image/png').split(',');
    },
    ` ${width}`,
  );
  return Buffer.from(png!, 'base64');
}
