import { fitPixels } from './picture-size.ts';

/** A pixel is as light as paper from this on, 0 to 255: paper that was photographed under a lamp is grey. */
const LIGHT = 160;
/** Its three parts differ by no more: paper has hardly a colour. */
const PALE = 48;
/** A drawing is paper for the most part; what is less of it is a photo. */
const MOST = 0.5;
/** Pixels that are looked at. */
const LOOK = 65_536;

/** Which share of some pixels is as light and as pale as paper; `pixels` holds red, green, blue and opacity of each. */
export function lightShare(pixels: Uint8ClampedArray): number {
  let light = 0;
  for (let i = 0; i < pixels.length; i += 4) {
    const [red, green, blue] = [pixels[i]!, pixels[i + 1]!, pixels[i + 2]!];
    const least = Math.min(red, green, blue);
    if (least >= LIGHT && Math.max(red, green, blue) - least <= PALE) light++;
  }
  return pixels.length === 0 ? 1 : (4 * light) / pixels.length;
}

/** Whether a picture is a photo and not lines on paper: a look at a small copy of it on white. */
export function isPhoto(picture: ImageBitmap | OffscreenCanvas): boolean {
  const { width, height } = fitPixels(picture.width, picture.height, LOOK);
  const context = new OffscreenCanvas(width, height).getContext('2d', {
    alpha: false,
    willReadFrequently: true,
  })!;
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, width, height);
  context.drawImage(picture, 0, 0, width, height);
  return lightShare(context.getImageData(0, 0, width, height).data) < MOST;
}
