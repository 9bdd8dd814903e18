import type { HalvesAnswer, HalvesAsk } from './halves-protocol.ts';

/**
 * A picture and its halves, the largest first, made in a worker of its own: to make one smaller takes a third of a
 * second. A bitmap is handed over and can no longer be used.
 */
export function halvesOf(picture: Blob | ImageBitmap): Promise<readonly ImageBitmap[]> {
  const worker = new Worker(new URL('./halves-entry.ts', import.meta.url), { type: 'module' });
  return new Promise<readonly ImageBitmap[]>((done, fail) => {
    worker.addEventListener('message', ({ data }: MessageEvent<HalvesAnswer>) => {
      if ('failed' in data) fail(new Error(data.failed));
      else done(data.sizes);
    });
    worker.addEventListener('error', (event) =>
      fail(new Error(event.message || 'the picture could not be drawn')),
    );
    const ask: HalvesAsk = { picture };
    worker.postMessage(ask, picture instanceof ImageBitmap ? [picture] : []);
  }).finally(() => worker.terminate());
}
