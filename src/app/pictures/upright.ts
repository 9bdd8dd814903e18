import { type Corners, homography, straightSize } from '../../geometry/homography.ts';
import type { Background } from '../../plan/plan.ts';
import type { Asset } from '../../ports/ports.ts';
import { hashOf } from '../../storage/assets.ts';
import { flatten } from '../../worker/picture-client.ts';
import { fitPixels } from '../../worker/picture-size.ts';
import type { Taken } from './take.ts';
import { pixelsOf } from './take.ts';
import { trouble } from './trouble.ts';

/** The corners of a picture of a size. */
const cornersOf = (width: number, height: number): Corners => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

/**
 * What lies within four corners of a photo as an upright picture; nothing else of it is kept.
 *
 * @param row the background that shows it: corners are in its pixels
 */
export async function uprightOf(
  asset: Asset,
  row: Pick<Background, 'name' | 'page' | 'width' | 'height'>,
  corners: Corners,
  signal: AbortSignal,
): Promise<Pick<Taken, 'asset' | 'width' | 'height' | 'photo'>> {
  const picture = await pixelsOf(asset, row.page, signal);
  const straight = straightSize(corners, row);
  const { width, height } = fitPixels(straight.width, straight.height);
  const map = homography(cornersOf(width, height), corners);
  if (!map)
    return trouble('The four corners must go round the sheet without a dent or a crossing.');
  const photo = asset.type === 'image/jpeg';
  const made = await flatten({ picture, photo, upright: { width, height, map } }, signal);
  if (!made) return trouble('The photo can no longer be read. Bring it again.');
  const { bytes, type, colours } = made;
  const upright = { hash: await hashOf(bytes), name: asset.name, type, bytes };
  return { asset: upright, width, height, photo: colours };
}
