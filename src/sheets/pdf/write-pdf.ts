import {
  PDFDict,
  PDFDocument,
  type PDFFont,
  PDFHexString,
  type PDFImage,
  PDFName,
  type PDFPage,
  type PDFRef,
  PrintScaling,
} from '@cantoo/pdf-lib';
import * as fontkit from 'fontkit';
import { pictureOf } from '../../drawing/display.ts';
import { fontMeasure } from '../../drawing/measure.ts';
import { PALETTES } from '../../drawing/palette.ts';
import type { Point } from '../../geometry/point.ts';
import type { Page } from '../sheet.ts';
import { num, PT } from './content.ts';
import { embedPage, type Shown } from './embed-page.ts';
import { type Face, type PageResources, pageContent } from './page-content.ts';

/** The bytes of the four fonts that the program ships (TrueType). */
export type PdfFonts = Readonly<Record<Face, Uint8Array>>;

/** A picture under the drawing. `image/png`, `image/jpeg`, or `application/pdf` for a page of it. */
export interface PdfAsset {
  readonly type: string;
  readonly bytes: Uint8Array;
}

export interface PdfOptions {
  readonly fonts: PdfFonts;
  /** By the hash of their bytes, as `pictureOf` reads it from the keys of the pages' pictures. */
  readonly assets: ReadonlyMap<string, PdfAsset>;
  readonly title: string;
  /** Date of the document; the caller's clock, so that the same pages give the same bytes. */
  readonly date: Date;
}

/**
 * Writes pages as a PDF: vectors at true size, text that can be searched, layers that can be switched. The same input
 * gives the same bytes. Printing programs are told not to scale.
 *
 * @throws when a page shows a picture that is not among the assets, or one in a format that a PDF cannot hold
 */
export async function writePdf(pages: readonly Page[], options: PdfOptions): Promise<Uint8Array> {
  const doc = await PDFDocument.create({ updateMetadata: false });
  doc.registerFontkit(fontkit);
  setInfo(doc, options);
  const book = await openBook(doc, pages, options);
  for (const page of pages) addPage(doc, page, book);
  listLayers(doc, book);
  return doc.save({ addDefaultPage: false, updateFieldAppearances: false });
}

function setInfo(doc: PDFDocument, { title, date }: PdfOptions): void {
  doc.setTitle(title, { showInWindowTitleBar: true });
  doc.setProducer('Dropwise');
  doc.setCreator('Dropwise');
  doc.setLanguage('en');
  doc.setCreationDate(date);
  doc.setModificationDate(date);
  doc.catalog.getOrCreateViewerPreferences().setPrintScaling(PrintScaling.None);
}

/** What all pages of a document share. */
interface Book {
  readonly fonts: ReadonlyMap<Face, PDFFont>;
  readonly outlines: ReadonlyMap<Face, fontkit.Font>;
  readonly pictures: ReadonlyMap<string, Shown>;
  readonly layers: Map<string, PDFRef>;
  readonly opacities: Map<number, PDFRef>;
  /** What stands for a letter in a face. */
  readonly codes: Map<string, string>;
}

/** Names of the embedded fonts; the six letters before the sign say that each is a subset (ISO 32000-1, 9.6.4). */
const NAMES: Readonly<Record<Face, string>> = {
  sans: 'DROPWA+AtkinsonHyperlegibleNext-Regular',
  'sans-bold': 'DROPWB+AtkinsonHyperlegibleNext-Bold',
  mono: 'DROPWC+AtkinsonHyperlegibleMono-Regular',
  'mono-bold': 'DROPWD+AtkinsonHyperlegibleMono-Bold',
};

async function openBook(
  doc: PDFDocument,
  pages: readonly Page[],
  options: PdfOptions,
): Promise<Book> {
  const fonts = new Map<Face, PDFFont>();
  const outlines = new Map<Face, fontkit.Font>();
  for (const face of ['sans', 'sans-bold', 'mono', 'mono-bold'] as const) {
    const bytes = options.fonts[face];
    fonts.set(face, await doc.embedFont(bytes, { subset: true, customName: NAMES[face] }));
    outlines.set(face, fontkit.create(bytes as Buffer) as fontkit.Font);
  }
  const pictures = new Map<string, Shown>();
  for (const key of picturesOf(pages)) {
    const { asset: hash, page } = pictureOf(key);
    const asset = options.assets.get(key) ?? options.assets.get(hash);
    if (!asset) throw new Error(`the picture ${key} of a page was not given to the writer`);
    pictures.set(key, await embed(doc, asset, page, key));
  }
  return { fonts, outlines, pictures, layers: new Map(), opacities: new Map(), codes: new Map() };
}

/** The pictures that the pages show, in their order. */
export function picturesOf(pages: readonly Page[]): string[] {
  const found = new Set<string>();
  const look = (marks: Page['marks']): void => {
    for (const mark of marks) {
      if (mark.op === 'picture') found.add(mark.asset);
      if (mark.op === 'group' || mark.op === 'symbol') look(mark.marks);
    }
  };
  for (const page of pages) look(page.marks);
  return [...found];
}

async function embed(
  doc: PDFDocument,
  { type, bytes }: PdfAsset,
  page: number,
  key: string,
): Promise<Shown> {
  const image = (picture: PDFImage): Shown => ({ ref: picture.ref, size: [1, 1], turn: 0 });
  if (type === 'image/png') return image(await doc.embedPng(bytes));
  if (type === 'image/jpeg') return image(await doc.embedJpg(bytes));
  if (type === 'application/pdf') return embedPage(doc, bytes, page);
  throw new Error(`the picture ${key} is ${type}; a PDF takes PNG, JPEG or a PDF page`);
}

function addPage(doc: PDFDocument, page: Page, book: Book): void {
  const leaf = doc.addPage([page.width * PT, page.height * PT]);
  const content = pageContent(page, resourcesOf(doc, leaf, book));
  leaf.node.set(PDFName.of('Contents'), doc.context.register(doc.context.flateStream(content)));
}

/** Names of a page's resources, given when they are first asked for. */
function resourcesOf(doc: PDFDocument, leaf: PDFPage, book: Book): PageResources {
  const named = new Set<string>();
  const once = (name: string, enter: (name: PDFName) => void): string => {
    if (!named.has(name)) {
      named.add(name);
      enter(PDFName.of(name));
    }
    return name;
  };
  const fontName = { sans: 'F1', 'sans-bold': 'F2', mono: 'F3', 'mono-bold': 'F4' } as const;
  return {
    palette: PALETTES.paper,
    text: (face, words) => {
      const font = book.fonts.get(face)!;
      const name = once(fontName[face], (n) => leaf.node.setFontDictionary(n, font.ref));
      return {
        font: name,
        codes: `<${[...words].map((letter) => codeOf(book, face, letter)).join('')}>`,
      };
    },
    outline: (face, words, place) => outlineOf(book.outlines.get(face)!, words, place),
    width: (face, words) =>
      fontMeasure.width(words, 1, face.startsWith('mono') ? 'mono' : 'sans', face.endsWith('bold')),
    opacity: (share) =>
      once(`G${Math.round(share * 100)}`, (n) =>
        leaf.node.setExtGState(n, opacityOf(doc, book, share)),
      ),
    layer: (name) => {
      const ref = layerOf(doc, book, name);
      return once(`L${[...book.layers.keys()].indexOf(name) + 1}`, (n) => enterLayer(leaf, n, ref));
    },
    picture: (asset) => {
      const shown = book.pictures.get(asset)!;
      const name = `P${[...book.pictures.keys()].indexOf(asset) + 1}`;
      once(name, (n) => leaf.node.setXObject(n, shown.ref));
      return { name, size: shown.size, turn: shown.turn };
    },
  };
}

/**
 * The code of one letter. Letters are laid out one by one, as they are measured: asked for a whole line, the font's
 * library turns one round that begins in a script that runs from the right, and the figures in it with it.
 */
function codeOf({ fonts, codes }: Book, face: Face, letter: string): string {
  const key = `${face} ${letter}`;
  const known = codes.get(key);
  if (known !== undefined) return known;
  const code = fonts.get(face)!.encodeText(letter).asString();
  codes.set(key, code);
  return code;
}

function opacityOf(doc: PDFDocument, book: Book, share: number): PDFRef {
  const key = Math.round(share * 100);
  const known = book.opacities.get(key);
  if (known) return known;
  const ref = doc.context.register(
    doc.context.obj({ Type: 'ExtGState', CA: key / 100, ca: key / 100 }),
  );
  book.opacities.set(key, ref);
  return ref;
}

function layerOf(doc: PDFDocument, book: Book, name: string): PDFRef {
  const known = book.layers.get(name);
  if (known) return known;
  const ref = doc.context.register(
    doc.context.obj({ Type: 'OCG', Name: PDFHexString.fromText(name) }),
  );
  book.layers.set(name, ref);
  return ref;
}

function enterLayer(leaf: PDFPage, name: PDFName, ref: PDFRef): void {
  const { Resources } = leaf.node.normalizedEntries();
  const key = PDFName.of('Properties');
  const properties = Resources.lookupMaybe(key, PDFDict) ?? leaf.doc.context.obj({});
  properties.set(name, ref);
  Resources.set(key, properties);
}

function listLayers(doc: PDFDocument, book: Book): void {
  if (book.layers.size === 0) return;
  const all = [...book.layers.values()];
  doc.catalog.set(
    PDFName.of('OCProperties'),
    doc.context.obj({ OCGs: all, D: { Order: all, ON: all } }),
  );
}

/** A text's outlines as a path; `place` puts a point of the text, size 1 and y up, on the page. */
function outlineOf(font: fontkit.Font, words: string, place: (p: Point) => Point): string {
  const out: string[] = [];
  let x = 0;
  const em = font.unitsPerEm;
  for (const letter of words) {
    const glyph = font.glyphForCodePoint(letter.codePointAt(0)!);
    const at = (u: number, v: number): Point => place([(x + u) / em, v / em]);
    const xy = (p: Point): string => `${num(p[0])} ${num(p[1])}`;
    let pen: Point = [0, 0];
    for (const { command, args } of glyph.path.commands) {
      const p = (i: number): Point => at(args[i]!, args[i + 1]!);
      if (command === 'moveTo') out.push(`${xy(p(0))} m`);
      if (command === 'lineTo') out.push(`${xy(p(0))} l`);
      if (command === 'bezierCurveTo') out.push(`${xy(p(0))} ${xy(p(2))} ${xy(p(4))} c`);
      if (command === 'quadraticCurveTo') {
        const [c, end] = [p(0), p(2)];
        const third = (from: Point): Point => [
          from[0] + (2 / 3) * (c[0] - from[0]),
          from[1] + (2 / 3) * (c[1] - from[1]),
        ];
        out.push(`${xy(third(pen))} ${xy(third(end))} ${xy(end)} c`);
      }
      if (command === 'closePath') out.push('h');
      else pen = p(args.length - 2);
    }
    x += glyph.advanceWidth;
  }
  return out.join(' ');
}
