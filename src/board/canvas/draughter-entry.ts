import { kinds } from '../../kinds/index.ts';
import { createDraughter } from './draughter.ts';
import { loadFaces } from './faces.ts';
import type { PlateAsk } from './plate.ts';

/** The first message names the folder of the fonts; all others ask for plates. */
const draughter = createDraughter({
  kinds,
  canvas: (width, height) => new OffscreenCanvas(width, height),
  answer: (answer) => postMessage(answer, { transfer: [answer.bitmap] }),
  later: (run, ms) => {
    const timer = setTimeout(run, ms);
    return () => clearTimeout(timer);
  },
  now: () => performance.now(),
});

let ready: Promise<void> = Promise.resolve();

addEventListener('message', async ({ data }: MessageEvent<string | PlateAsk>) => {
  if (typeof data === 'string') ready = loadFaces(data);
  else {
    await ready;
    draughter(data);
  }
});
