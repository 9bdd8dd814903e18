import type { UnderAnswer, UnderAsk, UnderFound } from './under-protocol.ts';

/** Reads a page in a worker of its own, so that the screen stays live. */
export function readUnder(ask: UnderAsk): Promise<UnderFound> {
  const worker = new Worker(new URL('./under-entry.ts', import.meta.url), { type: 'module' });
  return new Promise<UnderFound>((done, fail) => {
    worker.addEventListener('message', ({ data }: MessageEvent<UnderAnswer>) => {
      if ('failed' in data) fail(new Error(data.failed));
      else done(data);
    });
    worker.addEventListener('error', (event) =>
      fail(new Error(event.message || 'the lines could not be read')),
    );
    worker.postMessage(ask);
  }).finally(() => worker.terminate());
}
