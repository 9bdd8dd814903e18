/** Bytes at the start of a picture in which its header is looked for. */
export const HEADER = 262_144;

/** What the header of a picture says of itself: its size, and how many of its pixels make an inch on paper. */
interface Stated {
  readonly width: number;
  readonly height: number;
  readonly dots: number;
}

const INCHES_IN_A_METRE = 39.3701;
const CENTIMETRES_IN_AN_INCH = 2.54;

/**
 * Fewest dots to the inch that are taken for a scanner's word: 72 and 96 are what programs write that know of no paper
 * (common practice, no source). Most: beyond any scanner.
 */
const LEAST = 100;
const MOST = 4800;

/**
 * Reads how many pixels of a PNG or a JPEG make an inch on paper, by the physical dimensions of PNG (W3C, Portable
 * Network Graphics, 11.3.4.3 pHYs) or the pixel density of JFIF (ITU-T T.871, 10.1). Null where the header does not
 * say, says it of no known unit, says other figures across and down, or says what no scan has.
 */
export function statedDots(head: Uint8Array): Stated | null {
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
  try {
    const stated = view.getUint32(0) === 0x89504e47 ? ofPng(view) : ofJpeg(view);
    return stated && stated.dots >= LEAST && stated.dots <= MOST ? stated : null;
  } catch (error) {
    // The header is cut short.
    if (error instanceof RangeError) return null;
    throw error;
  }
}

const alike = (x: number, y: number): boolean => x > 0 && Math.abs(x - y) <= x / 100;

function ofPng(view: DataView): Stated | null {
  const [width, height] = [view.getUint32(16), view.getUint32(20)];
  for (let at = 8; ; at += 12 + view.getUint32(at)) {
    const type = view.getUint32(at + 4);
    // IDAT: the pixels begin, and pHYs comes before them.
    if (type === 0x49444154) return null;
    if (type !== 0x70485973) continue;
    const [x, y] = [view.getUint32(at + 8), view.getUint32(at + 12)];
    if (view.getUint8(at + 16) !== 1 || !alike(x, y)) return null;
    return { width, height, dots: x / INCHES_IN_A_METRE };
  }
}

function ofJpeg(view: DataView): Stated | null {
  let dots: number | null = null;
  for (let at = 2; ; at += 2 + view.getUint16(at + 2)) {
    const marker = view.getUint16(at);
    // APP0 with "JFIF": its units are 1 for dots per inch and 2 for dots per centimetre.
    if (marker === 0xffe0 && view.getUint32(at + 4) === 0x4a464946) {
      const [unit, x, y] = [
        view.getUint8(at + 11),
        view.getUint16(at + 12),
        view.getUint16(at + 14),
      ];
      if ((unit !== 1 && unit !== 2) || !alike(x, y)) return null;
      dots = unit === 1 ? x : x * CENTIMETRES_IN_AN_INCH;
    }
    const frame =
      marker >= 0xffc0 && marker <= 0xffcf && ![0xffc4, 0xffc8, 0xffcc].includes(marker);
    if (frame)
      return dots === null
        ? null
        : { width: view.getUint16(at + 7), height: view.getUint16(at + 5), dots };
    if (marker < 0xff01 || marker === 0xffda) return null;
  }
}
