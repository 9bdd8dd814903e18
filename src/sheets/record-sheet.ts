import { type Message, msg } from '../base/message.ts';
import { formatLength, formatTotal } from '../base/units.ts';
import { countBuilt, marksAgainst } from '../plan/built.ts';
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
  schedulePages,
  scheduleRows,
  testOf,
  wayColumn,
} from './schedule-columns.ts';
import type { Sheet, SheetContext } from './sheet.ts';

const TITLE = msg('As-built record');
const AS_BUILT = 'As built';

/** The as-built record: every cable as it was built and tested, beside what was planned. None before the first entry. */
export const recordSheet: Sheet = {
  id: 'record',
  title: TITLE,
  pages: (context) => {
    const rows = scheduleRows(context);
    if (countBuilt(context.plan).recorded === 0 || rows.length === 0) return [];
    return schedulePages(context, {
      title: TITLE,
      columns: columnsFor(rows),
      rows,
      warns: ({ built }) => built?.test === 'fail',
      sums: sumsIn(context, rows),
      notes: [stateOf(context), MARKS, ...doubts(context, rows)],
    });
  },
};

const columnsFor = (rows: readonly ScheduleRow[]): ScheduleColumn[] => [
  ...homeColumns(rows),
  wayColumn,
  lengths('Planned', 'cable'),
  blank('Start mark', 15, markOf('start')),
  blank('End mark', 15, markOf('end')),
  blank(AS_BUILT, 16, asBuiltOf),
  blank('Test', 10, testOf),
  blank('Date', 19, ({ built }) => built?.on ?? ''),
  blank('By', 12, ({ built }) => built?.by ?? ''),
  blank('Remark', null, ({ built }) => built?.remark ?? ''),
];

/** A length that was typed and that its marks gainsay has a star, which the notes explain. */
const asBuiltOf: ScheduleColumn['cell'] = ({ asBuilt, built }, length) =>
  asBuilt === null ? '' : `${length(asBuilt)}${marksAgainst(built) === null ? '' : ' *'}`;

/** What is recorded stands under the devices, all of its cable under the lengths. */
function sumsIn(
  context: SheetContext,
  rows: readonly ScheduleRow[],
): (column: ScheduleColumn) => string {
  const { cables, recorded } = countBuilt(context.plan);
  const built = rows.reduce((sum, row) => sum + (row.asBuilt ?? 0), 0);
  const said: Readonly<Record<string, string>> = {
    Device: say(context, msg('Recorded: {recorded} of {cables}', { recorded, cables })),
    [AS_BUILT]: formatTotal(built, job(context.plan).units),
  };
  return ({ title }) => said[title.text] ?? '';
}

/** How far the record is. */
function stateOf({ plan }: SheetContext): Message {
  const { recorded, passed, failed } = countBuilt(plan);
  const open = recorded - passed - failed;
  return msg(
    'Of the cables that are recorded {passed} passed their test, {failed} failed, and {open} are not tested. An empty frame is not recorded yet.',
    { passed, failed, open },
  );
}

/** What the marks say of each length that has a star. */
function doubts({ plan }: SheetContext, rows: readonly ScheduleRow[]): Message[] {
  const { units } = job(plan);
  const list = rows.flatMap(({ label, built }) => {
    const marks = marksAgainst(built);
    return marks === null ? [] : [`${label} ${formatLength(marks, units)}`];
  });
  if (list.length === 0) return [];
  return [
    msg('* Typed, and not what lies between the marks; these say {list}.', {
      list: list.join(', '),
    }),
  ];
}
