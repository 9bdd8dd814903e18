import { msg } from '../base/message.ts';
import type { Mark } from '../drawing/display.ts';
import { wrapText } from '../drawing/measure.ts';
import { extent } from '../drawing/put-symbol.ts';
import { checkSide, checkSquare, northArrow, scaleBar } from '../drawing/symbols.ts';
import { job } from '../plan/plan.ts';
import { say, text, textWithin } from './frame.ts';
import type { LegendItem } from './legend.ts';
import { CAUTIONS, READING } from './notes.ts';
import type { DrawingScale } from './scale.ts';
import type { SheetContext } from './sheet.ts';

/** The parts beside a plan: the check square with scale and north, the legend, the notes. */

/** The square's side on paper, with the air round it. */
export const squareRoom = (context: SheetContext): number => checkSide(job(context.plan).units) + 4;

/** The check square: scale in words, scale bar, north, and what the square is for. */
export function squareMarks(
  context: SheetContext,
  [x, y]: readonly [number, number],
  scale: { readonly words: string; readonly perMm: number },
): Mark[] {
  const { units, north } = job(context.plan);
  const side = checkSide(units);
  const bar = scaleBar(scale.perMm, units, side - 13);
  const words = say(
    context,
    msg(
      'Measure me: this square is {side} wide and high. If yours is not, the print was resized: take no measure from it.',
      { side: units === 'ft' ? '2 in.' : '50 mm' },
    ),
  );
  const lines = wrapText(context.measure, words, side - 5, 2.1);
  return [
    {
      op: 'group',
      at: [x, y],
      scale: 1,
      marks: [
        ...checkSquare(units),
        text([3, 5], say(context, msg('Scale')), 1.9, { ink: 'soft' }),
        textWithin(context, [3, 10.4], scale.words, 30, [4.4, 2.4], { bold: true }),
        { op: 'symbol', at: [side - 9.5, 13], marks: northArrow(north) },
        { op: 'group', at: [4, 22.5], scale: 1, marks: bar.marks },
        ...lines.map((line, i) =>
          text([2.5, side - 2.4 - (lines.length - 1 - i) * 2.7], line, 2.1),
        ),
      ],
    },
  ];
}

/** Width of a column of the legend, and of its symbols. */
const SYMBOL_WIDTH = 10;
const LEGEND_SIZE = 2.1;
const LINE = 2.35;
const HEAD = 4.6;
export const LEGEND_COLUMN = 34;

interface Column {
  readonly items: readonly { item: LegendItem; lines: readonly string[]; height: number }[];
  readonly height: number;
}

/** Height of an item's symbol. */
const tallOf = (item: LegendItem): number => extent(item.marks).height;

/** The legend in columns, each as short as they can all be. */
function legendColumns(
  context: SheetContext,
  items: readonly LegendItem[],
  width: number,
  count: number,
): Column[] {
  const rows = items.map((item) => {
    const lines = wrapText(context.measure, item.words, width - SYMBOL_WIDTH - 1, LEGEND_SIZE);
    return { item, lines, height: Math.max(4.4, lines.length * LINE + 0.4, tallOf(item) + 0.3) };
  });
  const total = rows.reduce((sum, row) => sum + row.height, 0);
  const tallest = Math.max(0, ...rows.map((row) => row.height));
  for (let most = Math.max(total / count, tallest); ; most += 1) {
    const columns: { items: (typeof rows)[number][]; height: number }[] = [];
    for (const row of rows) {
      const last = columns[columns.length - 1];
      if (last && last.height + row.height <= most + 1e-6) {
        last.items.push(row);
        last.height += row.height;
      } else columns.push({ items: [row], height: row.height });
    }
    if (columns.length <= count) return columns;
  }
}

export interface Panel {
  readonly height: number;
  marks(x: number, y: number): Mark[];
}

const headed = (context: SheetContext, heading: string, x: number, y: number): Mark =>
  text([x, y + 2.6], say(context, msg(heading)), 2.6, { bold: true });

/** The legend, as many columns wide as fit. */
export function legendPanel(
  context: SheetContext,
  items: readonly LegendItem[],
  width: number,
  continued = false,
): Panel {
  const count = Math.max(1, Math.floor(width / LEGEND_COLUMN));
  const columnWidth = width / count;
  const columns = legendColumns(context, items, columnWidth, count);
  return {
    height: HEAD + Math.max(0, ...columns.map((column) => column.height)),
    marks: (x, y) => [
      headed(context, continued ? 'Legend, continued' : 'Legend', x, y),
      ...columns.flatMap((column, c) => {
        let at = y + HEAD;
        return column.items.flatMap(({ item, lines, height }) => {
          const middle = at + height / 2;
          at += height;
          const left = x + c * columnWidth;
          return [
            {
              op: 'symbol',
              at: [left + SYMBOL_WIDTH / 2 - 0.4, middle],
              marks: item.marks,
            } as Mark,
            ...lines.map((line, i) =>
              text(
                [left + SYMBOL_WIDTH, middle + (i - (lines.length - 1) / 2) * LINE],
                line,
                LEGEND_SIZE,
                { vertical: 'middle' },
              ),
            ),
          ];
        });
      }),
    ],
  };
}

/** Notes and cautions in one column. */
export function notesPanel(context: SheetContext, width: number, more: readonly string[]): Panel {
  const size = 2;
  const pitch = 2.45;
  const paragraphs = [
    ...more.map((words) => ({ words, bold: true })),
    ...[...CAUTIONS, ...READING].map((note) => ({ words: say(context, note), bold: false })),
  ].map(({ words, bold }) => ({
    bold,
    lines: wrapText(context.measure, words, width - 3, size, bold),
  }));
  const height = HEAD + paragraphs.reduce((sum, { lines }) => sum + lines.length * pitch + 0.9, 0);
  return {
    height,
    marks: (x, y) => {
      let at = y + HEAD;
      return [
        headed(context, 'Notes and cautions', x, y),
        ...paragraphs.flatMap(({ lines, bold }, n) => {
          const top = at;
          at += lines.length * pitch + 0.9;
          return [
            text([x, top + 1.9], String(n + 1), size, { bold: true, ink: bold ? 'warn' : 'ink' }),
            ...lines.map((line, i) =>
              text([x + 3, top + 1.9 + i * pitch], line, size, {
                bold,
                ink: bold ? 'warn' : 'ink',
              }),
            ),
          ];
        }),
      ];
    },
  };
}

/** A scale's words for the sheet; a drawing that fits no standard scale says so. */
export const scaleWords = (context: SheetContext, scale: DrawingScale | null): string =>
  scale?.words ?? say(context, msg('None: use the bar'));
