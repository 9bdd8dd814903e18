import { type Message, msg } from '../../base/message.ts';
import type { PictureSource } from '../../board/index.ts';
import { pictureOf, WHOLE } from '../../drawing/display.ts';
import type { Asset, AssetPort } from '../../ports/ports.ts';
import { halvesOf } from '../../worker/halves-client.ts';
import { fitPixels } from '../../worker/picture-size.ts';
import { unforeseen } from '../files.ts';
import type { DrawPart } from './pdf-protocol.ts';
import { openSvg } from './svg.ts';
import { Trouble } from './trouble.ts';
import type { UnderPage } from './under-protocol.ts';

/** Pixels of a drawing as it is first shown; what is seen of it is drawn finer once the view rests. */
const FIRST = 4_000_000;
/** Drawings that are held open, so that the next part of one comes at once. */
const MOST_OPEN = 3;

/** Where the lines of backgrounds come from; a background is named by the key of its picture. */
export interface LineSource {
  /** What a page draws; null for a picture made of dots. */
  lines(key: string): Promise<UnderPage | null>;
}

/** A PDF or an SVG, ready to be drawn from. */
interface Drawing {
  size(page: number): Promise<{ readonly width: number; readonly height: number }>;
  readonly draw: DrawPart;
  /** What a page draws with straight lines and filled shapes, or the text of an SVG that says so. */
  lines(page: number): Promise<UnderPage>;
  close(): void;
}

async function openDrawing({ name, type, bytes }: Asset): Promise<Drawing> {
  const blob = new Blob([bytes as Uint8Array<ArrayBuffer>], { type });
  if (type === 'application/pdf') return (await import('./pdf.ts')).openPdf(name, blob);
  const svg = await openSvg(name, blob);
  return {
    size: async () => svg.size,
    draw: (_, part, size) => svg.draw(part, size),
    lines: async () => ({ svg: new TextDecoder().decode(bytes) }),
    close: svg.close,
  };
}

const isDrawing = (type: string): boolean => type === 'application/pdf' || type === 'image/svg+xml';

const wordsOf = (error: unknown): Message =>
  error instanceof Trouble ? error.words : unforeseen(error);

/** Pictures for the board from where they are kept; says once what is wrong with one that cannot be shown. */
export function createPictureSource(
  assets: AssetPort,
  say: (message: Message) => void,
): PictureSource & LineSource {
  const open = new Map<string, Promise<Drawing>>();
  /** Pictures that could not be made sharp, which was said. */
  const coarse = new Set<string>();

  const drawingOf = (asset: Asset): Promise<Drawing> => {
    const there = open.get(asset.hash);
    if (there) return there;
    const opening = openDrawing(asset);
    open.set(asset.hash, opening);
    opening.catch(() => open.delete(asset.hash));
    const [oldest] = open.keys();
    if (open.size > MOST_OPEN && oldest !== undefined) {
      const closing = open.get(oldest)!;
      open.delete(oldest);
      closing.then((drawing) => drawing.close()).catch(() => undefined);
    }
    return opening;
  };

  return {
    async load(key) {
      const { asset: hash, page } = pictureOf(key);
      try {
        const asset = await assets.get(hash);
        if (!asset)
          throw new Trouble(msg('A background is no longer on this device. Bring it again.'));
        if (isDrawing(asset.type)) {
          const drawing = await drawingOf(asset);
          const { width, height } = await drawing.size(page);
          const image = await drawing.draw(page, WHOLE, fitPixels(width, height, FIRST));
          return { sizes: await halvesOf(image), fine: true };
        }
        const blob = new Blob([asset.bytes as Uint8Array<ArrayBuffer>], { type: asset.type });
        return { sizes: await halvesOf(blob), fine: false };
      } catch (error) {
        say(wordsOf(error));
        return null;
      }
    },
    async sharpen(key, part, size, signal) {
      const { asset: hash, page } = pictureOf(key);
      const asset = await assets.get(hash);
      if (!asset || signal.aborted) return null;
      try {
        const drawing = await drawingOf(asset);
        return await drawing.draw(page, part, size, signal);
      } catch (error) {
        // It is asked for again with every move of the view.
        if (!signal.aborted && !coarse.has(key)) {
          coarse.add(key);
          say(wordsOf(error));
        }
        return null;
      }
    },
    async lines(key) {
      const { asset: hash, page } = pictureOf(key);
      const asset = await assets.get(hash);
      if (!asset) throw new Error('its file is not on this device');
      return isDrawing(asset.type) ? (await drawingOf(asset)).lines(page) : null;
    },
  };
}
