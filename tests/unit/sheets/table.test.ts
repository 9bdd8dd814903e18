import { describe, expect, it } from 'vitest';
import { fontMeasure } from '../../../src/drawing/measure.ts';
import { kinds } from '../../../src/kinds/index.ts';
import type { SheetContext } from '../../../src/sheets/sheet.ts';
import { columnWidths, type Row, type Table, tablePages } from '../../../src/sheets/table.ts';
import { TITLE_HEIGHT } from '../../../src/sheets/title-block.ts';
import { inkBoxes, overlapping, textsOf } from '../drawing/boxes.ts';
import { NOTHING, planOf } from '../drawing/small-plan.ts';

const context: SheetContext = {
  plan: planOf({}),
  survey: NOTHING,
  kinds,
  paper: 'letter',
  measure: fontMeasure,
  printed: 'today',
};

const row = (n: number): Row => ({
  look: 'plain',
  cells: [`A${n}`, 'from the closet over the corridor and along the tray to the bar', `${n}`],
});

const table = (rows: readonly Row[]): Table => ({
  title: 'A table',
  landscape: true,
  columns: [
    { title: 'Cable', align: 'left', width: null, wraps: false, face: 'mono' },
    { title: 'Way', align: 'left', width: null, wraps: true },
    { title: 'Box', align: 'right', width: null, wraps: false },
  ],
  rows,
  totals: [{ look: 'grand', cells: ['Sum of all', '', '99'] }],
  notes: ['A note under the sums.'],
});

const many = (count: number): Row[] => Array.from({ length: count }, (_, i) => row(i + 1));

describe('table', () => {
  it('keeps rows, sums and notes clear of one another and of the title block, however many rows there are', () => {
    for (let count = 1; count <= 70; count++) {
      for (const page of tablePages(context, table(many(count)))) {
        const words = page.marks.filter((mark) => mark.op === 'text');
        expect(overlapping(inkBoxes(words)), `${count} rows`).toEqual([]);
        const titleTop = page.height - 13 - TITLE_HEIGHT;
        const own = words.filter((mark) => mark.op === 'text' && mark.at[1] < titleTop);
        for (const box of inkBoxes(own)) expect(box.y1, `${count} rows`).toBeLessThan(titleTop);
        const sum = words.find((mark) => mark.op === 'text' && mark.text.startsWith('A note'));
        if (sum?.op === 'text') expect(sum.at[1], `${count} rows`).toBeLessThan(titleTop);
      }
    }
  });

  it('prints each row once and in order, and the sums with the last of them', () => {
    const pages = tablePages(context, table(many(60)));
    expect(pages.length).toBeGreaterThan(1);
    const labels = pages.flatMap((page) => textsOf(page.marks)).filter((t) => /^A\d+$/.test(t));
    expect(labels).toEqual(many(60).map((one) => one.cells[0]));
    const last = textsOf(pages.at(-1)!.marks);
    expect(last).toContain('Sum of all');
    expect(last).toContain('A60');
  });

  it('does not leave a heading alone at the foot of a page', () => {
    for (let count = 20; count < 60; count++) {
      const rows = [...many(count), { look: 'group', cells: ['Heading', '', ''] } as Row, row(999)];
      const page = tablePages(context, table(rows)).find((one) =>
        textsOf(one.marks).includes('Heading'),
      )!;
      expect(textsOf(page.marks), `${count} rows`).toContain('A999');
    }
  });

  it('gives columns the whole width, and takes it from those that may break lines', () => {
    const widths = columnWidths(context, table(many(3)), 70);
    expect(widths.reduce((a, b) => a + b, 0)).toBeCloseTo(70, 6);
    const roomy = columnWidths(context, table(many(3)), 200);
    expect(roomy.reduce((a, b) => a + b, 0)).toBeCloseTo(200, 6);
    expect(widths[0]).toBeCloseTo(roomy[0]!, 6);
    const [page] = tablePages(context, table(many(3)));
    const words = textsOf(page!.marks).join(' ');
    expect(words).toContain('along the tray to the bar');
  });
});
