import { type Part, WHOLE } from '../../drawing/display.ts';

/** A picture as the board keeps it. */
export interface LoadedPicture {
  /** The picture and its halves, the largest first: drawn from the whole, a large one would hold the board up. */
  readonly sizes: readonly ImageBitmap[];
  /** Whether it can be drawn finer than it came: lines and letters, not pixels. */
  readonly fine: boolean;
}

/** Where pictures come from; a picture is named by its key in the display list. */
export interface PictureSource {
  /** Loads a picture; null when it is not there or cannot be shown. */
  load(key: string): Promise<LoadedPicture | null>;
  /** Draws a part of a fine picture, so many pixels wide and high; null once `signal` says that nobody waits for it. */
  sharpen(
    key: string,
    part: Part,
    size: { readonly width: number; readonly height: number },
    signal: AbortSignal,
  ): Promise<ImageBitmap | null>;
}

/** A picture that is about to be drawn: which, what of it is seen, and how large. */
export interface PictureWant {
  readonly key: string;
  /** Tells it from the same picture laid elsewhere. */
  readonly place: string;
  readonly seen: Part;
  /** Width and height of the whole picture, in pixels of the screen. */
  readonly width: number;
  readonly height: number;
}

/** An image, and which part of the picture it shows. */
export interface PicturePiece {
  readonly image: ImageBitmap;
  readonly part: Part;
}

export interface Pictures {
  /** What to draw of a picture now, in this order; nothing while it is loading. */
  get(want: PictureWant): readonly PicturePiece[];
  dispose(): void;
}

/** How long the view must rest before a fine picture is drawn anew, ms. */
const REST = 160;
/** A picture that is this much coarser than the screen is not yet seen to be. */
const COARSE = 1.15;
/** What lies round the board is drawn along, in shares of what is seen, so that small moves show no blur. */
const MARGIN = 0.15;
/** Most pixels of a finer part. */
const MOST = 12_000_000;

interface Sharp {
  /** What was asked for last, as one text. */
  asked: string;
  timer: ReturnType<typeof setTimeout> | undefined;
  waiting: AbortController | null;
  shown: PicturePiece | null;
}

interface Kept {
  /** None while it is loading, and for one that does not come. */
  sizes: readonly ImageBitmap[];
  fine: boolean;
}

/**
 * Keeps pictures that were asked for, and draws the smallest of their sizes that is fine enough. Of one that can be
 * drawn finer, what is seen is drawn anew in the screen's own pixels once the view has rested. `ready` is called when
 * there is something new to draw. One that could not be loaded is not asked for again.
 */
export function keepPictures(source: PictureSource, ready: () => void): Pictures {
  const kept = new Map<string, Kept>();
  const sharp = new Map<string, Sharp>();
  let closed = false;

  const load = async (key: string, into: Kept): Promise<void> => {
    const loaded = await source.load(key);
    if (!loaded) return;
    if (closed) return closeAll(loaded.sizes);
    into.sizes = loaded.sizes;
    into.fine = loaded.fine;
    ready();
  };

  const drop = (one: Sharp): void => {
    clearTimeout(one.timer);
    one.waiting?.abort();
    one.waiting = null;
    one.asked = '';
  };

  const forget = (place: string): void => {
    const one = sharp.get(place);
    if (!one) return;
    drop(one);
    one.shown?.image.close();
    sharp.delete(place);
  };

  const ask = (want: PictureWant, one: Sharp): void => {
    const asked = [want.key, ...Object.values(want.seen), want.width, want.height].join(' ');
    if (asked === one.asked) return;
    drop(one);
    one.asked = asked;
    one.timer = setTimeout(async () => {
      const part = widened(want.seen, want);
      const size = {
        width: Math.max(1, Math.round((part.x1 - part.x0) * want.width)),
        height: Math.max(1, Math.round((part.y1 - part.y0) * want.height)),
      };
      const waiting = new AbortController();
      one.waiting = waiting;
      // Whoever draws says what went wrong; the coarse picture stays.
      const image = await source.sharpen(want.key, part, size, waiting.signal).catch(() => null);
      if (!image) return;
      if (waiting.signal.aborted || closed) return image.close();
      one.shown?.image.close();
      one.shown = { image, part };
      ready();
    }, REST);
  };

  return {
    get(want) {
      let there = kept.get(want.key);
      if (!there) {
        there = { sizes: [], fine: false };
        kept.set(want.key, there);
        // Whoever loads says what went wrong; the board shows the picture's border instead.
        load(want.key, there).catch(() => undefined);
      }
      const best = there.sizes.findLast((one) => one.width >= want.width) ?? there.sizes[0];
      if (!best) return [];
      const whole: PicturePiece = { image: best, part: WHOLE };
      const place = `${want.key} ${want.place}`;
      if (!there.fine || want.width <= there.sizes[0]!.width * COARSE) {
        forget(place);
        return [whole];
      }
      let one = sharp.get(place);
      if (!one) {
        one = { asked: '', timer: undefined, waiting: null, shown: null };
        sharp.set(place, one);
      }
      ask(want, one);
      return one.shown ? [whole, one.shown] : [whole];
    },
    dispose() {
      closed = true;
      for (const place of [...sharp.keys()]) forget(place);
      for (const { sizes } of kept.values()) closeAll(sizes);
      kept.clear();
    },
  };
}

function closeAll(images: readonly ImageBitmap[]): void {
  for (const image of images) image.close();
}

/** What is seen with a margin round it, within the picture, and not more than may be drawn. */
function widened(seen: Part, { width, height }: PictureWant): Part {
  const wide = (share: number): Part => {
    const dx = (seen.x1 - seen.x0) * share;
    const dy = (seen.y1 - seen.y0) * share;
    return {
      x0: Math.max(0, seen.x0 - dx),
      y0: Math.max(0, seen.y0 - dy),
      x1: Math.min(1, seen.x1 + dx),
      y1: Math.min(1, seen.y1 + dy),
    };
  };
  const part = wide(MARGIN);
  const pixels = (part.x1 - part.x0) * width * (part.y1 - part.y0) * height;
  return pixels > MOST ? seen : part;
}
