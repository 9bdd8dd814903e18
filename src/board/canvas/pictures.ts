/** Loads a background's picture by the hash of its bytes; null when it is not there or cannot be shown. */
export type LoadPicture = (hash: string) => Promise<ImageBitmap | null>;

export interface Pictures {
  get(hash: string): ImageBitmap | null;
  dispose(): void;
}

/** Keeps pictures that were asked for; `ready` is called when one has come. A failed one is not asked for again. */
export function keepPictures(load: LoadPicture, ready: () => void): Pictures {
  const kept = new Map<string, ImageBitmap | null>();
  let closed = false;
  return {
    get(hash) {
      const there = kept.get(hash);
      if (there !== undefined) return there;
      kept.set(hash, null);
      load(hash).then(
        (picture) => {
          if (closed) return picture?.close();
          kept.set(hash, picture);
          if (picture) ready();
        },
        // Whoever loads says what went wrong; the board shows the picture's border instead.
        () => kept.set(hash, null),
      );
      return null;
    },
    dispose() {
      closed = true;
      for (const picture of kept.values()) picture?.close();
      kept.clear();
    },
  };
}
