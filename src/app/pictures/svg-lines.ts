import type { Point } from '../../geometry/point.ts';
import { IDENTITY, LinePen, type Matrix, type PageLines, times } from './page-lines.ts';
import { inkOf, type Looks, looksOf, type Rules, readRules } from './svg-looks.ts';
import { drawPathData } from './svg-path.ts';
import { type Element, readXml } from './xml.ts';

/** CSS pixels in a unit (CSS 2.1, 4.3.2). */
const PIXELS: Readonly<Record<string, number>> = {
  '': 1,
  px: 1,
  pt: 96 / 72,
  pc: 16,
  in: 96,
  cm: 96 / 2.54,
  mm: 96 / 25.4,
};

/** A length in CSS pixels; null for one that depends on something else, such as a percentage. */
export function pixelsOf(text: string | undefined): number | null {
  const found = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*([a-z]*)\s*$/i.exec(text ?? '');
  const unit = PIXELS[found?.[2]?.toLowerCase() ?? '?'];
  return found && unit !== undefined ? Number(found[1]) * unit : null;
}

const numbersOf = (text: string | undefined): number[] =>
  (text?.match(/[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?/gi) ?? []).map(Number);

/** The size of an SVG in CSS pixels, and whether it says a real length for it, which then holds on paper. */
export interface SvgSize {
  readonly width: number;
  readonly height: number;
  /** mm on paper across, where the width is given in a unit of paper. */
  readonly paper: number | null;
}

/** What an SVG says of its size: by its width and height, else by its view box; 300 by 150 where it says nothing. */
export function svgSize(root: Element): SvgSize {
  const box = numbersOf(root.attributes.viewBox);
  const [boxWidth, boxHeight] = box.length === 4 ? [box[2]!, box[3]!] : [0, 0];
  const said = pixelsOf(root.attributes.width);
  const saidHeight = pixelsOf(root.attributes.height);
  const ratio = boxWidth > 0 && boxHeight > 0 ? boxWidth / boxHeight : null;
  const width = said ?? (saidHeight && ratio ? saidHeight * ratio : boxWidth > 0 ? boxWidth : 300);
  const height = saidHeight ?? (ratio ? width / ratio : 150);
  const paper = /(?:mm|cm|in|pt|pc)\s*$/i.test(root.attributes.width ?? '') && said !== null;
  return { width, height, paper: paper ? (width / 96) * 25.4 : null };
}

/** The matrix of an SVG's view box, fitted whole and in the middle, as it is drawn by itself. */
function boxMatrix(root: Element, { width, height }: SvgSize): Matrix {
  const [x, y, w, h] = numbersOf(root.attributes.viewBox);
  if (x === undefined || y === undefined || !w || !h) return IDENTITY;
  if (root.attributes.preserveAspectRatio?.startsWith('none'))
    return [width / w, 0, 0, height / h, (-x * width) / w, (-y * height) / h];
  const s = Math.min(width / w, height / h);
  return [s, 0, 0, s, (width - w * s) / 2 - x * s, (height - h * s) / 2 - y * s];
}

/** A `transform` attribute (SVG 1.1, 7.6); what follows a part that is not known is left out. */
export function transformOf(text: string | undefined): Matrix {
  let matrix = IDENTITY;
  for (const [, name, inside] of (text ?? '').matchAll(/(\w+)\s*\(([^)]*)\)/g)) {
    const part = partOf(name!, numbersOf(inside));
    if (!part) break;
    matrix = times(matrix, part);
  }
  return matrix;
}

function partOf(name: string, n: readonly number[]): Matrix | null {
  const radians = ((n[0] ?? 0) * Math.PI) / 180;
  switch (name) {
    case 'matrix':
      return n.length === 6 ? (n as unknown as Matrix) : null;
    case 'translate':
      return [1, 0, 0, 1, n[0] ?? 0, n[1] ?? 0];
    case 'scale':
      return [n[0] ?? 1, 0, 0, n[1] ?? n[0] ?? 1, 0, 0];
    case 'rotate': {
      const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
      const [x, y] = [n[1] ?? 0, n[2] ?? 0];
      return [cos, sin, -sin, cos, x - cos * x + sin * y, y - sin * x - cos * y];
    }
    case 'skewX':
      return [1, 0, Math.tan(radians), 1, 0, 0];
    case 'skewY':
      return [1, Math.tan(radians), 0, 1, 0, 0];
    default:
      return null;
  }
}

/** Elements whose content is drawn only where something names it, or never. */
const UNSEEN =
  /^(?:\w+:)?(?:defs|clipPath|mask|symbol|pattern|marker|metadata|title|desc|style|script|text|linearGradient|radialGradient|filter)$/;
/** How deep `use` may lead, so that one that leads back to itself ends. */
const DEEPEST = 30;

/**
 * The straight lines and filled shapes of an SVG, in CSS pixels of the whole picture from its upper left corner; null
 * for a text that is not well formed.
 *
 * Clips and masks are not applied, so what they hide is there too; text, images, markers and nested `svg` boxes with a
 * view box of their own are left out.
 */
export function readSvgLines(text: string): PageLines | null {
  const root = readXml(text);
  if (!root || bare(root.name) !== 'svg') return null;
  const size = svgSize(root);
  const pen = new LinePen();
  const byId = new Map<string, Element>();
  const rules: Rules[] = [];
  walk(root, (element) => {
    if (element.attributes.id) byId.set(element.attributes.id, element);
    if (bare(element.name) === 'style') rules.push(...readRules(element.text));
  });
  const draw = (element: Element, outer: Matrix, above: Looks | null, depth: number): void => {
    if (UNSEEN.test(element.name) || depth > DEEPEST) return;
    const looks = looksOf(element, above, rules);
    if (looks.display === 'none') return;
    const matrix = times(outer, transformOf(element.attributes.transform));
    if (bare(element.name) === 'use') {
      const { x, y, href, 'xlink:href': linked } = element.attributes;
      const target = byId.get((href ?? linked ?? '').replace(/^#/, ''));
      const moved = times(matrix, [1, 0, 0, 1, pixelsOf(x) ?? 0, pixelsOf(y) ?? 0]);
      const inside = target && bare(target.name) === 'symbol' ? target.children : [target];
      for (const one of inside) if (one) draw(one, moved, looks, depth + 1);
      return;
    }
    paint(pen, element, matrix, looks);
    for (const child of element.children) draw(child, matrix, looks, depth + 1);
  };
  const whole = { ...root, attributes: { ...root.attributes, transform: '' } };
  draw(whole, boxMatrix(root, size), null, 0);
  return { width: size.width, height: size.height, lines: pen.lines, fills: pen.fills };
}

const bare = (name: string): string => name.replace(/^svg:/, '');

function walk(element: Element, see: (element: Element) => void): void {
  const stack = [element];
  for (let next = stack.pop(); next; next = stack.pop()) {
    see(next);
    stack.push(...next.children);
  }
}

function paint(pen: LinePen, element: Element, matrix: Matrix, looks: Looks): void {
  if (looks.visibility === 'hidden' || looks.visibility === 'collapse') return;
  pen.clear();
  if (!outline(pen, element)) return;
  const fill = inkOf(looks.fill ?? 'black', looks.color, looks['fill-opacity']);
  const stroke = inkOf(looks.stroke, looks.color, looks['stroke-opacity']);
  if (fill !== null && bare(element.name) !== 'line') pen.fill(matrix, fill);
  const width = pixelsOf(looks['stroke-width']) ?? 1;
  if (stroke === null || width === 0) return;
  const dashed = numbersOf(looks['stroke-dasharray']).some((length) => length > 0);
  pen.stroke(matrix, { width, ink: stroke, dashed });
}

/** Draws the outline of a shape; false for an element that has none. */
function outline(pen: LinePen, { name, attributes }: Element): boolean {
  const n = (key: string): number => pixelsOf(attributes[key]) ?? 0;
  switch (bare(name)) {
    case 'path':
      drawPathData(pen, attributes.d ?? '');
      return true;
    case 'line':
      pen.moveTo([n('x1'), n('y1')]);
      pen.lineTo([n('x2'), n('y2')]);
      return true;
    case 'polyline':
    case 'polygon':
      chain(pen, numbersOf(attributes.points));
      if (bare(name) === 'polygon') pen.close();
      return true;
    case 'rect':
      return box(pen, [n('x'), n('y')], n('width'), n('height'), n('rx') || n('ry'));
    case 'circle':
      return oval(pen, [n('cx'), n('cy')], n('r'), n('r'));
    case 'ellipse':
      return oval(pen, [n('cx'), n('cy')], n('rx'), n('ry'));
    default:
      return false;
  }
}

function chain(pen: LinePen, numbers: readonly number[]): void {
  for (let i = 0; i + 1 < numbers.length; i += 2) {
    const to: Point = [numbers[i]!, numbers[i + 1]!];
    if (i === 0) pen.moveTo(to);
    else pen.lineTo(to);
  }
}

function box(pen: LinePen, [x, y]: Point, w: number, h: number, round: number): boolean {
  if (w <= 0 || h <= 0) return false;
  const r = Math.min(round, w / 2, h / 2);
  const arc = r > 0 ? (dx: number, dy: number) => `a${r} ${r} 0 0 1 ${dx} ${dy}` : () => '';
  drawPathData(
    pen,
    `M${x + r} ${y}h${w - 2 * r}${arc(r, r)}v${h - 2 * r}${arc(-r, r)}h${2 * r - w}${arc(-r, -r)}v${2 * r - h}${arc(r, -r)}z`,
  );
  return true;
}

function oval(pen: LinePen, [x, y]: Point, rx: number, ry: number): boolean {
  if (rx <= 0 || ry <= 0) return false;
  drawPathData(
    pen,
    `M${x - rx} ${y}a${rx} ${ry} 0 0 1 ${2 * rx} 0a${rx} ${ry} 0 0 1 ${-2 * rx} 0z`,
  );
  return true;
}
