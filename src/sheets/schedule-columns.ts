import type { Id } from '../base/ids.ts';
import { type Message, msg } from '../base/message.ts';
import { formatLength } from '../base/units.ts';
import { job } from '../plan/plan.ts';
import { risersOf } from '../results/risers.ts';
import type { RunStatus } from '../results/types.ts';
import { cableSchedule, pathInWords, type ScheduleRow } from '../takeoff/cable-schedule.ts';
import { say } from './frame.ts';
import type { Sums } from './schedule-sums.ts';
import type { Page, SheetContext } from './sheet.ts';
import { type Column, tablePages } from './table.ts';

/** A column of the schedule: what it says of a row, and of all of them in the line of sums. */
export interface ScheduleColumn {
  readonly title: Message;
  readonly look: Omit<Column, 'title'>;
  readonly cell: (row: ScheduleRow, length: (mm: number) => string) => string;
  /** What is added up; null for a column without a sum. */
  readonly sum: ((sums: Sums) => number) | null;
}

/** The pages of a schedule: a line a cable by its columns, one that `warns` standing out, and the line of sums. */
export function schedulePages(
  context: SheetContext,
  of: {
    readonly title: Message;
    readonly columns: readonly ScheduleColumn[];
    readonly rows: readonly ScheduleRow[];
    readonly warns: (row: ScheduleRow) => boolean;
    readonly sums: (column: ScheduleColumn) => string;
    readonly notes: readonly Message[];
  },
): readonly Page[] {
  const { units } = job(context.plan);
  const { columns } = of;
  return tablePages(context, {
    title: say(context, of.title),
    landscape: true,
    columns: columns.map(({ look, title }) => ({ ...look, title: say(context, title) })),
    rows: of.rows.map((row) => ({
      look: 'plain',
      ...(of.warns(row) ? { warn: true } : {}),
      cells: columns.map(({ cell }) => cell(row, (mm) => formatLength(mm, units))),
    })),
    totals: [{ look: 'grand', cells: columns.map(of.sums) }],
    notes: of.notes.map((note) => say(context, note)),
  });
}

const left = { align: 'left', width: null, wraps: false } as const;
const right = { align: 'right', width: null, wraps: false } as const;

/** A column of words, which break into lines where room is short unless it looks otherwise. */
export const words = (
  title: string,
  cell: ScheduleColumn['cell'],
  look: ScheduleColumn['look'] = { ...left, wraps: true },
): ScheduleColumn => ({ title: msg(title), look, cell, sum: null });

/** A column of lengths with their sum. */
export const lengths = (
  title: string,
  name: 'across' | 'vertical' | 'slack' | 'cable' | 'order',
): ScheduleColumn => ({
  title: msg(title),
  look: right,
  cell: (row, length) => (row.status === 'unroutable' ? '-' : length(row[name])),
  sum: (sums) => sums[name],
});

/** A column to write in, with what is recorded already. */
export const blank = (
  title: string,
  width: number | null,
  cell: ScheduleColumn['cell'],
): ScheduleColumn => ({
  title: msg(title),
  look: { align: 'centre', width, wraps: width === null, blank: true },
  cell,
  sum: null,
});

/** The mark on the jacket at one end, where it is recorded. */
export const markOf =
  (end: 'start' | 'end'): ScheduleColumn['cell'] =>
  ({ built }, length) => {
    const mark = built?.[end] ?? null;
    return mark === null ? '' : length(mark);
  };

/** How the test came out; nothing where it is not recorded. A failure stands out by its letters too. */
export const testOf: ScheduleColumn['cell'] = ({ built }) =>
  ({ pass: 'pass', fail: 'FAIL', none: '' })[built?.test ?? 'none'];

/** What tells one cable from the others: closet and level stand there only where they do. */
export function homeColumns(rows: readonly ScheduleRow[]): ScheduleColumn[] {
  const closets = new Set(rows.map((row) => row.closetId)).size > 1;
  const levels = new Set(rows.map((row) => row.levelId)).size > 1;
  return [
    words('Cable', (row) => row.label, { ...left, face: 'mono' }),
    closets ? words('Closet, port', closetAndPort) : words('Port', portOf, left),
    words('Device', (row) => row.device),
    ...(levels ? [words('Level', (row) => row.level)] : []),
    words('Room', (row) => row.room),
  ];
}

const portOf = (row: ScheduleRow): string => (row.port === null ? '-' : String(row.port));

const closetAndPort = (row: ScheduleRow): string =>
  [row.closet, portOf(row)].filter((word) => word !== '').join(', ');

/** The box that a cable is cut from. */
export const boxColumn = words('Box', (row) => (row.box === null ? '-' : String(row.box)), right);

/** The rows of the schedule, each with its way by the names of what it passes. */
export function scheduleRows(context: SheetContext): ScheduleRow[] {
  const { plan, kinds, survey } = context;
  return cableSchedule(plan, kinds, survey.runs, survey.boxPlan).map((row) => ({
    ...row,
    path: named(context, row.jack),
  }));
}

/** The way by the names of what it passes; ups and downs have their own column. */
function named({ plan, survey }: SheetContext, jack: Id): string {
  const run = survey.runs.find((candidate) => candidate.jack === jack);
  if (!run) return '';
  const parts = run.parts.filter(
    (part) =>
      part.pathway !== null ||
      part.kind === 'riser' ||
      (part.kind === 'across' && part.zone !== null),
  );
  return pathInWords(plan, parts, risersOf(run));
}

const STATUS_WORDS: Readonly<Record<RunStatus, string>> = {
  ok: '',
  near: 'near the limit',
  over: 'TOO LONG',
  unroutable: 'NO WAY',
};

/** What stands in the way column: how the run stands, what it passes, and the pin that it is made to pass. */
function wayOf(row: ScheduleRow): string {
  const status = STATUS_WORDS[row.status];
  const way = [status, row.path].filter((word) => word !== '').join(': ');
  return row.pin === '' ? way : [way, `(pin: ${row.pin})`].filter((word) => word !== '').join(' ');
}

/** The way of a cable, and the pin that it is made to pass. */
export const wayColumn = words('Way from the jack', wayOf);

/** What the marks are, for the foot of a sheet. */
export const MARKS = msg(
  'Start and end mark: the length printed on the jacket at each end; their difference is the cable as it was installed.',
);
