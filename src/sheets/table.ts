import type { Mark } from '../drawing/display.ts';
import { wrapText } from '../drawing/measure.ts';
import { job } from '../plan/plan.ts';
import { border, insideBorder, paperSize, type Rect, ruleLine, text } from './frame.ts';
import type { Page, SheetContext } from './sheet.ts';
import { TITLE_HEIGHT, titleStrip } from './title-block.ts';

/** A column of a table. */
export interface Column {
  readonly title: string;
  readonly align: 'left' | 'right' | 'centre';
  /** A fixed width, mm; null takes what its content needs. */
  readonly width: number | null;
  /** Whether it may be narrower than its content, which is then broken into lines. */
  readonly wraps: boolean;
  readonly face?: 'sans' | 'mono';
  /** Whether people write into it: it gets a frame. */
  readonly blank?: boolean;
}

export type RowLook = 'plain' | 'group' | 'total' | 'grand';

export interface Row {
  readonly cells: readonly string[];
  readonly look: RowLook;
  /** Printed bold in the warning ink: a cable that is too long. */
  readonly warn?: boolean;
}

export interface Table {
  readonly title: string;
  readonly landscape: boolean;
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** Sums, kept together and on the page of at least the last row. */
  readonly totals: readonly Row[];
  /** Lines under the totals. */
  readonly notes: readonly string[];
}

const SIZE = 2.4;
const LINE = 2.9;
const PAD = 1.1;
const HEAD = 7;
const INSET = 2.5;

const isBold = (row: Row): boolean => row.look !== 'plain' || row.warn === true;

/** Widths that add up to the table's: fixed ones as they are, others as their content asks, wrapping ones share the rest. */
export function columnWidths(context: SheetContext, table: Table, total: number): number[] {
  const wish = table.columns.map((column, c) => {
    if (column.width !== null) return column.width;
    const face = column.face ?? 'sans';
    const all = [...table.rows, ...table.totals].map((row) =>
      context.measure.width(row.cells[c] ?? '', SIZE, face, isBold(row) || face === 'mono'),
    );
    return (
      Math.max(context.measure.width(column.title, SIZE, 'sans', true), ...all) + 2 * PAD + 0.2
    );
  });
  const flexible = table.columns.map((column) => column.width === null && column.wraps);
  const sum = (pick: boolean): number =>
    wish.reduce((s, width, c) => s + (flexible[c] === pick ? width : 0), 0);
  const rest = total - sum(false);
  const wanted = sum(true);
  if (wanted === 0) return wish;
  // The narrow ones keep what they need; the wide ones give way first.
  let level = Number.POSITIVE_INFINITY;
  if (wanted > rest)
    level = waterLevel(
      wish.filter((_, c) => flexible[c]),
      rest,
    );
  const spare = wanted < rest ? (rest - wanted) / flexible.filter(Boolean).length : 0;
  return wish.map((width, c) => (flexible[c] ? Math.min(width, level) + spare : width));
}

/** The width at which wide columns are cut so that all together take just the room there is. */
function waterLevel(widths: readonly number[], room: number): number {
  const sorted = [...widths].sort((a, b) => a - b);
  let left = room;
  for (const [i, width] of sorted.entries()) {
    const share = left / (sorted.length - i);
    if (width > share) return share;
    left -= width;
  }
  return Number.POSITIVE_INFINITY;
}

interface Laid {
  readonly row: Row;
  readonly lines: readonly (readonly string[])[];
  readonly height: number;
}

function lay(context: SheetContext, table: Table, widths: readonly number[], row: Row): Laid {
  const lines = table.columns.map((column, c) => {
    const words = row.cells[c] ?? '';
    if (!column.wraps || row.look !== 'plain') return [words];
    return wrapText(context.measure, words, widths[c]! - 2 * PAD, SIZE, isBold(row));
  });
  const most = Math.max(1, ...lines.map((l) => l.length));
  return { row, lines, height: most * LINE + (row.look === 'plain' ? 2.2 : 2.9) };
}

/** Pages of a table: the header again on each, rows never torn, the totals together with the last row. */
export function tablePages(context: SheetContext, table: Table): Page[] {
  const size = paperSize(context, table.landscape);
  const area = insideBorder(size);
  const body: Rect = {
    x: area.x + INSET,
    y: area.y + 10,
    width: area.width - 2 * INSET,
    height: area.height - TITLE_HEIGHT - 12,
  };
  const widths = columnWidths(context, table, body.width);
  const rows = table.rows.map((row) => lay(context, table, widths, row));
  const totals = table.totals.map((row) => lay(context, table, widths, row));
  const notes = table.notes.flatMap((note) => wrapText(context.measure, note, body.width, 2.2));
  const foot =
    totals.reduce((sum, row) => sum + row.height, 0) +
    (notes.length > 0 ? 3 + notes.length * 2.9 : 0);
  return split(rows, body.height - HEAD, foot).map((part, i, parts) => {
    const last = i === parts.length - 1;
    const marks = [
      ...headMarks(table, widths, body),
      ...rowMarks(table, widths, body, last ? [...part, ...totals] : part),
    ];
    const used = [...part, ...totals].reduce((sum, row) => sum + row.height, 0);
    if (last)
      notes.forEach((note, n) => {
        marks.push(
          text([body.x, body.y + HEAD + used + 4.5 + n * 2.9], note, 2.2, { ink: 'soft' }),
        );
      });
    return sheetPage(context, table, size, marks);
  });
}

/** Cuts rows into pages; `foot` is kept free on the last, and takes at least one row along. */
function split(rows: readonly Laid[], room: number, foot: number): Laid[][] {
  const pages: Laid[][] = [[]];
  let left = room;
  const needs = rows.map((row, i) => row.height + (i === rows.length - 1 ? foot : 0));
  rows.forEach((row, i) => {
    const page = pages[pages.length - 1]!;
    const need = needs[i]!;
    // A heading does not stand alone at the foot of a page.
    const next = row.row.look === 'group' ? (needs[i + 1] ?? 0) : 0;
    if (need + next > left && page.length > 0) {
      pages.push([row]);
      left = room - row.height;
    } else {
      page.push(row);
      left -= row.height;
    }
  });
  return pages;
}

function headMarks(table: Table, widths: readonly number[], body: Rect): Mark[] {
  let x = body.x;
  const marks = table.columns.map((column, c) => {
    const at = anchor(column, x, widths[c]!);
    x += widths[c]!;
    return text([at, body.y + HEAD - 2.2], column.title, SIZE, { bold: true, align: column.align });
  });
  return [
    text([body.x, body.y - 3], table.title, 4.2, { bold: true }),
    ...marks,
    ruleLine([body.x, body.y + HEAD], [body.x + body.width, body.y + HEAD], 0.4),
  ];
}

const anchor = ({ align }: Column, x: number, width: number): number =>
  align === 'left' ? x + PAD : align === 'right' ? x + width - PAD : x + width / 2;

function rowMarks(
  table: Table,
  widths: readonly number[],
  body: Rect,
  rows: readonly Laid[],
): Mark[] {
  const marks: Mark[] = [];
  let y = body.y + HEAD;
  for (const { row, lines, height } of rows) {
    if (row.look === 'total' || row.look === 'grand')
      marks.push(
        ruleLine([body.x, y], [body.x + body.width, y], row.look === 'grand' ? 0.5 : 0.25),
      );
    let x = body.x;
    table.columns.forEach((column, c) => {
      const width = widths[c]!;
      if (column.blank && row.look === 'plain')
        marks.push({
          op: 'line',
          closed: true,
          points: [
            [x + 0.6, y + 0.6],
            [x + width - 0.6, y + 0.6],
            [x + width - 0.6, y + height - 0.6],
            [x + 0.6, y + height - 0.6],
          ],
          style: { stroke: 'soft', width: 0.15 },
        });
      lines[c]?.forEach((words, i) => {
        if (words === '') return;
        marks.push(
          text(
            [anchor(column, x, width), y + (height - lines[c]!.length * LINE) / 2 + i * LINE + 2.2],
            words,
            SIZE,
            {
              align: column.align,
              bold: isBold(row) || column.face === 'mono',
              ...(column.face && row.look === 'plain' ? { face: column.face } : {}),
              ...(row.warn ? { ink: 'warn' as const } : {}),
            },
          ),
        );
      });
      x += width;
    });
    y += height;
    if (row.look === 'plain')
      marks.push(ruleLine([body.x, y], [body.x + body.width, y], 0.12, 'faint'));
  }
  return marks;
}

function sheetPage(
  context: SheetContext,
  table: Table,
  size: { width: number; height: number },
  marks: readonly Mark[],
): Page {
  const area = insideBorder(size);
  const block = titleStrip(
    context,
    {
      x: area.x,
      y: area.y + area.height - TITLE_HEIGHT,
      width: area.width,
      height: TITLE_HEIGHT,
    },
    { title: table.title, scale: '' },
  );
  return {
    title: `${job(context.plan).name}: ${table.title}`,
    ...size,
    marks: [...marks, ...block.marks, border(size)],
    number: block.number,
  };
}
