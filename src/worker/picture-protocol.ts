/** A picture to be flattened: as a file, or as it was drawn already. */
export interface FlattenAsk {
  readonly picture: Blob | ImageBitmap;
  /** Keeps it as a JPEG; otherwise as a PNG, unless that would be very large. */
  readonly photo: boolean;
  /** Makes it upright on the way: the size of what comes out, and the map that takes each of its pixels to the picture. */
  readonly upright?: {
    readonly width: number;
    readonly height: number;
    /** [a b c d e f g h] of x' = (a x + b y + c) / (g x + h y + 1), y' = (d x + e y + f) / (g x + h y + 1). */
    readonly map: readonly number[];
  };
}

/** A picture as it is kept: upright, opaque, not too large. */
export interface Flat {
  readonly bytes: Uint8Array;
  readonly type: 'image/png' | 'image/jpeg';
  readonly width: number;
  readonly height: number;
  /** Whether its pixels are those of a photo, and not lines on paper. */
  readonly colours: boolean;
}

/** `unreadable`: the file is no picture that a browser can show. */
export type FlattenAnswer = Flat | { readonly unreadable: true } | { readonly failed: string };
