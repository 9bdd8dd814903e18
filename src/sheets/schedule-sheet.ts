import { shownStep } from '../base/apportion.ts';
import { type Message, msg } from '../base/message.ts';
import { FOOT, formatLength, formatTotal, METRE } from '../base/units.ts';
import { ALLOWANCE_FIELDS, allowanceSource } from '../plan/allowances.ts';
import { job, type Plan, settings } from '../plan/plan.ts';
import { inLabelOrder } from '../results/ports.ts';
import type { ScheduleRow } from '../takeoff/cable-schedule.ts';
import { say } from './frame.ts';
import {
  blank,
  boxColumn,
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
import { addingUp, sumsOf } from './schedule-sums.ts';
import type { Sheet, SheetContext } from './sheet.ts';

/** The cable schedule: a line for each cable, with room to write the marks on its jacket and how its test came out. */
export const scheduleSheet: Sheet = {
  id: 'schedule',
  title: msg('Cable schedule'),
  pages: (context) => {
    const rows = scheduleRows(context);
    if (rows.length === 0) return [];
    const step = shownStep(job(context.plan).units);
    return schedulePages(context, {
      title: msg('Cable schedule, as planned'),
      columns: columnsFor(rows),
      rows: rows.map((row) => addingUp(row, step)),
      warns: ({ status }) => status === 'over' || status === 'unroutable',
      sums: sumsIn(context),
      notes: [allowancesOf(context.plan), ...ownAllowances(context), MARKS],
    });
  },
};

/** Part of the ups and downs; nothing where a cable stays on its level. */
const inRiser: ScheduleColumn = {
  title: msg('In riser'),
  look: { align: 'right', width: null, wraps: false },
  cell: (row, length) => (row.riser === 0 ? '' : length(row.riser)),
  sum: ({ riser }) => riser,
};

/** The columns that these rows need: what lies in risers stands there only where some do. */
function columnsFor(rows: readonly ScheduleRow[]): ScheduleColumn[] {
  const risers = rows.some((row) => row.riser > 0);
  return [
    ...homeColumns(rows),
    wayColumn,
    lengths('Across', 'across'),
    lengths('Up, down', 'vertical'),
    ...(risers ? [inRiser] : []),
    lengths('Slack', 'slack'),
    lengths('Cable', 'cable'),
    lengths('Order', 'order'),
    boxColumn,
    blank('Start mark', 15, markOf('start')),
    blank('End mark', 15, markOf('end')),
    blank('OK', 8, testOf),
  ];
}

/** The line of sums; the number of cables stands under the devices, that of boxes under the boxes. */
function sumsIn(context: SheetContext): (column: ScheduleColumn) => string {
  const { plan, survey } = context;
  const { units } = job(plan);
  const { runs } = survey;
  const sums = addingUp(sumsOf(runs), units === 'ft' ? FOOT : METRE);
  const said: Readonly<Record<string, string>> = {
    Device: say(context, msg('Cables: {runs}', { runs: runs.length })),
    Box: String(survey.totals.boxes),
  };
  return ({ title, sum }) => (sum ? formatTotal(sum(sums), units) : (said[title.text] ?? ''));
}

/** What the job adds to every cable, and how it is ordered. */
function allowancesOf(plan: Plan): Message {
  const { units } = job(plan);
  const { outletSlack, fieldLoop, closetLoop, wastePercent, orderStep, boxLength } = settings(plan);
  const length = (mm: number): string => formatLength(mm, units);
  return msg(
    'Slack: {outlet} at the outlet{loop}, {closet} at the closet. Order: cable and {waste} % waste, rounded up to {step}. Box: {box}, whole cables only, nothing spliced.',
    {
      outlet: length(outletSlack),
      loop: fieldLoop > 0 ? `, ${length(fieldLoop)} field loop` : '',
      closet: length(closetLoop),
      waste: wastePercent,
      step: length(orderStep),
      box: formatTotal(boxLength, units),
    },
  );
}

/** Cables whose slack or order does not follow the job's, by label, so that the line above is not taken for theirs. */
function ownAllowances({ plan, survey }: SheetContext): Message[] {
  const own = survey.runs.filter(({ jack: id }) => {
    const jack = plan.tables.jacks.get(id);
    return jack && ALLOWANCE_FIELDS.some((field) => allowanceSource(plan, jack, field) !== 'job');
  });
  if (own.length === 0) return [];
  const labels = inLabelOrder(own).map((run) => run.label);
  const list = labels.slice(0, LISTED).join(', ');
  const more = labels.length - LISTED;
  return [
    more > 0
      ? msg('By allowances of their own, as their columns say: {list} and {more} more.', {
          list,
          more,
        })
      : msg('By allowances of their own, as their columns say: {list}.', { list }),
  ];
}

/** So many labels are listed; the rest is counted. */
const LISTED = 24;
