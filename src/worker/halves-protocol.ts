/** Asks for a picture in several sizes: as a file, or as it was drawn already. */
export interface HalvesAsk {
  readonly picture: Blob | ImageBitmap;
}

export type HalvesAnswer = { readonly sizes: readonly ImageBitmap[] } | { readonly failed: string };
