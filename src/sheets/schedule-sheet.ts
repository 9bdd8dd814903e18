import { shownStep } from '../base/apportion.ts';
import type { Id } from '../base/ids.ts';
import { type Message, msg } from '../base/message.ts';
import { FOOT, formatLength, formatTotal, METRE, type Units } from '../base/units.ts';
import { ALLOWANCE_FIELDS, allowanceSource } from '../plan/allowances.ts';
import { job, settings } from '../plan/plan.ts';
import { risersOf } from '../results/risers.ts';
import type { RunStatus } from '../results/types.ts';
import { cableSchedule, pathInWords, type ScheduleRow } from '../takeoff/cable-schedule.ts';
import { inLabelOrder } from '../takeoff/ports.ts';
import { say } from './frame.ts';
import { addingUp, type Sums, sumsOf } from './schedule-sums.ts';
import type { Sheet, SheetContext } from './sheet.ts';
import { type Column, type Row, tablePages } from './table.ts';

/** The cable schedule: a line for each cable, with room to write the marks on its jacket and that it is done. */
export const scheduleSheet: Sheet = {
  id: 'schedule',
  title: msg('Cable schedule'),
  pages: (context) => {
    const { plan, kinds, survey } = context;
    const rows = cableSchedule(plan, kinds, survey.runs, survey.boxPlan).map((row) => ({
      ...row,
      path: named(context, row.jack),
    }));
    if (rows.length === 0) return [];
    const shown = columnsFor(rows);
    return tablePages(context, {
      title: say(context, msg('Cable schedule')),
      landscape: true,
      columns: shown.map((column) => ({ ...column.look, title: say(context, column.title) })),
      rows: rows.map((row) =>
        scheduleRow(context, shown, addingUp(row, shownStep(unitsOf(context)))),
      ),
      totals: totals(context, shown),
      notes: notes(context),
    });
  },
};

const unitsOf = ({ plan }: SheetContext): Units => job(plan).units;

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

/** A column of the schedule: what it says of a row, and of all of them in the line of sums. */
interface ScheduleColumn {
  readonly title: Message;
  readonly look: Omit<Column, 'title'>;
  readonly cell: (row: ScheduleRow, length: (mm: number) => string) => string;
  /** What is added up; null for a column without a sum. */
  readonly sum: ((sums: Sums) => number) | null;
}

const left = { align: 'left', width: null, wraps: false } as const;
const right = { align: 'right', width: null, wraps: false } as const;

const words = (
  title: string,
  cell: ScheduleColumn['cell'],
  look: ScheduleColumn['look'] = { ...left, wraps: true },
): ScheduleColumn => ({ title: msg(title), look, cell, sum: null });

const lengths = (
  title: string,
  name: 'across' | 'vertical' | 'slack' | 'cable' | 'order',
): ScheduleColumn => ({
  title: msg(title),
  look: right,
  cell: (row, length) => length(row[name]),
  sum: (sums) => sums[name],
});

/** Part of the ups and downs; nothing where a cable stays on its level. */
const inRiser: ScheduleColumn = {
  title: msg('In riser'),
  look: right,
  cell: (row, length) => (row.riser === 0 ? '' : length(row.riser)),
  sum: ({ riser }) => riser,
};

const blank = (title: string, width: number): ScheduleColumn => ({
  title: msg(title),
  look: { align: 'centre', width, wraps: false, blank: true },
  cell: () => '',
  sum: null,
});

/** The columns that these rows need: closet, level and riser stand there only where they tell rows apart. */
function columnsFor(rows: readonly ScheduleRow[]): ScheduleColumn[] {
  const closets = new Set(rows.map((row) => row.closetId)).size > 1;
  const levels = new Set(rows.map((row) => row.levelId)).size > 1;
  const risers = rows.some((row) => row.riser > 0);
  return [
    words('Cable', (row) => row.label, { ...left, face: 'mono' }),
    closets ? words('Closet, port', closetAndPort) : words('Port', portOf, left),
    words('Device', (row) => row.device),
    ...(levels ? [words('Level', (row) => row.level)] : []),
    words('Room', (row) => row.room),
    words('Way from the jack', wayOf),
    lengths('Across', 'across'),
    lengths('Up, down', 'vertical'),
    ...(risers ? [inRiser] : []),
    lengths('Slack', 'slack'),
    lengths('Cable', 'cable'),
    lengths('Order', 'order'),
    words('Box', (row) => (row.box === null ? '-' : String(row.box)), right),
    blank('Start mark', 15),
    blank('End mark', 15),
    blank('OK', 8),
  ];
}

const portOf = (row: ScheduleRow): string => (row.port === null ? '-' : String(row.port));

const closetAndPort = (row: ScheduleRow): string =>
  [row.closet, portOf(row)].filter((word) => word !== '').join(', ');

/** What stands in the way column: how the run stands, what it passes, and the pin that it is made to pass. */
function wayOf(row: ScheduleRow): string {
  const status = STATUS_WORDS[row.status];
  const way = [status, row.path].filter((word) => word !== '').join(': ');
  return row.pin === '' ? way : [way, `(pin: ${row.pin})`].filter((word) => word !== '').join(' ');
}

function scheduleRow(
  context: SheetContext,
  columns: readonly ScheduleColumn[],
  row: ScheduleRow,
): Row {
  const units = unitsOf(context);
  const length = (mm: number): string =>
    row.status === 'unroutable' ? '-' : formatLength(mm, units);
  return {
    look: 'plain',
    ...(row.status === 'over' || row.status === 'unroutable' ? { warn: true } : {}),
    cells: columns.map((column) => column.cell(row, length)),
  };
}

/** The line of sums; the number of cables stands under the devices, that of boxes under the boxes. */
function totals(context: SheetContext, columns: readonly ScheduleColumn[]): Row[] {
  const { survey } = context;
  const units = unitsOf(context);
  const { runs } = survey;
  const sums = addingUp(sumsOf(runs), units === 'ft' ? FOOT : METRE);
  const said: Readonly<Record<string, string>> = {
    Device: say(context, msg('Cables: {runs}', { runs: runs.length })),
    Box: String(survey.totals.boxes),
  };
  const cells = columns.map(({ title, sum }) => {
    if (!sum) return said[title.text] ?? '';
    return formatTotal(sum(sums), units);
  });
  return [{ look: 'grand', cells }];
}

function notes(context: SheetContext): string[] {
  const { plan } = context;
  const { units } = job(plan);
  const { outletSlack, fieldLoop, closetLoop, wastePercent, orderStep, boxLength } = settings(plan);
  const length = (mm: number): string => formatLength(mm, units);
  const loop = fieldLoop > 0 ? `, ${length(fieldLoop)} field loop` : '';
  return [
    say(
      context,
      msg(
        'Slack: {outlet} at the outlet{loop}, {closet} at the closet. Order: cable and {waste} % waste, rounded up to {step}. Box: {box}, whole cables only, nothing spliced.',
        {
          outlet: length(outletSlack),
          loop,
          closet: length(closetLoop),
          waste: wastePercent,
          step: length(orderStep),
          box: formatTotal(boxLength, units),
        },
      ),
    ),
    ...ownAllowances(context),
    say(
      context,
      msg(
        'Start and end mark: the length printed on the jacket at each end; their difference is the cable as it was installed.',
      ),
    ),
  ];
}

/** Cables whose slack or order does not follow the job's, by label, so that the line above is not taken for theirs. */
function ownAllowances(context: SheetContext): string[] {
  const { plan, survey } = context;
  const own = survey.runs.filter(({ jack: id }) => {
    const jack = plan.tables.jacks.get(id);
    return jack && ALLOWANCE_FIELDS.some((field) => allowanceSource(plan, jack, field) !== 'job');
  });
  if (own.length === 0) return [];
  const labels = inLabelOrder(own).map((run) => run.label);
  const list = labels.slice(0, LISTED).join(', ');
  const more = labels.length - LISTED;
  return [
    say(
      context,
      more > 0
        ? msg('By allowances of their own, as their columns say: {list} and {more} more.', {
            list,
            more,
          })
        : msg('By allowances of their own, as their columns say: {list}.', { list }),
    ),
  ];
}

/** So many labels are listed; the rest is counted. */
const LISTED = 24;
