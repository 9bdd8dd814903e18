import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import fc from 'fast-check';
import { OPS as THEIRS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, test } from 'vitest';
import { LinePen, type PageLines } from '../../../src/app/pictures/page-lines.ts';
import { OPS, readPdfLines } from '../../../src/app/pictures/pdf-lines.ts';
import { pixelsOf, readSvgLines, transformOf } from '../../../src/app/pictures/svg-lines.ts';
import { drawPathData } from '../../../src/app/pictures/svg-path.ts';
import { readXml } from '../../../src/app/pictures/xml.ts';
import type { Point } from '../../../src/geometry/point.ts';

/** A page of 100 by 80 points, upright, y up as PDF pages are. */
const UPRIGHT = { width: 100, height: 80, transform: [1, 0, 0, -1, 0, 80] };

type Op = readonly [number, ...unknown[]];
const pdf = (...ops: Op[]): PageLines =>
  readPdfLines(
    { fnArray: ops.map(([op]) => op), argsArray: ops.map(([, ...args]) => args) },
    UPRIGHT,
  );
const path = (paint: number, ...steps: number[]): Op => [
  OPS.constructPath,
  paint,
  [Float32Array.from(steps)],
  null,
];
const LINE = [0, 10, 20, 1, 40, 20];
const ends = ({ lines }: PageLines) => lines.map(({ a, b }) => [a, b]);

describe('the lines of a PDF page', () => {
  test('the numbers of the operators are those of the reader that gives them', () => {
    expect(THEIRS).toMatchObject(OPS);
  });

  test('a stroke is told from its upper left corner, y down, with its width and ink', () => {
    const page = pdf(
      [OPS.setLineWidth, 1.5],
      [OPS.setStrokeRGBColor, '#2C2E35'],
      path(OPS.stroke, ...LINE),
    );
    expect(page).toMatchObject({ width: 100, height: 80, fills: [] });
    expect(page.lines).toEqual([
      { a: [10, 60], b: [40, 60], width: 1.5, ink: '#2c2e35', dashed: false },
    ]);
  });

  test('a transform moves and scales lines and their width, until it is restored', () => {
    const page = pdf(
      [OPS.save],
      [OPS.transform, 2, 0, 0, 2, 5, 5],
      [OPS.setLineWidth, 3],
      path(OPS.stroke, ...LINE),
      [OPS.restore],
      path(OPS.stroke, ...LINE),
    );
    expect(page.lines.map(({ a, width }) => [a, width])).toEqual([
      [[25, 35], 6],
      [[10, 60], 1],
    ]);
  });

  test('a form is drawn through its matrix, and what is set inside ends with it', () => {
    const page = pdf(
      [OPS.paintFormXObjectBegin, [1, 0, 0, 1, 0, 10], null],
      [
        OPS.setGState,
        [
          ['LW', 4],
          ['D', [[3, 1], 0]],
        ],
      ],
      path(OPS.stroke, ...LINE),
      [OPS.paintFormXObjectEnd],
      path(OPS.stroke, ...LINE),
    );
    expect(page.lines).toMatchObject([
      { a: [10, 50], width: 4, dashed: true },
      { a: [10, 60], width: 1, dashed: false },
    ]);
  });

  test('a closed path has its last side; a curved side is no line', () => {
    const triangle = [0, 0, 0, 1, 30, 0, 1, 30, 30, 4];
    expect(ends(pdf(path(OPS.stroke, ...triangle)))).toHaveLength(3);
    expect(ends(pdf(path(OPS.closeStroke, ...triangle.slice(0, -1))))).toHaveLength(3);
    const door = pdf(path(OPS.stroke, 0, 0, 0, 1, 30, 0, 2, 30, 17, 17, 30, 0, 30));
    expect(ends(door)).toEqual([
      [
        [0, 80],
        [30, 80],
      ],
    ]);
  });

  test('a filled shape keeps its corners and its holes; a filled line is nothing', () => {
    const square = (x: number, s: number) => [
      0,
      x,
      x,
      1,
      x + s,
      x,
      1,
      x + s,
      x + s,
      1,
      x,
      x + s,
      4,
    ];
    const page = pdf(
      [OPS.setFillRGBColor, '#808080'],
      path(OPS.eoFill, ...square(10, 40), ...square(20, 10)),
      path(OPS.fill, ...LINE),
    );
    expect(page.lines).toEqual([]);
    expect(page.fills).toHaveLength(1);
    expect(page.fills[0]).toMatchObject({ ink: '#808080', curved: false });
    expect(page.fills[0]!.rings[1]).toEqual([
      [20, 60],
      [30, 60],
      [30, 50],
      [20, 50],
    ]);
  });

  test('paths that only clip, comments and hidden layers are left out', () => {
    const ops: Op[] = [
      path(OPS.stroke + 8, ...LINE),
      [OPS.beginAnnotation, 'note'],
      path(OPS.stroke, ...LINE),
      [OPS.endAnnotation],
      [OPS.beginMarkedContentProps, 'OC', { id: 'furniture' }],
      [OPS.beginMarkedContent, 'Span'],
      path(OPS.stroke, ...LINE),
      [OPS.endMarkedContent],
      [OPS.endMarkedContent],
      [OPS.setStrokeTransparent],
      path(OPS.stroke, ...LINE),
    ];
    const given = { fnArray: ops.map(([op]) => op), argsArray: ops.map(([, ...args]) => args) };
    const asked: unknown[] = [];
    const shown = readPdfLines(given, UPRIGHT, (group) => {
      asked.push(group);
      return false;
    });
    expect(THEIRS.endPath).toBe(OPS.stroke + 8);
    expect(shown.lines).toEqual([]);
    expect(asked).toEqual([{ id: 'furniture' }]);
    expect(readPdfLines(given, UPRIGHT).lines).toHaveLength(1);
  });
});

const svg = (inside: string, head = 'width="100" height="80"'): PageLines =>
  readSvgLines(`<svg xmlns="http://www.w3.org/2000/svg" ${head}>${inside}</svg>`)!;

describe('the lines of an SVG', () => {
  test('shapes are outlines, with what they inherit and their own style over it', () => {
    const page = svg(
      `<g stroke="#123" stroke-width="2"><line x1="1" y1="2" x2="30" y2="2" style="stroke-width:3px"/>
       <polyline points="0,0 10,0 10,10" fill="none"/></g><rect x="5" y="5" width="20" height="10" fill="gray"/>`,
    );
    expect(page.lines.map(({ width, ink }) => [width, ink])).toEqual([
      [3, '#112233'],
      [2, '#112233'],
      [2, '#112233'],
    ]);
    expect(page.fills).toEqual([
      {
        rings: [
          [
            [5, 5],
            [25, 5],
            [25, 15],
            [5, 15],
          ],
        ],
        ink: '#808080',
        curved: false,
      },
    ]);
  });

  test('style sheets reach by name, class and id', () => {
    const page = svg(
      `<style>/* walls */ .w, .x { stroke: rgb(10, 20, 30); fill: none } #thin{stroke-width:.5}</style>
       <path class="a w" d="M0 0H9"/><path id="thin" class="x" d="M0 0V9"/>`,
    );
    expect(page.lines).toMatchObject([
      { ink: '#0a141e', width: 1 },
      { ink: '#0a141e', width: 0.5 },
    ]);
    expect(page.fills).toEqual([]);
  });

  test('the view box is fitted into the size of the page', () => {
    const page = svg(
      '<path stroke="black" stroke-width="1" d="M10 10h10"/>',
      'width="2in" height="2in" viewBox="10 10 96 48"',
    );
    expect(page).toMatchObject({ width: 192, height: 192 });
    // Twice as large, and in the middle: 48 of 96 px are left, half of that at the top of each.
    expect(page.lines).toMatchObject([{ a: [0, 48], b: [20, 48], width: 2 }]);
  });

  test('a symbol is drawn where it is used, not where it is kept, and a circle of uses ends', () => {
    const page = svg(
      `<defs><g id="post"><path d="M0 0h4" stroke="red"/></g></defs>
       <use href="#post" x="10" y="20"/><use xlink:href="#post" transform="translate(50)"/>
       <g id="loop"><use href="#loop"/></g>`,
    );
    expect(ends(page)).toEqual([
      [
        [10, 20],
        [14, 20],
      ],
      [
        [50, 0],
        [54, 0],
      ],
    ]);
  });

  test('what is not shown is not there', () => {
    expect(
      svg(
        `<g display="none"><path d="M0 0h9" stroke="red"/></g><path visibility="hidden" d="M0 0h9" stroke="red"/>
         <clipPath><path d="M0 0h9" stroke="red"/></clipPath><path d="M0 0h9" stroke="none" fill="none"/>`,
      ),
    ).toMatchObject({ lines: [], fills: [] });
  });

  test('a text that is not well formed has no lines to tell of', () => {
    for (const text of ['', 'walls', '<svg>', '<svg></g></svg>', '<html></html>'])
      expect(readSvgLines(text)).toBeNull();
  });

  test.each([
    ['12', 12],
    ['1in', 96],
    ['25.4mm', 96],
    ['72pt', 96],
    ['-.5E1px', -5],
    ['50%', null],
    ['auto', null],
    [undefined, null],
  ])('%s is %s px', (text, px) => {
    if (px === null) expect(pixelsOf(text)).toBeNull();
    else expect(pixelsOf(text)).toBeCloseTo(px, 9);
  });

  test('turning about a place leaves that place where it is', () => {
    const number = fc.integer({ min: -500, max: 500 });
    fc.assert(
      fc.property(number, number, number, (angle, x, y) => {
        const [a, b, c, d, e, f] = transformOf(`rotate(${angle} ${x} ${y})`);
        expect(a * x + c * y + e).toBeCloseTo(x, 6);
        expect(b * x + d * y + f).toBeCloseTo(y, 6);
      }),
      { seed: 4, numRuns: 100 },
    );
  });
});

describe('the data of SVG paths', () => {
  const drawn = (data: string) => {
    const pen = new LinePen();
    drawPathData(pen, data);
    pen.stroke([1, 0, 0, 1, 0, 0], { width: 1, ink: 'x', dashed: false });
    return pen.lines.map(({ a, b }) => [a, b]);
  };

  test('the same path in its relative and its absolute form draws the same', () => {
    const step = fc.tuple(
      fc.constantFrom('l', 'h', 'v', 'z'),
      fc.integer({ min: -9, max: 9 }),
      fc.integer({ min: -9, max: 9 }),
    );
    fc.assert(
      fc.property(fc.array(step, { maxLength: 12 }), (steps) => {
        let [relative, absolute] = ['m3 4', 'M3,4'];
        let at: Point = [3, 4];
        for (const [kind, x, y] of steps) {
          const to: Point =
            kind === 'z'
              ? [3, 4]
              : [at[0] + (kind === 'v' ? 0 : x), at[1] + (kind === 'h' ? 0 : y)];
          relative += { l: `l${x} ${y}`, h: `h${x}`, v: `v${y}`, z: 'z' }[kind];
          absolute += { l: `L${to[0]},${to[1]}`, h: `H${to[0]}`, v: `V${to[1]}`, z: 'Z' }[kind];
          at = to;
        }
        expect(drawn(relative)).toEqual(drawn(absolute));
      }),
      { seed: 4, numRuns: 200 },
    );
  });

  test('numbers may touch each other, and pairs after a move are lines', () => {
    expect(drawn('m1-2.5.5 3-4')).toEqual([
      [
        [1, -2.5],
        [1.5, 0.5],
      ],
    ]);
    expect(drawn('M0 0 1 1e1,2 3')).toHaveLength(2);
    // The flags of an arc stand without a gap; it is a curve, so only the line after it counts.
    expect(drawn('M0 0a5 5 0 1110 0h7')).toEqual([
      [
        [10, 0],
        [17, 0],
      ],
    ]);
  });

  test('an arc lies on its circle', () => {
    const pen = new LinePen();
    drawPathData(pen, 'M-10 0A10 10 0 0 1 10 0');
    pen.fill([1, 0, 0, 1, 0, 0], 'x');
    const [ring] = pen.fills[0]!.rings;
    // A cubic lies within 0.03 % of the quarter circle that it stands for.
    for (const [x, y] of ring!) expect(Math.hypot(x, y) / 10).toBeCloseTo(1, 3);
    // Swept with the clock on a page whose y goes down, it goes over the top.
    expect(Math.min(...ring!.map(([, y]) => y))).toBeCloseTo(-10, 2);
  });
});

test('an XML text is read with its entities, comments and sections', () => {
  expect(
    readXml(
      '<?xml version="1.0"?><!DOCTYPE a [<!ENTITY x "y">]><a b=\'1 &lt; &#50;\'><!-- <c> --><d/>t<![CDATA[<]]></a>',
    ),
  ).toEqual({
    name: 'a',
    attributes: { b: '1 < 2' },
    children: [{ name: 'd', attributes: {}, children: [], text: '' }],
    text: 't<',
  });
});

test('a drawing that somebody else made keeps its walls: the inside of the workshop is 113 feet wide', () => {
  const file = new URL('../../fixtures/plans/workshop-floor.svg.gz', import.meta.url);
  const sheet = readSvgLines(gunzipSync(readFileSync(file)).toString())!;
  // 42 by 30 in.
  expect([sheet.width / 96, sheet.height / 96]).toEqual([42, 30]);
  expect(sheet.lines).toHaveLength(2861);
  expect(sheet.fills).toHaveLength(320);
  // The faces of the long outer walls are heavy lines; by the sheet's own words 28.25 in. lie between them.
  const faces = sheet.lines
    .filter(
      ({ a, b, width }) =>
        width > 1.5 && width < 1.7 && a[0] === b[0] && Math.abs(a[1] - b[1]) > 200,
    )
    .map(({ a }) => a[0] / 96);
  expect(faces.length).toBeGreaterThan(4);
  expect(faces.length).toBeLessThan(40);
  const apart = faces.flatMap((left) => faces.map((right) => right - left));
  expect(Math.min(...apart.map((width) => Math.abs(width - 28.25)))).toBeLessThan(0.006);
});
