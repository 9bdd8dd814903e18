import { flatten } from '../../worker/picture-client.ts';
import type { Flat } from '../../worker/picture-protocol.ts';
import { trouble } from './trouble.ts';

/** A PNG, JPEG or WebP, upright and not too large. */
export async function flattenRaster(
  name: string,
  blob: Blob,
  photo: boolean,
  signal?: AbortSignal,
): Promise<Flat> {
  const flat = await flatten({ picture: blob, photo }, signal);
  return (
    flat ??
    trouble(
      '“{name}” is damaged or too large to be shown. Bring another copy of it, or a smaller one.',
      { name },
    )
  );
}

/** Keeps what was drawn; the bitmap is handed over. */
export async function flattenDrawing(bitmap: ImageBitmap, signal?: AbortSignal): Promise<Flat> {
  const flat = await flatten({ picture: bitmap, photo: false }, signal);
  if (!flat) throw new Error('the drawing could not be kept');
  return flat;
}
