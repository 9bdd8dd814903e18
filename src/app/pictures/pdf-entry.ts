import type { PdfAnswer, PdfAsk, PdfStop } from './pdf-protocol.ts';
import { type PdfReader, Refused, readPdf } from './pdf-reader.ts';

let reader: PdfReader | null = null;
const under = new Map<number, AbortController>();

/** Does what is asked; the first question opens the file. */
async function carriedOut(ask: PdfAsk, signal: AbortSignal) {
  if (ask.want === 'open') {
    reader = await readPdf(ask.file, ask.home);
    return reader.pages;
  }
  if (!reader) throw new Error('no PDF is open');
  if (ask.want === 'draw') return reader.draw(ask.page, ask.part, ask, signal);
  return reader[ask.want](ask.page);
}

async function answer(ask: PdfAsk): Promise<PdfAnswer> {
  const { id } = ask;
  const stopped = new AbortController();
  under.set(id, stopped);
  try {
    return { id, done: await carriedOut(ask, stopped.signal) };
  } catch (error) {
    if (error instanceof Refused) return { id, refused: error.why };
    return { id, failed: error instanceof Error ? error.message : String(error) };
  } finally {
    under.delete(id);
  }
}

/** What of an answer is handed over instead of copied. */
function handed(given: PdfAnswer): Transferable[] {
  if (!('done' in given) || typeof given.done !== 'object') return [];
  if (given.done instanceof ImageBitmap) return [given.done];
  return 'strokes' in given.done ? [given.done.strokes.buffer, given.done.dashed.buffer] : [];
}

addEventListener('message', async ({ data }: MessageEvent<PdfAsk | PdfStop>) => {
  if ('stop' in data) return under.get(data.stop)?.abort();
  const given = await answer(data);
  postMessage(given, { transfer: handed(given) });
});
