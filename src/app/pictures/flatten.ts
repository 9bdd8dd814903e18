import { flatten } from '../../worker/picture-client.ts';
import type { Flat } from '../../worker/picture-protocol.ts';
import { fitPixels } from '../../worker/picture-size.ts';
import { trouble } from './trouble.ts';

/** A white sheet to draw on. */
export function whiteCanvas(width: number, height: number) {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d', { alpha: false });
  if (!context) throw new Error('this browser has no room for a drawing of that size');
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, width, height);
  return { canvas, context };
}

/** Keeps what was drawn on a canvas; the canvas is empty afterwards. */
export async function flattenCanvas(canvas: OffscreenCanvas): Promise<Flat> {
  const flat = await flatten(canvas.transferToImageBitmap(), false);
  if (!flat) throw new Error('the drawing could not be kept');
  return flat;
}

/** A PNG, JPEG or WebP. */
export async function flattenRaster(name: string, blob: Blob, photo: boolean): Promise<Flat> {
  const flat = await flatten(blob, photo);
  return (
    flat ??
    trouble(
      '“{name}” is damaged or too large to be shown. Bring another copy of it, or a smaller one.',
      { name },
    )
  );
}

/** Longest side that a drawing is given at least, in pixels. */
const SVG_SIDE = 4000;

/** An SVG, drawn as finely as may be kept. Scripts in it do not run, and nothing is fetched for it. */
export async function flattenSvg(name: string, blob: Blob): Promise<Flat> {
  const address = URL.createObjectURL(new Blob([blob], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode().catch(() =>
      trouble('“{name}” is damaged: its SVG cannot be drawn. Bring another copy of it, or a PDF.', {
        name,
      }),
    );
    const width = image.naturalWidth || SVG_SIDE;
    const height = image.naturalHeight || SVG_SIDE;
    const grow = Math.max(1, SVG_SIDE / Math.max(width, height));
    const size = fitPixels(width * grow, height * grow);
    const { canvas, context } = whiteCanvas(size.width, size.height);
    context.drawImage(image, 0, 0, size.width, size.height);
    return await flattenCanvas(canvas);
  } finally {
    URL.revokeObjectURL(address);
  }
}
