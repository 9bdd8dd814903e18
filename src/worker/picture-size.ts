/** Most pixels that a background keeps: 16 megapixels, 64 MB once it is decoded. */
export const MOST_PIXELS = 16_000_000;

/**
 * The size of a picture that keeps its shape and has no more pixels than allowed; whole pixels, at least one each way.
 * A picture that fits keeps its size.
 */
export function fitPixels(
  width: number,
  height: number,
  most = MOST_PIXELS,
): { readonly width: number; readonly height: number } {
  const scale = Math.min(1, Math.sqrt(most / (width * height)));
  let w = Math.max(1, Math.floor(width * scale));
  let h = Math.max(1, Math.floor(height * scale));
  if (scale === 1) [w, h] = [Math.max(1, Math.round(width)), Math.max(1, Math.round(height))];
  // A strip that is one pixel high may still be too long.
  return w * h > most
    ? { width: Math.min(w, most), height: Math.min(h, most) }
    : { width: w, height: h };
}
