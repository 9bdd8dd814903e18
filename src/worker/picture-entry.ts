import { isPhoto } from './light-share.ts';
import type { Flat, FlattenAnswer, FlattenAsk } from './picture-protocol.ts';
import { fitPixels } from './picture-size.ts';
import { warp } from './warp.ts';

/** Bytes of PNG beyond which a JPEG is kept instead: then it is a scan or a photo, not line art. */
const PNG_MOST = 8_000_000;
const JPEG_QUALITY = 0.9;

/** Draws a picture onto white, no larger than is kept. A file is turned as its EXIF data say. */
async function drawn(picture: Blob | ImageBitmap): Promise<OffscreenCanvas | null> {
  const bitmap =
    picture instanceof Blob ? await createImageBitmap(picture).catch(() => null) : picture;
  if (!bitmap) return null;
  const { width, height } = fitPixels(bitmap.width, bitmap.height);
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d', { alpha: false })!;
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, width, height);
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, 0, 0, width, height);
  bitmap.close();
  return canvas;
}

async function encoded(canvas: OffscreenCanvas, photo: boolean): Promise<Flat> {
  let blob = photo ? null : await canvas.convertToBlob({ type: 'image/png' });
  if (!blob || blob.size > PNG_MOST)
    blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: JPEG_QUALITY });
  const bytes = new Uint8Array(await blob.arrayBuffer());
  const { width, height } = canvas;
  return { bytes, type: blob.type as Flat['type'], width, height, colours: isPhoto(canvas) };
}

/** A drawn picture through a map, on a canvas of its own. */
function warped(from: OffscreenCanvas, upright: NonNullable<FlattenAsk['upright']>) {
  const { width, height } = upright;
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d', { alpha: false })!;
  const to = context.createImageData(width, height);
  const pixels = from.getContext('2d')!.getImageData(0, 0, from.width, from.height);
  warp(pixels, to, upright.map);
  context.putImageData(to, 0, 0);
  return canvas;
}

async function answer({ picture, photo, upright }: FlattenAsk): Promise<FlattenAnswer> {
  try {
    const flat = await drawn(picture);
    const canvas = flat && upright ? warped(flat, upright) : flat;
    return canvas ? await encoded(canvas, photo) : { unreadable: true };
  } catch (error) {
    return { failed: error instanceof Error ? error.message : String(error) };
  }
}

addEventListener('message', async (event: MessageEvent<FlattenAsk>) => {
  postMessage(await answer(event.data));
});
