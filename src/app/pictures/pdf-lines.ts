import { LinePen, type Matrix, type PageLines, type Stroke, times } from './page-lines.ts';

/** A page's operators as pdfjs gives them; the numbers of the operators are in its `OPS`. */
export interface PdfOperators {
  readonly fnArray: ArrayLike<number>;
  readonly argsArray: ArrayLike<unknown>;
}

/** The operators that matter here, as pdfjs-dist 6 numbers them; a test holds them against its own table. */
export const OPS = {
  setLineWidth: 2,
  setDash: 6,
  setGState: 9,
  save: 10,
  restore: 11,
  transform: 12,
  stroke: 20,
  closeStroke: 21,
  fill: 22,
  eoFill: 23,
  fillStroke: 24,
  eoFillStroke: 25,
  closeFillStroke: 26,
  closeEOFillStroke: 27,
  setStrokeColorN: 53,
  setFillColorN: 55,
  setStrokeRGBColor: 58,
  setFillRGBColor: 59,
  beginMarkedContent: 69,
  beginMarkedContentProps: 70,
  endMarkedContent: 71,
  paintFormXObjectBegin: 74,
  paintFormXObjectEnd: 75,
  beginAnnotation: 80,
  endAnnotation: 81,
  constructPath: 91,
  setStrokeTransparent: 92,
  setFillTransparent: 93,
} as const;

const CLOSING: ReadonlySet<number> = new Set([
  OPS.closeStroke,
  OPS.closeFillStroke,
  OPS.closeEOFillStroke,
]);
const FILLING: ReadonlySet<number> = new Set([
  OPS.fill,
  OPS.eoFill,
  OPS.fillStroke,
  OPS.eoFillStroke,
  OPS.closeFillStroke,
  OPS.closeEOFillStroke,
]);
const STROKING: ReadonlySet<number> = new Set([
  OPS.stroke,
  OPS.closeStroke,
  OPS.fillStroke,
  OPS.eoFillStroke,
  OPS.closeFillStroke,
  OPS.closeEOFillStroke,
]);

/** Null for an ink that shows nothing. */
interface State extends Omit<Stroke, 'ink'> {
  readonly matrix: Matrix;
  readonly strokeInk: string | null;
  readonly fillInk: string | null;
}

/** Whether the layer that marked content names is shown; pdfjs's `OptionalContentConfig` answers that. */
export type LayerShown = (group: unknown) => boolean;

/**
 * The straight lines and filled shapes of a PDF page, in points of the upright page from its upper left corner.
 *
 * Clips are not applied, so what a clip hides is there too; annotations, text, images and shadings are left out, and
 * so is what hidden layers hold. A pattern counts as an ink named `pattern`.
 *
 * @param viewport the page's viewport at scale 1: its size and its transform
 */
export function readPdfLines(
  { fnArray, argsArray }: PdfOperators,
  viewport: {
    readonly width: number;
    readonly height: number;
    readonly transform: readonly number[];
  },
  shown: LayerShown = () => true,
): PageLines {
  const pen = new LinePen();
  let now: State = {
    matrix: viewport.transform as unknown as Matrix,
    width: 1,
    dashed: false,
    strokeInk: '#000000',
    fillInk: '#000000',
  };
  const saved: State[] = [];
  const layers: boolean[] = [];
  let notes = 0;
  const restore = () => {
    now = saved.pop() ?? now;
  };
  for (let i = 0; i < fnArray.length; i++) {
    const op = fnArray[i]!;
    const args = (argsArray[i] ?? []) as readonly unknown[];
    switch (op) {
      case OPS.save:
        saved.push(now);
        break;
      case OPS.restore:
      case OPS.paintFormXObjectEnd:
        restore();
        break;
      case OPS.paintFormXObjectBegin:
        saved.push(now);
        if (args[0]) now = { ...now, matrix: times(now.matrix, args[0] as Matrix) };
        break;
      case OPS.beginMarkedContent:
        layers.push(true);
        break;
      case OPS.beginMarkedContentProps:
        layers.push(args[0] !== 'OC' || shown(args[1]));
        break;
      case OPS.endMarkedContent:
        layers.pop();
        break;
      case OPS.beginAnnotation:
        notes++;
        break;
      case OPS.endAnnotation:
        notes--;
        break;
      case OPS.constructPath:
        if (notes === 0 && !layers.includes(false)) paint(pen, args, now);
        break;
      default:
        now = changed(now, op, args);
    }
  }
  const { width, height } = viewport;
  return { width, height, lines: pen.lines, fills: pen.fills };
}

/** The state after an operator that sets a part of it. */
function changed(now: State, op: number, args: readonly unknown[]): State {
  switch (op) {
    case OPS.transform:
      return { ...now, matrix: times(now.matrix, args as unknown as Matrix) };
    case OPS.setLineWidth:
      return { ...now, width: Math.abs(args[0] as number) };
    case OPS.setDash:
      return { ...now, dashed: dashes(args[0]) };
    case OPS.setGState:
      return (args[0] as readonly (readonly [string, unknown])[]).reduce(withGraphics, now);
    case OPS.setStrokeRGBColor:
      return { ...now, strokeInk: inkOf(args) };
    case OPS.setFillRGBColor:
      return { ...now, fillInk: inkOf(args) };
    case OPS.setStrokeColorN:
      return { ...now, strokeInk: 'pattern' };
    case OPS.setFillColorN:
      return { ...now, fillInk: 'pattern' };
    case OPS.setStrokeTransparent:
      return { ...now, strokeInk: null };
    case OPS.setFillTransparent:
      return { ...now, fillInk: null };
    default:
      return now;
  }
}

/** Entries of a graphics state dictionary: line width and dashes (ISO 32000-1, table 58). */
function withGraphics(now: State, [key, value]: readonly [string, unknown]): State {
  if (key === 'LW') return { ...now, width: Math.abs(value as number) };
  if (key === 'D') return { ...now, dashed: dashes((value as readonly unknown[])[0]) };
  return now;
}

const dashes = (pattern: unknown): boolean =>
  Array.from((pattern ?? []) as ArrayLike<number>).some((length) => length > 0);

/** A colour as pdfjs gives it: a text, or three numbers up to 255. */
function inkOf(args: readonly unknown[]): string {
  if (typeof args[0] === 'string') return args[0].toLowerCase();
  const part = (i: number): string =>
    Math.round(Number(args[i] ?? 0))
      .toString(16)
      .padStart(2, '0');
  return `#${part(0)}${part(1)}${part(2)}`;
}

/** Draws a path as its painting operator says; one that only clips draws nothing. */
function paint(pen: LinePen, args: readonly unknown[], now: State): void {
  const op = args[0] as number;
  const [path] = (args[1] ?? []) as readonly (ArrayLike<number> | null)[];
  if (!path || !(STROKING.has(op) || FILLING.has(op))) return;
  pen.clear();
  trace(pen, path);
  if (CLOSING.has(op)) pen.close();
  if (FILLING.has(op) && now.fillInk !== null) pen.fill(now.matrix, now.fillInk);
  if (STROKING.has(op) && now.strokeInk !== null)
    pen.stroke(now.matrix, { width: now.width, dashed: now.dashed, ink: now.strokeInk });
}

/** Steps of a path as pdfjs packs them: a number for what it is, then its coordinates. */
const STEP = { move: 0, line: 1, cubic: 2, quadratic: 3, close: 4 } as const;

function trace(pen: LinePen, path: ArrayLike<number>): void {
  let i = 0;
  const point = () => [path[i++]!, path[i++]!] as const;
  while (i < path.length) {
    const step = path[i++];
    if (step === STEP.move) pen.moveTo(point());
    else if (step === STEP.line) pen.lineTo(point());
    else if (step === STEP.cubic) pen.curveTo(point(), point(), point());
    else if (step === STEP.quadratic) pen.quadTo(point(), point());
    else if (step === STEP.close) pen.close();
    else throw new Error(`a path of the PDF has a step ${step} that is not known`);
  }
}
