import { inflateSync } from 'node:zlib';
import {
  PDFArray,
  type PDFContext,
  PDFDict,
  PDFDocument,
  PDFName,
  type PDFPage,
  type PDFRawStream,
} from '@cantoo/pdf-lib';

/** Reads a PDF back for tests: its objects through the library, its streams and texts by hand. */
export const readPdf = (bytes: Uint8Array): Promise<PDFDocument> =>
  PDFDocument.load(bytes, { updateMetadata: false });

const decode = (stream: PDFRawStream): string =>
  stream.dict.has(PDFName.of('Filter'))
    ? inflateSync(stream.contents).toString('latin1')
    : Buffer.from(stream.contents).toString('latin1');

/** The operators of a page. */
export function contentOf(page: PDFPage): string {
  const contents = page.node.Contents();
  const streams = contents instanceof PDFArray ? contents.asArray() : [contents];
  return streams
    .map((one) => page.doc.context.lookup(one))
    .map((stream) => decode(stream as PDFRawStream))
    .join('\n');
}

/** From a font's codes to characters, as its ToUnicode map says. */
function unicodeOf(context: PDFContext, font: PDFDict): Map<string, string> {
  const map = context.lookup(font.get(PDFName.of('ToUnicode'))) as PDFRawStream;
  const found = new Map<string, string>();
  for (const [, code, chars] of decode(map).matchAll(/<([0-9A-F]{4})> <([0-9A-F]+)>/gi)) {
    const units = chars!.match(/.{4}/g)!.map((unit) => Number.parseInt(unit, 16));
    found.set(code!.toUpperCase(), String.fromCharCode(...units));
  }
  return found;
}

/** The dictionary of a page's resources under a name, such as `Font`. */
export const resources = (page: PDFPage, name: string): PDFDict =>
  page.node.Resources()!.lookup(PDFName.of(name), PDFDict);

/** The texts of a page in drawing order, as a reader's search would find them. */
export function wordsOf(page: PDFPage): string[] {
  const fonts = resources(page, 'Font');
  const maps = new Map(
    fonts
      .keys()
      .map((key) => [key.decodeText(), unicodeOf(page.doc.context, fonts.lookup(key, PDFDict))]),
  );
  const texts = contentOf(page).matchAll(/\/(F\d) [\d.]+ Tf .*? <([0-9A-F]*)> Tj/gi);
  return [...texts].map(([, font, codes]) =>
    (codes!.match(/.{4}/g) ?? [])
      .map((code) => maps.get(font!)!.get(code.toUpperCase()) ?? '\ufffd')
      .join(''),
  );
}
