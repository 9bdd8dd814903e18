import { type PdfClient, PdfReaderLost } from './pdf-client.ts';
import type { PdfJobs } from './pdf-protocol.ts';

/** The reader came to its end again after it was started anew. */
export class PdfReaderLostAgain extends PdfReaderLost {}

/**
 * Opens a file with a reader that is started anew when it comes to its end later on: once, by the next question or by
 * what it left unanswered. A file that ends its reader twice would do so for ever.
 */
export async function openLasting(
  start: () => PdfClient,
  ask: PdfJobs['open']['ask'],
  signal?: AbortSignal,
): Promise<{ readonly client: PdfClient; readonly pages: number }> {
  let now = start();
  let anew: Promise<number> | null = null;
  let closed = false;

  /** Starts the reader anew, for all who lost the first one. */
  const again = (): Promise<number> => {
    if (!anew) {
      now = start();
      anew = now.ask('open', ask);
    }
    return anew;
  };

  const lasting: PdfClient = {
    ask: async (...question) => {
      try {
        return await now.ask(...question);
      } catch (error) {
        if (!(error instanceof PdfReaderLost) || closed) throw error;
      }
      try {
        await again();
        question[2]?.throwIfAborted();
        return await now.ask(...question);
      } catch (error) {
        throw error instanceof PdfReaderLost ? new PdfReaderLostAgain(error.message) : error;
      }
    },
    close: () => {
      closed = true;
      now.close();
    },
  };
  try {
    return { client: lasting, pages: await now.ask('open', ask, signal) };
  } catch (error) {
    now.close();
    throw error;
  }
}
