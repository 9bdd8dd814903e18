import type { Hatch, Ink, Mark, Part, Style } from '../../drawing/display.ts';
import { hatchLines } from '../../drawing/hatch.ts';
import { CAP_HEIGHT } from '../../drawing/measure.ts';
import type { Palette } from '../../drawing/palette.ts';
import type { Point } from '../../geometry/point.ts';
import type { Page } from '../sheet.ts';
import { apply, circleOf, compose, type Matrix, num, PT, pathOf, rgb, unitOf } from './content.ts';

type Text = Extract<Mark, { op: 'text' }>;
type Picture = Extract<Mark, { op: 'picture' }>;

export type Face = 'sans' | 'sans-bold' | 'mono' | 'mono-bold';

/** What a page needs besides its own operators; asked for by name while its content is written. */
export interface PageResources {
  readonly palette: Palette;
  /** The font's name on this page and the text in its codes. */
  text(face: Face, words: string): { readonly font: string; readonly codes: string };
  /** The outlines of a text for its halo, size 1, y up, from the left end of the baseline. */
  outline(face: Face, words: string, place: (p: Point) => Point): string;
  width(face: Face, words: string): number;
  opacity(share: number): string;
  layer(name: string): string;
  /** A picture's name, and by how much its own page is turned. */
  picture(asset: string): { readonly name: string; readonly size: Point; readonly turn: number };
}

/** Where a mark stands: the map from its list to the page, and how far it is turned. */
interface Frame {
  readonly matrix: Matrix;
  readonly turn: number;
}

const faceOf = (mark: Text): Face =>
  mark.bold ? `${mark.face ?? 'sans'}-bold` : (mark.face ?? 'sans');

/** The content stream of a page. */
export function pageContent(page: Page, resources: PageResources): string {
  const out: string[] = ['1 j'];
  const frame: Frame = { matrix: [PT, 0, 0, -PT, 0, page.height * PT], turn: 0 };
  for (const mark of page.marks) writeMark(out, mark, frame, resources);
  return out.join('\n');
}

function writeMark(out: string[], mark: Mark, frame: Frame, resources: PageResources): void {
  switch (mark.op) {
    case 'line': {
      if (mark.points.length < 2) return;
      const points = mark.points.map((p) => apply(frame.matrix, p));
      writeShape(out, pathOf(points, mark.closed ?? false), points, mark.style, resources);
      return;
    }
    case 'circle': {
      const at = apply(frame.matrix, mark.at);
      const r = mark.radius * unitOf(frame.matrix);
      const corners: Point[] = [
        [at[0] - r, at[1] - r],
        [at[0] + r, at[1] + r],
      ];
      writeShape(out, circleOf(at, r), corners, mark.style, resources);
      return;
    }
    case 'text':
      writeText(out, mark, frame, resources);
      return;
    case 'symbol': {
      const turn = frame.turn + (mark.turn ?? 0);
      const [e, f] = apply(frame.matrix, mark.at);
      const a = (turn * Math.PI) / 180;
      const c = Math.cos(a) * PT;
      const s = Math.sin(a) * PT;
      const inner: Frame = { matrix: [c, -s, -s, -c, e, f], turn };
      for (const part of mark.marks) writeMark(out, part, inner, resources);
      return;
    }
    case 'group':
      writeGroup(out, mark, frame, resources);
      return;
    case 'picture':
      writePicture(out, mark, frame, resources);
      return;
  }
}

function writeGroup(
  out: string[],
  mark: Extract<Mark, { op: 'group' }>,
  frame: Frame,
  resources: PageResources,
): void {
  const { at, scale, clip, layer, marks } = mark;
  const matrix = compose(frame.matrix, [scale, 0, 0, scale, at[0], at[1]]);
  if (layer !== undefined) out.push(`/OC /${resources.layer(layer)} BDC`);
  if (clip) {
    const points = clip.map((p) => apply(matrix, p));
    out.push(`q ${pathOf(points, true)} W n`);
  }
  for (const part of marks) writeMark(out, part, { matrix, turn: frame.turn }, resources);
  if (clip) out.push('Q');
  if (layer !== undefined) out.push('EMC');
}

const colour = (ink: Ink, resources: PageResources): string => rgb(resources.palette[ink]);

/** Fill, then hatch, then outline. */
function writeShape(
  out: string[],
  path: string,
  points: readonly Point[],
  style: Style,
  resources: PageResources,
): void {
  const parts: string[] = [];
  const { fill, stroke, hatch } = style;
  const width = (style.width ?? 0.25) * PT;
  if (fill) parts.push(`${colour(fill, resources)} rg ${path} f`);
  if (stroke) {
    parts.push(`${colour(stroke, resources)} RG`);
    if (hatch) parts.push(hatchOf(hatch, path, points, Math.min(width, 0.2 * PT)));
    const dash = style.dash?.map((d) => num(d * PT)).join(' ') ?? '';
    parts.push(`${num(width)} w [${dash}] 0 d ${dash === '' ? 1 : 0} J ${path} S`);
  }
  if (parts.length === 0) return;
  const faded =
    style.opacity === undefined || style.opacity === 1
      ? parts
      : [`/${resources.opacity(style.opacity)} gs`, ...parts];
  out.push(`q ${faded.join(' ')} Q`);
}

function hatchOf(hatch: Hatch, path: string, points: readonly Point[], width: number): string {
  const xs = points.map((p) => p[0] / PT);
  const ys = points.map((p) => p[1] / PT);
  const box = {
    x0: Math.min(...xs),
    y0: Math.min(...ys),
    x1: Math.max(...xs),
    y1: Math.max(...ys),
  };
  const lines = hatchLines(hatch, box).map((ends) =>
    pathOf(
      ends.map(([x, y]): Point => [x * PT, y * PT]),
      false,
    ),
  );
  return `q ${path} W n ${num(width)} w ${hatch === 'dots' ? 1 : 0} J ${lines.join(' ')} S Q`;
}

function writeText(out: string[], mark: Text, frame: Frame, resources: PageResources): void {
  if (mark.text === '') return;
  // A letter and its accent are one letter where the fonts have it.
  const words = mark.text.normalize('NFC');
  const face = faceOf(mark);
  const size = mark.size * PT;
  const a = ((frame.turn + (mark.turn ?? 0)) * Math.PI) / 180;
  const c = Math.cos(a);
  const s = Math.sin(a);
  const share = mark.align === 'right' ? 1 : mark.align === 'centre' ? 0.5 : 0;
  const back = share * resources.width(face, words) * size;
  const down = mark.vertical === 'middle' ? (CAP_HEIGHT / 2) * size : 0;
  const [px, py] = apply(frame.matrix, mark.at);
  const x = px - back * c - down * s;
  const y = py + back * s - down * c;
  if (mark.halo) {
    const place = ([u, v]: Point): Point => [
      x + size * (u * c + v * s),
      y + size * (v * c - u * s),
    ];
    out.push(
      `q ${colour(mark.halo, resources)} RG ${num(size * 0.26)} w 1 J 1 j ${resources.outline(face, words, place)} S Q`,
    );
  }
  const { font, codes } = resources.text(face, words);
  out.push(
    `BT ${colour(mark.ink, resources)} rg /${font} ${num(size)} Tf ${unit(c)} ${unit(-s)} ${unit(s)} ${unit(c)} ${num(x)} ${num(y)} Tm ${codes} Tj ET`,
  );
}

/** A direction needs more digits than a place. */
const unit = (value: number): string => String(Math.round(value * 1e6) / 1e6 || 0);

/** Corners of a turned picture, whose box has its upper left corner at the origin: lower left, lower right, upper left. */
function pictureCorners(turn: number, w: number, h: number): [Point, Point, Point] {
  switch (((turn % 360) + 360) % 360) {
    case 90:
      return [
        [0, 0],
        [0, w],
        [h, 0],
      ];
    case 180:
      return [
        [w, 0],
        [0, 0],
        [w, h],
      ];
    case 270:
      return [
        [h, w],
        [h, 0],
        [0, w],
      ];
    default:
      return [
        [0, h],
        [w, h],
        [0, 0],
      ];
  }
}

/** A place in a picture's box, from its seen upper left corner, in the list: tilted about the middle of the box. */
function tiltedIn({ at, width, height, turn, tilt = 0 }: Picture, [x, y]: Point): Point {
  const [w, h] = turn % 180 === 0 ? [width, height] : [height, width];
  const angle = (tilt * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [dx, dy] = [x - w / 2, y - h / 2];
  return [at[0] + w / 2 + dx * cos - dy * sin, at[1] + h / 2 + dx * sin + dy * cos];
}

/** The corners of what is shown of a picture, in its box. */
function partCorners({ turn, width, height }: Picture, { x0, y0, x1, y1 }: Part): Point[] {
  const [ll, lr, ul] = pictureCorners(turn, width, height);
  const place = (u: number, v: number): Point => [
    ul[0] + u * (lr[0] - ll[0]) + v * (ll[0] - ul[0]),
    ul[1] + u * (lr[1] - ll[1]) + v * (ll[1] - ul[1]),
  ];
  return [place(x0, y0), place(x1, y0), place(x1, y1), place(x0, y1)];
}

function writePicture(out: string[], mark: Picture, frame: Frame, resources: PageResources): void {
  const { name, size, turn } = resources.picture(mark.asset);
  const upright = turn % 180 === 0;
  const w = upright ? mark.width : mark.height;
  const h = upright ? mark.height : mark.width;
  const onPage = (p: Point): Point => apply(frame.matrix, tiltedIn(mark, p));
  const [ll, lr, ul] = pictureCorners(turn + mark.turn, w, h).map(onPage) as [Point, Point, Point];
  const gs = mark.opacity < 1 ? `/${resources.opacity(mark.opacity)} gs ` : '';
  const cm = [
    (lr[0] - ll[0]) / size[0],
    (lr[1] - ll[1]) / size[0],
    (ul[0] - ll[0]) / size[1],
    (ul[1] - ll[1]) / size[1],
  ].map((v) => String(Math.round(v * 1e9) / 1e9 || 0).replace(/^(-?\d+(?:\.\d+)?)e-\d+$/, '0'));
  const clip = mark.part ? `${pathOf(partCorners(mark, mark.part).map(onPage), true)} W n ` : '';
  out.push(`q ${clip}${gs}${cm.join(' ')} ${num(ll[0])} ${num(ll[1])} cm /${name} Do Q`);
}
