/** What a file is by its content; its name says nothing. `other` names what it is, for the notice. */
export type Sniffed =
  | { readonly kind: 'png' | 'jpeg' | 'webp' | 'svg' | 'pdf' | 'plan' | 'empty' }
  | { readonly kind: 'other'; readonly what: string };

/** Bytes at the start of a file that decide what it is. */
export const HEAD = 2048;

type Magic = readonly [at: number, bytes: string, Sniffed];
const other = (what: string): Sniffed => ({ kind: 'other', what });

/** Signatures as their formats' specifications give them; the first that fits decides. */
const MAGIC: readonly Magic[] = [
  [0, '\x89PNG\r\n\x1a\n', { kind: 'png' }],
  [0, '\xff\xd8\xff', { kind: 'jpeg' }],
  [8, 'WEBP', { kind: 'webp' }],
  [0, 'GIF8', other('a GIF picture')],
  [0, 'II*\0', other('a TIFF picture')],
  [0, 'MM\0*', other('a TIFF picture')],
  [4, 'ftypavif', other('an AVIF picture')],
  [4, 'ftypheic', other('a HEIC photo')],
  [4, 'ftypheix', other('a HEIC photo')],
  [4, 'ftypmif1', other('a HEIC photo')],
  [4, 'ftyp', other('a video or sound file')],
  [0, 'PK\x03\x04', other('an archive or an office document')],
  [0, '\x1f\x8b', other('a packed file')],
  [0, '7z\xbc\xaf', other('an archive')],
  [0, 'Rar!', other('an archive')],
  [0, '\xd0\xcf\x11\xe0', other('an older office document')],
  [0, 'AC10', other('a CAD drawing')],
  [0, 'BM', other('a bitmap picture')],
];

/** Decides by the first bytes of a file, as many as there are up to `HEAD`. */
export function sniff(head: Uint8Array): Sniffed {
  if (head.length === 0) return { kind: 'empty' };
  const latin = String.fromCharCode(...head.subarray(0, HEAD));
  const magic = MAGIC.find(([at, bytes]) => latin.startsWith(bytes, at));
  if (magic) return magic[2];
  // ISO 32000-1, Annex H: readers take a header anywhere in the first 1024 bytes.
  if (latin.slice(0, 1024).includes('%PDF-')) return { kind: 'pdf' };
  return sniffText(head);
}

function sniffText(head: Uint8Array): Sniffed {
  const text = textOf(head);
  if (text === null) return other('of a kind that is not known here');
  const start = text.trimStart();
  if (start === '') return { kind: 'empty' };
  if (start.startsWith('{')) return { kind: 'plan' };
  if (/^(<\?xml|<!--|<!DOCTYPE svg|<svg)/i.test(start) && /<svg[\s>]/i.test(start))
    return { kind: 'svg' };
  if (/^(<!DOCTYPE html|<html)/i.test(start)) return other('a web page');
  if (/^0\r?\n\s*SECTION/.test(start)) return other('a CAD exchange drawing');
  return other('a text file');
}

/** The start of a UTF-8 or UTF-16 text; null for bytes that are none. The last character may be cut. */
function textOf(head: Uint8Array): string | null {
  const wide = head[0] === 0xff && head[1] === 0xfe ? 'utf-16le' : null;
  try {
    const decoder = new TextDecoder(wide ?? 'utf-8', { fatal: true });
    const text = decoder.decode(head, { stream: true });
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for
    return /[\u0000-\u0008\u000e-\u001a]/.test(text) ? null : text;
  } catch {
    return null;
  }
}
