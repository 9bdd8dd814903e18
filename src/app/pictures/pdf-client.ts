import type { PdfAnswer, PdfAsk, PdfJobs, PdfRefusal, PdfStop } from './pdf-protocol.ts';

/** The reader says no to a file. */
export class PdfRefused extends Error {
  readonly why: PdfRefusal;

  constructor(why: PdfRefusal) {
    super(why);
    this.why = why;
  }
}

/** The reader itself came to its end: what it was asked was never answered. */
export class PdfReaderLost extends Error {}

/** Asks a reader in a worker of its own. */
export interface PdfClient {
  /** Rejects with the signal's reason as soon as nobody waits. */
  ask<W extends keyof PdfJobs>(
    want: W,
    ask: PdfJobs[W]['ask'],
    signal?: AbortSignal,
  ): Promise<PdfJobs[W]['answer']>;
  /** Ends the reader, and whatever it was asked. */
  close(): void;
}

interface Waiting {
  done(answer: never): void;
  fail(error: unknown): void;
}

/** Starts a reader: all of its work is done away from the screen, its pictures included. */
export function startPdfClient(): PdfClient {
  const worker = new Worker(new URL('./pdf-entry.ts', import.meta.url), { type: 'module' });
  const waiting = new Map<number, Waiting>();
  let lost: Error | null = null;
  let last = 0;

  const end = (error: Error): void => {
    lost ??= error;
    worker.terminate();
    for (const { fail } of waiting.values()) fail(lost);
    waiting.clear();
  };

  worker.addEventListener('message', ({ data }: MessageEvent<PdfAnswer>) => {
    const asked = waiting.get(data.id);
    waiting.delete(data.id);
    if ('done' in data) {
      if (asked) asked.done(data.done as never);
      else if (data.done instanceof ImageBitmap) data.done.close();
    } else if ('refused' in data) asked?.fail(new PdfRefused(data.refused));
    else asked?.fail(new Error(data.failed));
  });
  worker.addEventListener('error', ({ message }) => end(new PdfReaderLost(message)));
  worker.addEventListener('messageerror', () => end(new PdfReaderLost('an answer was lost')));

  return {
    ask: (want, ask, signal) => {
      const id = ++last;
      const stopped = new AbortController();
      return new Promise<never>((done, fail) => {
        signal?.throwIfAborted();
        if (lost) throw lost;
        signal?.addEventListener(
          'abort',
          () => {
            waiting.delete(id);
            worker.postMessage({ stop: id } satisfies PdfStop);
            fail(signal.reason);
          },
          { signal: stopped.signal },
        );
        waiting.set(id, { done, fail });
        worker.postMessage({ id, want, ...ask } as PdfAsk);
      }).finally(() => stopped.abort());
    },
    close: () => end(new Error('the PDF was closed')),
  };
}
