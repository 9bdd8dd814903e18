import type { HalvesAnswer, HalvesAsk } from './halves-protocol.ts';

/** Width that needs no half: a board of this width shows it whole. */
const SMALL = 1500;

/** A picture and its halves, the largest first. */
async function halves(picture: Blob | ImageBitmap): Promise<ImageBitmap[]> {
  let last = picture instanceof Blob ? await createImageBitmap(picture) : picture;
  const sizes = [last];
  while (last.width > 2 * SMALL) {
    last = await createImageBitmap(last, {
      resizeWidth: Math.round(last.width / 2),
      resizeHeight: Math.max(1, Math.round(last.height / 2)),
      resizeQuality: 'high',
    });
    sizes.push(last);
  }
  return sizes;
}

addEventListener('message', async ({ data }: MessageEvent<HalvesAsk>) => {
  try {
    const sizes = await halves(data.picture);
    postMessage({ sizes } satisfies HalvesAnswer, { transfer: sizes });
  } catch (error) {
    const failed = error instanceof Error ? error.message : String(error);
    postMessage({ failed } satisfies HalvesAnswer);
  }
});
