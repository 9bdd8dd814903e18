import { deflateSync, inflateSync } from 'node:zlib';
import {
  degrees,
  PDFArray,
  PDFDict,
  PDFDocument,
  PDFHexString,
  PDFName,
  type PDFRawStream,
  PDFString,
  rgb,
} from '@cantoo/pdf-lib';
import { describe, expect, it } from 'vitest';
import type { Mark } from '../../../src/drawing/display.ts';
import { distance } from '../../../src/geometry/nearest.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { Draft } from '../../../src/plan/change.ts';
import { fromPicture } from '../../../src/plan/picture-place.ts';
import { emptyPlan, makeRow } from '../../../src/plan/plan.ts';
import { lackingLetters } from '../../../src/sheets/lacking-letters.ts';
import { canEmbed } from '../../../src/sheets/pdf/embed-page.ts';
import { type PdfAsset, type PdfOptions, writePdf } from '../../../src/sheets/pdf/write-pdf.ts';
import { printJob } from '../../../src/sheets/print-job.ts';
import type { Page } from '../../../src/sheets/sheet.ts';
import { textsOf } from '../drawing/boxes.ts';
import { contentOf, readPdf, resources, wordsOf } from './pdf-tools.ts';
import { fontBytes, samplePlan, surveyOf } from './sample-site.ts';

const fonts = fontBytes();
const PT = 72 / 25.4;

const options = (more: Partial<PdfOptions> = {}): PdfOptions => ({
  fonts,
  assets: new Map(),
  title: 'A plan of ours',
  date: new Date(Date.UTC(2026, 2, 1)),
  ...more,
});

const page = (marks: readonly Mark[], width = 100, height = 80): Page => ({
  title: 'One',
  width,
  height,
  marks,
});

async function write(marks: readonly Mark[], more: Partial<PdfOptions> = {}) {
  const doc = await readPdf(await writePdf([page(marks)], options(more)));
  return { doc, content: contentOf(doc.getPage(0)) };
}

const INK = { stroke: 'ink', width: 0.5 } as const;

/** A chunk of a PNG; readers of this kind do not look at its check sum. */
function chunk(name: string, data: Buffer): Buffer {
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  return Buffer.concat([length, Buffer.from(name, 'latin1'), data, Buffer.alloc(4)]);
}

/** A picture of 2 × 1 pixels, red and blue. */
function png(): Uint8Array {
  const head = Buffer.from([0, 0, 0, 2, 0, 0, 0, 1, 8, 2, 0, 0, 0]);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(Buffer.from([0, 255, 0, 0, 0, 0, 255]))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** Another drawing of 200 × 100 points with one line in it, turned as scanners and plotters do. */
async function otherPdf(turn: number): Promise<Uint8Array> {
  const doc = await PDFDocument.create();
  const other = doc.addPage([200, 100]);
  other.drawLine({ start: { x: 10, y: 20 }, end: { x: 60, y: 20 }, color: rgb(1, 0, 0) });
  other.setRotation(degrees(turn));
  return doc.save();
}

const picture = (turn: 0 | 90 | 180 | 270, width = 40, height = 20, opacity = 1): Mark => ({
  op: 'picture',
  at: [10, 20],
  width,
  height,
  turn,
  opacity,
  asset: 'a1',
});

/** Where a picture's corners come to lie on paper: mm from the upper left of the page. */
function corners(content: string, size: readonly [number, number], pageHeight = 80) {
  const [, ...numbers] =
    /q (?:\/G\d+ gs )?([-\d.]+) ([-\d.]+) ([-\d.]+) ([-\d.]+) ([-\d.]+) ([-\d.]+) cm \/P1 Do/.exec(
      content,
    )!;
  const [a, b, c, d, e, f] = numbers.map(Number) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const at = (u: number, v: number): [number, number] => [
    Math.round((a * u + c * v + e) / PT),
    Math.round(pageHeight - (b * u + d * v + f) / PT),
  ];
  const [w, h] = size;
  return { upperLeft: at(0, h), upperRight: at(w, h), lowerLeft: at(0, 0) };
}

describe('pdf', () => {
  it('gives the same bytes for the same pages, and others for another date', async () => {
    const plan = samplePlan();
    const pages = printJob(plan, surveyOf(plan), kinds, { paper: 'letter', printed: 'today' });
    const first = await writePdf(pages, options());
    const second = await writePdf(pages, options());
    expect(Buffer.compare(first, second)).toBe(0);
    const later = await writePdf(pages, options({ date: new Date(Date.UTC(2027, 0, 1)) }));
    expect(Buffer.compare(first, later)).not.toBe(0);
  });

  it('keeps the true size of the sheet and forbids scaling when it is printed', async () => {
    const { doc } = await write([]);
    expect(doc.getPage(0).getSize()).toEqual({ width: 100 * PT, height: 80 * PT });
    const viewer = doc.catalog.getViewerPreferences()!;
    expect(viewer.getPrintScaling()).toBe('None');
    expect(viewer.getDisplayDocTitle()).toBe(true);
  });

  it('carries title and date that it was given, and no clock of its own', async () => {
    const { doc } = await write([]);
    expect(doc.getTitle()).toBe('A plan of ours');
    expect(doc.getCreationDate()).toEqual(new Date(Date.UTC(2026, 2, 1)));
    expect(doc.getModificationDate()).toEqual(new Date(Date.UTC(2026, 2, 1)));
  });

  it('draws a line where it lies on paper, to a thousandth of a point', async () => {
    const { content } = await write([
      {
        op: 'line',
        points: [
          [10, 10],
          [60.8, 10],
        ],
        style: INK,
      },
    ]);
    const [, x0, y0, x1, y1] = /([\d.]+) ([\d.]+) m ([\d.]+) ([\d.]+) l S/.exec(content)!;
    expect(Number(x1) - Number(x0)).toBeCloseTo(2 * 72, 3);
    expect(Number(y0)).toBeCloseTo(70 * PT, 2);
    expect(y1).toBe(y0);
    expect(content).toContain(`${(0.5 * PT).toFixed(3)} w`);
  });

  it('scales what is in a group, but neither line widths nor type', async () => {
    const marks: Mark[] = [
      {
        op: 'line',
        points: [
          [0, 0],
          [9600, 0],
        ],
        style: INK,
      },
      { op: 'text', at: [0, 0], text: 'A', size: 2.5, ink: 'ink' },
    ];
    const { content } = await write([{ op: 'group', at: [10, 10], scale: 1 / 96, marks }]);
    const [, x0, x1] = /([\d.]+) [\d.]+ m ([\d.]+) [\d.]+ l S/.exec(content)!;
    expect(Number(x1) - Number(x0)).toBeCloseTo(100 * PT, 2);
    expect(content).toContain(`${(0.5 * PT).toFixed(3)} w`);
    expect(content).toContain(`/F1 ${(2.5 * PT).toFixed(3)} Tf`);
  });

  it('turns a symbol clockwise round its place, and keeps its size within a scaled group', async () => {
    const symbol: Mark = {
      op: 'symbol',
      at: [960, 960],
      turn: 90,
      marks: [
        {
          op: 'line',
          points: [
            [0, 0],
            [0, -5],
          ],
          style: INK,
        },
      ],
    };
    const { content } = await write([{ op: 'group', at: [0, 0], scale: 1 / 96, marks: [symbol] }]);
    const [, x0, y0, x1, y1] = /([\d.]+) ([\d.]+) m ([\d.]+) ([\d.]+) l S/.exec(content)!;
    expect(Number(x1) - Number(x0)).toBeCloseTo(5 * PT, 2);
    expect(Number(y1)).toBeCloseTo(Number(y0), 2);
    expect(Number(x0)).toBeCloseTo(10 * PT, 2);
  });

  it('clips a group to its outline and leaves the clip behind it', async () => {
    const line: Mark = {
      op: 'line',
      points: [
        [0, 0],
        [50, 50],
      ],
      style: INK,
    };
    const clip: [number, number][] = [
      [0, 0],
      [5, 0],
      [5, 5],
    ];
    const { content } = await write([
      { op: 'group', at: [0, 0], scale: 1, clip, marks: [line] },
      line,
    ]);
    const rows = content.split('\n');
    const start = rows.findIndex((row) => row.includes('W n'));
    expect(rows[start]!.startsWith('q ')).toBe(true);
    expect(rows[start + 2]).toBe('Q');
    expect(rows[start + 3]).toContain(' S');
  });

  it('draws hatches as clipped lines', async () => {
    const square: [number, number][] = [
      [10, 10],
      [40, 10],
      [40, 40],
      [10, 40],
    ];
    const { content } = await write([
      {
        op: 'line',
        closed: true,
        points: square,
        style: { ...INK, fill: 'paper', hatch: 'cross' },
      },
    ]);
    const [, lines] = /W n [\d.]+ w \d J (.*) S Q/.exec(content)!;
    expect(lines!.match(/ m /g)!.length).toBeGreaterThan(10);
    expect(content.indexOf(' f')).toBeLessThan(content.indexOf('W n'));
  });

  it('holds text that can be searched, in embedded subsets of the fonts', async () => {
    const text = 'Halvorine 0O1lI ñ á ü × ° ½ – 12\'-6"';
    const marks: Mark[] = [
      { op: 'text', at: [5, 20], text, size: 3, ink: 'ink', halo: 'paper' },
      { op: 'text', at: [5, 30], text: 'A3', size: 3, ink: 'cable', face: 'mono', bold: true },
    ];
    const { doc } = await write(marks);
    expect(wordsOf(doc.getPage(0))).toEqual([text, 'A3']);
    const used = resources(doc.getPage(0), 'Font');
    expect(used.keys().length).toBe(2);
    const files = doc.context
      .enumerateIndirectObjects()
      .flatMap(([, object]) =>
        object instanceof PDFDict && object.has(PDFName.of('FontFile2'))
          ? [object.lookup(PDFName.of('FontFile2')) as PDFRawStream]
          : [],
      );
    expect(files.length).toBeGreaterThanOrEqual(2);
    for (const file of files) expect(file.contents.length).toBeLessThan(fonts.sans.length / 4);
  });

  it('writes all words of all sheets, and each only once', async () => {
    const plan = samplePlan();
    const pages = printJob(plan, surveyOf(plan), kinds, { paper: 'letter', printed: 'today' });
    const doc = await readPdf(await writePdf(pages, options()));
    pages.forEach((one, i) => {
      const wanted = textsOf(one.marks).filter((text) => text !== '');
      expect(wordsOf(doc.getPage(i)).sort()).toEqual(wanted.sort());
    });
  });

  it('keeps figures in their order beside words that run from the right', async () => {
    const text = 'ש"ח 185.00 e\u0301';
    const { doc } = await write([{ op: 'text', at: [5, 20], text, size: 3, ink: 'ink' }]);
    const [words] = wordsOf(doc.getPage(0));
    expect(words).toContain('185.00');
    expect(words!.endsWith(' é')).toBe(true);
  });

  it('says which letters its fonts do not have, and that those of the sample are all there', () => {
    const text = 'Shop 😀 שלום Å';
    const mark: Mark = { op: 'text', at: [0, 0], text, size: 3, ink: 'ink' };
    const symbol: Mark = { op: 'symbol', at: [0, 0], marks: [mark] };
    expect(lackingLetters([page([symbol]), page([mark])])).toEqual(['😀', 'ש', 'ל', 'ו', 'ם']);
    const plan = samplePlan();
    const pages = printJob(plan, surveyOf(plan), kinds, { paper: 'letter', printed: 'today' });
    expect(lackingLetters(pages)).toEqual([]);
  });

  it('sets text to the left, in the middle or to the right of its place, and turns it clockwise', async () => {
    const place = async (more: object) => {
      const { content } = await write([
        { op: 'text', at: [50, 40], text: 'MMMM', size: 4, ink: 'ink', ...more },
      ]);
      const [, a, b, c, d, x, y] =
        /Tf ([-\d.]+) ([-\d.]+) ([-\d.]+) ([-\d.]+) ([-\d.]+) ([-\d.]+) Tm/.exec(content)!;
      return [a, b, c, d, x, y].map(Number) as [number, number, number, number, number, number];
    };
    const left = await place({});
    const centre = await place({ align: 'centre' });
    const right = await place({ align: 'right' });
    expect(left[4]).toBeCloseTo(50 * PT, 2);
    expect(left[4] - centre[4]).toBeCloseTo(centre[4] - right[4], 2);
    expect(left[4] - right[4]).toBeGreaterThan(20);
    const middle = await place({ vertical: 'middle' });
    expect(left[5] - middle[5]).toBeCloseTo((4 * PT * 0.668) / 2, 2);
    const turned = await place({ turn: 90 });
    expect(turned.slice(0, 4)).toEqual([0, -1, 1, 0]);
  });

  it('lists the layers of all pages once, and puts what belongs to a layer into it', async () => {
    const group = (layer: string): Mark => ({
      op: 'group',
      at: [0, 0],
      scale: 1,
      layer,
      marks: [
        {
          op: 'line',
          points: [
            [0, 0],
            [5, 5],
          ],
          style: INK,
        },
      ],
    });
    const pages = [page([group('Walls'), group('Cable')]), page([group('Cable')])];
    const doc = await readPdf(await writePdf(pages, options()));
    const properties = doc.catalog.lookup(PDFName.of('OCProperties'), PDFDict);
    const groups = properties.lookup(PDFName.of('OCGs'), PDFArray);
    const names = groups.asArray().map((ref) => {
      const name = (doc.context.lookup(ref) as PDFDict).lookup(PDFName.of('Name'));
      return name instanceof PDFString || name instanceof PDFHexString ? name.decodeText() : '';
    });
    expect(names).toEqual(['Walls', 'Cable']);
    const second = doc.getPage(1);
    const used = resources(second, 'Properties');
    const [, key] = /\/OC \/(\w+) BDC/.exec(contentOf(second))!;
    expect(used.get(PDFName.of(key!))).toBe(groups.get(1));
    expect(contentOf(second).match(/BDC/g)!.length).toBe(contentOf(second).match(/EMC/g)!.length);
  });

  it('shows a picture at its size, turned clockwise, its upper left corner where it was put', async () => {
    const assets = new Map<string, PdfAsset>([['a1', { type: 'image/png', bytes: png() }]]);
    const seen = async (turn: 0 | 90 | 180 | 270) =>
      corners((await write([picture(turn)], { assets })).content, [1, 1]);
    expect(await seen(0)).toEqual({
      upperLeft: [10, 20],
      upperRight: [50, 20],
      lowerLeft: [10, 40],
    });
    expect(await seen(90)).toEqual({
      upperLeft: [30, 20],
      upperRight: [30, 60],
      lowerLeft: [10, 20],
    });
    expect(await seen(180)).toEqual({
      upperLeft: [50, 40],
      upperRight: [10, 40],
      lowerLeft: [50, 20],
    });
    expect(await seen(270)).toEqual({
      upperLeft: [10, 60],
      upperRight: [10, 20],
      lowerLeft: [30, 60],
    });
  });

  it('tilts a picture about its middle, and clips it to the part that is shown', async () => {
    const assets = new Map<string, PdfAsset>([['a1', { type: 'image/png', bytes: png() }]]);
    const tilted = { ...picture(0), tilt: 30 } as Mark;
    const { upperLeft, upperRight } = corners((await write([tilted], { assets })).content, [1, 1]);
    // About (30, 30): the corners at (-20, -10) and (20, -10) from there, turned by 30 degrees.
    expect(upperLeft).toEqual([Math.round(30 - 20 * 0.866 + 5), Math.round(30 - 10 - 8.66)]);
    expect(upperRight).toEqual([Math.round(30 + 20 * 0.866 + 5), Math.round(30 + 10 - 8.66)]);

    const part = { x0: 0.25, y0: 0, x1: 1, y1: 0.5 };
    const cut = { ...picture(90), part } as Mark;
    const { content } = await write([cut], { assets });
    const [, clip] = /q ((?:[-\d.]+ [-\d.]+ [ml] ?)+h?) ?W n/.exec(content)!;
    const places = [...clip!.matchAll(/([-\d.]+) ([-\d.]+) [ml]/g)].map(([, x, y]) => [
      Math.round(Number(x) / PT),
      Math.round(80 - Number(y) / PT),
    ]);
    // Turned with the clock its left side is on top, and its upper half at the right: 20 wide, 40 high from (10, 20).
    expect(places).toEqual([
      [30, 30],
      [30, 60],
      [20, 60],
      [20, 30],
    ]);
  });

  it('prints the page of a PDF that its key names, faded as a whole', async () => {
    const other = await PDFDocument.create();
    for (const size of [
      [50, 50],
      [400, 100],
    ] as const)
      other.addPage([...size]).drawLine({ start: { x: 1, y: 2 }, end: { x: 30, y: 2 } });
    // A page that draws nothing has nothing to be embedded.
    other.addPage();
    const assets = new Map<string, PdfAsset>([
      ['a1', { type: 'application/pdf', bytes: await other.save() }],
    ]);
    const second = { ...picture(0), asset: 'a1#2' } as Mark;
    const { doc, content } = await write([picture(0), second], { assets });
    expect(content).toMatch(/\/P1 Do[\s\S]*\/P2 Do/);
    const objects = resources(doc.getPage(0), 'XObject');
    const boxes = ['P1', 'P2'].map((name) => {
      const { dict } = objects.lookup(PDFName.of(name)) as PDFRawStream;
      expect(String(dict.lookup(PDFName.of('Group'), PDFDict).get(PDFName.of('S')))).toBe(
        '/Transparency',
      );
      return String(dict.get(PDFName.of('BBox')));
    });
    expect(boxes).toEqual(['[ 0 0 50 50 ]', '[ 0 0 400 100 ]']);
    expect(await canEmbed(assets.get('a1')!.bytes, 2)).toBe(true);
    for (const page of [3, 4]) expect(await canEmbed(assets.get('a1')!.bytes, page)).toBe(false);
    expect(await canEmbed(new Uint8Array([1, 2, 3]), 1)).toBe(false);
  });

  it('prints a turned, tilted and cropped picture where the board has it', async () => {
    const assets = new Map<string, PdfAsset>([
      ['0123456789abcdef', { type: 'image/png', bytes: png() }],
    ]);
    for (const [turn, tilt] of [
      [0, -20],
      [90, 9],
      [180, 3],
      [270, 41],
    ] as const) {
      const row = makeRow('backgrounds', 'B1', {
        asset: '0123456789abcdef',
        width: 800,
        height: 600,
        origin: [12_000, -3000],
        mmPerPixel: 12.5,
        turn,
        tilt,
        crop: { x0: 60, y0: 40, x1: 700, y1: 520 },
      });
      const draft = new Draft(emptyPlan());
      draft.put('backgrounds', row);
      const job = { paper: 'a3', sheets: ['plan'], printed: '' } as const;
      const pages = printJob(draft.plan, surveyOf(draft.plan), kinds, job);
      const group = pages[0]!.marks.find(
        (mark) => mark.op === 'group' && mark.marks.some(({ op }) => op === 'picture'),
      ) as Extract<Mark, { op: 'group' }>;
      /** Where a pixel of the picture belongs on the page, in points. */
      const belongs = ([px, py]: Point): Point => {
        const [x, y] = fromPicture(row, [px, py]);
        const onPaper = (v: number, axis: 0 | 1) => group.at[axis] + v * group.scale;
        return [onPaper(x, 0) * PT, (pages[0]!.height - onPaper(y, 1)) * PT];
      };
      const doc = await readPdf(await writePdf(pages, options({ assets })));
      const content = contentOf(doc.getPage(0));
      const found = /q ((?:[-\d.]+ [-\d.]+ [ml] )+)h W n (?:\/G\d+ gs )?((?:[-\d.]+ ){6})cm \/P1/;
      const [, clip, matrix] = found.exec(content)!;
      const [a, b, c, d, e, f] = matrix!.trim().split(' ').map(Number) as number[];
      // The unit square of an image stands on its lower edge.
      for (const [u, v] of [
        [0, 0],
        [1, 0],
        [1, 1],
        [0, 1],
      ] as const) {
        const at: Point = [a! * u + c! * v + e!, b! * u + d! * v + f!];
        expect(distance(at, belongs([800 * u, 600 * (1 - v)]))).toBeLessThan(0.01);
      }
      const corners = [...clip!.matchAll(/([-\d.]+) ([-\d.]+) [ml]/g)];
      const { x0, y0, x1, y1 } = row.crop!;
      const cut: Point[] = [
        [x0, y0],
        [x1, y0],
        [x1, y1],
        [x0, y1],
      ];
      expect(corners).toHaveLength(4);
      for (const [i, [, x, y]] of corners.entries())
        expect(distance([Number(x), Number(y)], belongs(cut[i]!))).toBeLessThan(0.01);
    }
  });

  it('prints as pixels a page with stamps or hidden layers, which its lines would lack or show', async () => {
    const made = async (change: (doc: PDFDocument) => void) => {
      const doc = await PDFDocument.load(await otherPdf(0));
      change(doc);
      return canEmbed(await doc.save(), 1);
    };
    const layers = (state: object) => (doc: PDFDocument) => {
      const layer = doc.context.register(
        doc.context.obj({ Type: 'OCG', Name: PDFString.of('Furniture') }),
      );
      const D = 'off' in state ? { OFF: [layer] } : state;
      doc.catalog.set(
        PDFName.of('OCProperties'),
        doc.context.obj({ OCGs: [layer], D: { ...D } as never }),
      );
    };
    const note = (fields: object) => (doc: PDFDocument) => {
      const look = doc.context.register(doc.context.stream('', { Subtype: 'Form' }));
      const AP = 'bare' in fields ? {} : { AP: { N: look } };
      const row = { Type: 'Annot', Rect: [0, 0, 9, 9], ...AP, ...fields } as never;
      doc
        .getPage(0)
        .node.set(
          PDFName.of('Annots'),
          doc.context.obj([doc.context.register(doc.context.obj(row))]),
        );
    };
    expect(await made(layers({}))).toBe(true);
    expect(await made(layers({ off: true }))).toBe(false);
    expect(await made(layers({ BaseState: 'OFF' }))).toBe(false);
    expect(await made(note({ Subtype: 'Stamp' }))).toBe(false);
    expect(await made(note({ Subtype: 'Stamp', F: 2 }))).toBe(true);
    expect(await made(note({ Subtype: 'Popup' }))).toBe(true);
    expect(await made(note({ Subtype: 'Link', bare: true }))).toBe(true);
  });

  it('fades a picture', async () => {
    const assets = new Map<string, PdfAsset>([['a1', { type: 'image/png', bytes: png() }]]);
    const { doc, content } = await write([picture(0, 40, 20, 0.4)], { assets });
    expect(content).toContain('/G40 gs');
    const states = resources(doc.getPage(0), 'ExtGState');
    const state = states.lookup(PDFName.of('G40'), PDFDict);
    expect(String(state.get(PDFName.of('ca')))).toBe('0.4');
  });

  it('lays a page of another PDF under the drawing as vectors', async () => {
    const assets = new Map<string, PdfAsset>([
      ['a1', { type: 'application/pdf', bytes: await otherPdf(0) }],
    ]);
    const { doc, content } = await write([picture(0)], { assets });
    expect(corners(content, [200, 100])).toEqual({
      upperLeft: [10, 20],
      upperRight: [50, 20],
      lowerLeft: [10, 40],
    });
    const objects = resources(doc.getPage(0), 'XObject');
    const form = objects.lookup(PDFName.of('P1')) as PDFRawStream;
    expect(String(form.dict.get(PDFName.of('Subtype')))).toBe('/Form');
    // On white paper of its own, which covers another picture below it.
    expect(inflateSync(form.contents).toString('latin1')).toBe(
      'q 1 g 0 0 200 100 re f Q 0 j /Page Do',
    );
  });

  it('shows a page that says that it is turned as readers show it', async () => {
    const assets = new Map<string, PdfAsset>([
      ['a1', { type: 'application/pdf', bytes: await otherPdf(90) }],
    ]);
    // Seen upright it is 100 wide and 200 high: half as wide as it is high.
    const { content } = await write([picture(0, 20, 40)], { assets });
    expect(corners(content, [200, 100])).toEqual({
      upperLeft: [30, 20],
      upperRight: [30, 60],
      lowerLeft: [10, 20],
    });
  });

  it('refuses to print a sheet without its picture, or with one that a PDF cannot hold', async () => {
    await expect(write([picture(0)])).rejects.toThrow('a1');
    const assets = new Map<string, PdfAsset>([['a1', { type: 'image/webp', bytes: png() }]]);
    await expect(write([picture(0)], { assets })).rejects.toThrow('image/webp');
  });

  it('refuses a coordinate that is not a number', async () => {
    await expect(
      write([
        {
          op: 'line',
          points: [
            [0, 0],
            [Number.NaN, 5],
          ],
          style: INK,
        },
      ]),
    ).rejects.toThrow('coordinate');
  });
});
