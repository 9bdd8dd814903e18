import { openLasting, PdfReaderLostAgain } from './lasting-reader.ts';
import type { PackedPage } from './page-placed.ts';
import { type PdfClient, PdfReaderLost, PdfRefused, startPdfClient } from './pdf-client.ts';
import type { DrawPart, PageSize, PdfRefusal } from './pdf-protocol.ts';
import { Trouble, trouble } from './trouble.ts';

/** A PDF that is read in a worker of its own, so that the board stays live however large it is. */
export interface OpenPdf {
  readonly pages: number;
  /** Address of a small picture of a page; give it back with `URL.revokeObjectURL`. */
  thumbnail(page: number): Promise<string>;
  /** The size of a page at the finest that is kept. */
  size(page: number): Promise<PageSize>;
  /** Rejects with an `AbortError` once the signal says that nobody waits for it. */
  readonly draw: DrawPart;
  /** What a page draws with straight lines and filled shapes, in points. */
  lines(page: number): Promise<PackedPage>;
  close(): void;
}

const REFUSALS: Readonly<Record<PdfRefusal, string>> = {
  locked: '“{name}” is locked with a password. Print it to a new PDF without one, then bring that.',
  damaged: '“{name}” is damaged: no PDF can be read from it. Bring another copy of it.',
  empty: '“{name}” has no pages. Bring another PDF.',
};

const LOST =
  'The reader for PDFs stopped before it was done with “{name}”. Bring it again, or bring a picture of its page.';

const LOST_AGAIN =
  'The reader for PDFs stopped twice at “{name}”. It is shown as it stands, less sharp; load the page anew to try once more, or bring a picture of it.';

/** Opens a PDF; throws `Trouble` for one that is locked, damaged or empty. */
export async function openPdf(name: string, file: Blob, signal?: AbortSignal): Promise<OpenPdf> {
  signal?.throwIfAborted();
  const opening = { file, home: document.baseURI };
  const { client, pages } = await openLasting(startPdfClient, opening, signal).catch(said(name));
  const told = saying(client, name);

  return {
    pages,
    thumbnail: async (page) => URL.createObjectURL(await told('thumbnail', { page })),
    size: (page) => told('size', { page }),
    draw: async (page, part, { width, height }, signal) => {
      try {
        return await told('draw', { page, part, width, height }, signal);
      } catch (error) {
        signal?.throwIfAborted();
        if (error instanceof Trouble) throw error;
        return trouble(
          'Page {page} of “{name}” cannot be drawn. Print it to a new PDF, or bring a picture of it.',
          { page, name },
        );
      }
    },
    lines: (page) => told('lines', { page }),
    close: client.close,
  };
}

/** Asks, and says in words why a file is not read. */
const saying =
  ({ ask }: PdfClient, name: string): PdfClient['ask'] =>
  (...question) =>
    ask(...question).catch(said(name));

const said =
  (name: string) =>
  (error: unknown): never => {
    if (error instanceof PdfRefused) return trouble(REFUSALS[error.why], { name });
    if (error instanceof PdfReaderLostAgain) return trouble(LOST_AGAIN, { name });
    if (error instanceof PdfReaderLost) return trouble(LOST, { name });
    throw error;
  };
