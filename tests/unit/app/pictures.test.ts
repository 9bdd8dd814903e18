import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkSize, MOST_BYTES } from '../../../src/app/files.ts';
import { sniff } from '../../../src/app/pictures/sniff.ts';
import { fitPixels, MOST_PIXELS } from '../../../src/worker/picture-size.ts';

const bytes = (text: string) => Uint8Array.from(text, (c) => c.charCodeAt(0));
const utf8 = (text: string) => new TextEncoder().encode(text);

describe('what a file is', () => {
  test.each([
    ['png', bytes('\x89PNG\r\n\x1a\n\0\0\0\rIHDR')],
    ['jpeg', bytes('\xff\xd8\xff\xe1\0\x18Exif')],
    ['webp', bytes('RIFF\x24\0\0\0WEBPVP8 ')],
    ['pdf', bytes('%PDF-1.7\n%\xe2\xe3\xcf\xd3')],
    ['pdf', bytes(`${'\0'.repeat(900)}%PDF-1.4`)],
    ['svg', utf8('<svg xmlns="http://www.w3.org/2000/svg"/>')],
    ['svg', utf8('\ufeff<?xml version="1.0"?>\n<!-- drawn -->\n<svg width="1"/>')],
    ['plan', utf8('{\n  "format": "dropwise-plan"')],
    ['plan', utf8('\ufeff  {"format"')],
    ['empty', bytes('')],
    ['empty', utf8(' \n ')],
  ])('is decided by its content: %s', (kind, head) => {
    expect(sniff(head).kind).toBe(kind);
  });

  test.each([
    ['a text file', utf8('Walls are brick, ½ in. thick.')],
    ['a web page', utf8('<!doctype html><html><svg></svg></html>')],
    ['a GIF picture', bytes('GIF89a')],
    ['a TIFF picture', bytes('II*\0\x08\0\0\0')],
    ['a HEIC photo', bytes('\0\0\0\x18ftypheic')],
    ['a video or sound file', bytes('\0\0\0\x18ftypmp42')],
    ['an archive or an office document', bytes('PK\x03\x04\x14')],
    ['a CAD drawing', bytes('AC1032\0\0')],
    ['a CAD exchange drawing', utf8('  0\nSECTION\n  2\nHEADER\n')],
    ['of a kind that is not known here', bytes('\x01\x02\x03\x04')],
  ])('is said where it cannot be taken: %s', (what, head) => {
    expect(sniff(head)).toEqual({ kind: 'other', what });
  });

  test('is found in a text whose last character is cut by the end of the head', () => {
    const head = utf8(`{"name": "${'é'.repeat(2000)}`).subarray(0, 2047);
    expect(sniff(head).kind).toBe('plan');
  });

  test('never fails, whatever the bytes are', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (head) => {
        expect(typeof sniff(head).kind).toBe('string');
      }),
      { seed: 20_265 },
    );
  });
});

describe('the size of a kept picture', () => {
  test('is its own where it fits', () => {
    expect(fitPixels(4000, 4000)).toEqual({ width: 4000, height: 4000 });
    expect(fitPixels(1, 1)).toEqual({ width: 1, height: 1 });
  });

  test('has no more pixels than are kept, and the shape of the picture to a pixel', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 60_000, noNaN: true }),
        fc.double({ min: 1, max: 60_000, noNaN: true }),
        (width, height) => {
          const kept = fitPixels(width, height);
          expect(kept.width * kept.height).toBeLessThanOrEqual(MOST_PIXELS);
          expect(Math.min(kept.width, kept.height)).toBeGreaterThanOrEqual(1);
          const scale = Math.min(1, Math.sqrt(MOST_PIXELS / (width * height)));
          expect(Math.abs(kept.width - width * scale)).toBeLessThanOrEqual(1);
          expect(Math.abs(kept.height - height * scale)).toBeLessThanOrEqual(1);
        },
      ),
      { seed: 20_266 },
    );
  });

  test('holds for a strip that is thinner than a pixel would be', () => {
    expect(fitPixels(50_000_000, 1)).toEqual({ width: MOST_PIXELS, height: 1 });
  });
});

describe('a file that is too large', () => {
  test('is refused by its size alone, at one byte too many', () => {
    expect(() => checkSize({ name: 'plan.pdf', size: MOST_BYTES })).not.toThrow();
    expect(() => checkSize({ name: 'plan.pdf', size: MOST_BYTES + 1 })).toThrow();
  });
});
