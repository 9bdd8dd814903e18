import type { Flat, FlattenAnswer, FlattenAsk } from './picture-protocol.ts';

/**
 * Flattens a picture in a worker of its own, so that the screen stays live; null for a file that is no picture.
 * A bitmap is handed over and can no longer be used. Rejects with an `AbortError` once the signal says to stop.
 */
export function flatten(ask: FlattenAsk, signal?: AbortSignal): Promise<Flat | null> {
  signal?.throwIfAborted();
  const worker = new Worker(new URL('./picture-entry.ts', import.meta.url), { type: 'module' });
  const stopped = new AbortController();
  return new Promise<Flat | null>((done, fail) => {
    signal?.addEventListener('abort', () => fail(signal.reason), { signal: stopped.signal });
    worker.addEventListener('message', ({ data }: MessageEvent<FlattenAnswer>) => {
      if ('failed' in data) fail(new Error(data.failed));
      else done('unreadable' in data ? null : data);
    });
    worker.addEventListener('error', (event) =>
      fail(new Error(event.message || 'the picture could not be drawn')),
    );
    worker.postMessage(ask, ask.picture instanceof ImageBitmap ? [ask.picture] : []);
  }).finally(() => {
    stopped.abort();
    worker.terminate();
  });
}
