import { fitPixels, MOST_PIXELS } from './size.ts';
import { trouble } from './trouble.ts';

/** A picture as it is kept: upright, opaque, not too large. */
export interface Flat {
  readonly bytes: Uint8Array;
  readonly type: 'image/png' | 'image/jpeg';
  readonly width: number;
  readonly height: number;
}

type Canvas = OffscreenCanvas;
/** Bytes of PNG beyond which a JPEG is kept instead: a scan or a photo, in which line art is not. */
const PNG_MOST = 8_000_000;
const JPEG_QUALITY = 0.9;

export const whiteCanvas = (width: number, height: number): Canvas => {
  const canvas = new OffscreenCanvas(width, height);
  const context = contextOf(canvas);
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, width, height);
  return canvas;
};

export function contextOf(canvas: Canvas): OffscreenCanvasRenderingContext2D {
  const context = canvas.getContext('2d', { alpha: false });
  if (!context) throw new Error('this browser has no room for a drawing of that size');
  return context;
}

/** Writes a canvas as PNG, or as JPEG where that is asked for or a PNG would be very large. */
export async function encode(canvas: Canvas, photo: boolean): Promise<Flat> {
  const { width, height } = canvas;
  let blob = photo ? null : await canvas.convertToBlob({ type: 'image/png' });
  if (!blob || blob.size > PNG_MOST)
    blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: JPEG_QUALITY });
  const bytes = new Uint8Array(await blob.arrayBuffer());
  return { bytes, type: blob.type as Flat['type'], width, height };
}

/** A PNG, JPEG or WebP, turned as its EXIF data say. */
export async function flattenRaster(name: string, blob: Blob, photo: boolean): Promise<Flat> {
  const bitmap = await createImageBitmap(blob).catch(() =>
    trouble(
      '“{name}” is damaged or too large to be shown. Bring another copy of it, or a smaller one.',
      {
        name,
      },
    ),
  );
  const size = fitPixels(bitmap.width, bitmap.height);
  const canvas = whiteCanvas(size.width, size.height);
  const context = contextOf(canvas);
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, 0, 0, size.width, size.height);
  bitmap.close();
  return encode(canvas, photo);
}

/** Longest side that a drawing without a size of its own gets, in pixels. */
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
    const shape = {
      width: image.naturalWidth || SVG_SIDE,
      height: image.naturalHeight || SVG_SIDE,
    };
    const grow = Math.max(1, SVG_SIDE / Math.max(shape.width, shape.height));
    const size = fitPixels(shape.width * grow, shape.height * grow, MOST_PIXELS);
    const canvas = whiteCanvas(size.width, size.height);
    contextOf(canvas).drawImage(image, 0, 0, size.width, size.height);
    return await encode(canvas, false);
  } finally {
    URL.revokeObjectURL(address);
  }
}
