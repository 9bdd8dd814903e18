import { PDFArray, PDFDict, PDFDocument, PDFName, PDFNumber, type PDFRef } from '@cantoo/pdf-lib';
import type { Point } from '../../geometry/point.ts';

/** A picture in a document: its object, its size there, and by how much it is turned. */
export interface Shown {
  readonly ref: PDFRef;
  readonly size: Point;
  readonly turn: number;
}

/** A page of another PDF as it is seen: its crop box on white paper, and its own turn. */
export async function embedPage(
  doc: PDFDocument,
  bytes: Uint8Array,
  number: number,
): Promise<Shown> {
  const other = await PDFDocument.load(bytes, { updateMetadata: false });
  const page = other.getPage(number - 1);
  const { x, y, width, height } = page.getCropBox();
  const box = { left: x, bottom: y, right: x + width, top: y + height };
  const drawn = await doc.embedPage(page, box);
  await drawn.embed();
  return {
    ref: onPaper(doc, drawn.ref, width, height),
    size: [width, height],
    turn: page.getRotation().angle,
  };
}

/**
 * A drawn page on its own white paper, so that it covers what lies below as it does on the board. As one group it fades
 * as a whole; its own white would otherwise show what it covers (ISO 32000-1, 11.6.6). Lines meet as they do by default.
 */
function onPaper(doc: PDFDocument, drawn: PDFRef, width: number, height: number): PDFRef {
  const sheet = `q 1 g 0 0 ${width} ${height} re f Q 0 j /Page Do`;
  return doc.context.register(
    doc.context.flateStream(sheet, {
      Type: 'XObject',
      Subtype: 'Form',
      BBox: [0, 0, width, height],
      Resources: { XObject: { Page: drawn } },
      Group: { S: 'Transparency', I: true },
    }),
  );
}

/**
 * Whether a page of a PDF can be printed as the lines that it is: not one that is locked or damaged, and not one that
 * would look otherwise than on the board, since its stamps and hidden layers stand outside of what is taken over.
 */
export async function canEmbed(bytes: Uint8Array, page: number): Promise<boolean> {
  try {
    const other = await PDFDocument.load(bytes, { updateMetadata: false });
    if (hidesLayers(other) || isMarkedUp(other, page)) return false;
    const doc = await PDFDocument.create({ updateMetadata: false });
    await embedPage(doc, bytes, page);
    return true;
  } catch {
    return false;
  }
}

/** Whether layers are off when the document is opened (ISO 32000-1, 8.11.4.3). */
function hidesLayers({ catalog }: PDFDocument): boolean {
  const config = catalog
    .lookupMaybe(PDFName.of('OCProperties'), PDFDict)
    ?.lookupMaybe(PDFName.of('D'), PDFDict);
  if (!config) return false;
  const off = config.lookupMaybe(PDFName.of('OFF'), PDFArray);
  const base = config.lookupMaybe(PDFName.of('BaseState'), PDFName);
  return (off?.size() ?? 0) > 0 || base === PDFName.of('OFF');
}

/** Flags of an annotation that is not shown: hidden, or not on a screen (ISO 32000-1, 12.5.3). */
const UNSEEN = 2 | 32;

/** Whether a page bears annotations with a look of their own: stamps, clouds, filled fields. */
function isMarkedUp(doc: PDFDocument, page: number): boolean {
  const notes = doc.getPage(page - 1).node.Annots();
  const all = notes ? notes.asArray().map((_, i) => notes.lookupMaybe(i, PDFDict)) : [];
  return all.some((note) => {
    if (!note?.has(PDFName.of('AP'))) return false;
    const flags = note.lookupMaybe(PDFName.of('F'), PDFNumber)?.asNumber() ?? 0;
    return (flags & UNSEEN) === 0 && note.get(PDFName.of('Subtype')) !== PDFName.of('Popup');
  });
}
