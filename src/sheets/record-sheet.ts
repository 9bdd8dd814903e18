import { msg } from '../base/message.ts';
import { formatLength, formatTotal } from '../base/units.ts';
import { countBuilt } from '../plan/built.ts';
import { job } from '../plan/plan.ts';
import type { ScheduleRow } from '../takeoff/cable-schedule.ts';
import { say } from './frame.ts';
import {
  blank,
  homeColumns,
  lengths,
  MARKS,
  markOf,
  type ScheduleColumn,
  scheduleRows,
  testOf,
  wayColumn,
} from './schedule-columns.ts';
import type { Sheet, SheetContext } from './sheet.ts';
import { type Row, tablePages } from './table.ts';

/** The as-built record: every cable as it was built and tested, beside what was planned. None before the first entry. */
export const recordSheet: Sheet = {
  id: 'record',
  title: msg('As-built record'),
  pages: (context) => {
    const { recorded } = countBuilt(context.plan);
    const rows = scheduleRows(context);
    if (recorded === 0 || rows.length === 0) return [];
    const { units } = job(context.plan);
    const columns = columnsFor(rows);
    return tablePages(context, {
      title: say(context, msg('As-built record')),
      landscape: true,
      columns: columns.map((column) => ({ ...column.look, title: say(context, column.title) })),
      rows: rows.map((row) => ({
        look: 'plain',
        ...(row.built?.test === 'fail' ? { warn: true } : {}),
        cells: columns.map((column) => column.cell(row, (mm) => formatLength(mm, units))),
      })),
      totals: [totals(context, columns, rows)],
      notes: notes(context),
    });
  },
};

const AS_BUILT = 'As built';

const columnsFor = (rows: readonly ScheduleRow[]): ScheduleColumn[] => [
  ...homeColumns(rows),
  wayColumn,
  lengths('Planned', 'cable'),
  blank('Start mark', 15, markOf('start')),
  blank('End mark', 15, markOf('end')),
  blank(AS_BUILT, 16, ({ asBuilt }, length) => (asBuilt === null ? '' : length(asBuilt))),
  blank('Test', 10, testOf),
  blank('Date', 19, ({ built }) => built?.on ?? ''),
  blank('By', 12, ({ built }) => built?.by ?? ''),
  blank('Remark', null, ({ built }) => built?.remark ?? ''),
];

/** What is recorded stands under the devices, all of its cable under the lengths. */
function totals(
  context: SheetContext,
  columns: readonly ScheduleColumn[],
  rows: readonly ScheduleRow[],
): Row {
  const { cables, recorded } = countBuilt(context.plan);
  const built = rows.reduce((sum, row) => sum + (row.asBuilt ?? 0), 0);
  const said: Readonly<Record<string, string>> = {
    Device: say(context, msg('Recorded: {recorded} of {cables}', { recorded, cables })),
    [AS_BUILT]: formatTotal(built, job(context.plan).units),
  };
  return { look: 'grand', cells: columns.map(({ title }) => said[title.text] ?? '') };
}

function notes(context: SheetContext): string[] {
  const { recorded, passed, failed } = countBuilt(context.plan);
  const open = recorded - passed - failed;
  return [
    say(
      context,
      msg(
        'Of the cables that are recorded {passed} passed their test, {failed} failed, and {open} are not tested. An empty frame is not recorded yet.',
        { passed, failed, open },
      ),
    ),
    say(context, MARKS),
  ];
}
