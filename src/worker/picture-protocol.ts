/** A picture to be flattened: as a file, or as it was drawn already. */
export interface FlattenAsk {
  readonly picture: Blob | ImageBitmap;
  /** Keeps it as a JPEG; otherwise as a PNG, unless that would be very large. */
  readonly photo: boolean;
}

/** A picture as it is kept: upright, opaque, not too large. */
export interface Flat {
  readonly bytes: Uint8Array;
  readonly type: 'image/png' | 'image/jpeg';
  readonly width: number;
  readonly height: number;
}

/** `unreadable`: the file is no picture that a browser can show. */
export type FlattenAnswer = Flat | { readonly unreadable: true } | { readonly failed: string };
