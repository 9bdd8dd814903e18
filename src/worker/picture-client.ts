import type { Flat, FlattenAnswer, FlattenAsk } from './picture-protocol.ts';

/**
 * Flattens a picture in a worker of its own, so that the screen stays live; null for a file that is no picture.
 * A bitmap is handed over and can no longer be used.
 */
export function flatten(picture: Blob | ImageBitmap, photo: boolean): Promise<Flat | null> {
  const worker = new Worker(new URL('./picture-entry.ts', import.meta.url), { type: 'module' });
  const ask: FlattenAsk = { picture, photo };
  return new Promise<Flat | null>((done, fail) => {
    worker.addEventListener('message', ({ data }: MessageEvent<FlattenAnswer>) => {
      if ('failed' in data) fail(new Error(data.failed));
      else done('unreadable' in data ? null : data);
    });
    worker.addEventListener('error', (event) =>
      fail(new Error(event.message || 'the picture could not be drawn')),
    );
    worker.postMessage(ask, picture instanceof ImageBitmap ? [picture] : []);
  }).finally(() => worker.terminate());
}
