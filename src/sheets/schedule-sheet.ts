import type { Id } from '../base/ids.ts';
import { msg } from '../base/message.ts';
import { formatLength, formatTotal } from '../base/units.ts';
import { job, settings } from '../plan/plan.ts';
import type { RunStatus } from '../results/types.ts';
import { cableSchedule, pathInWords, type ScheduleRow } from '../takeoff/cable-schedule.ts';
import { say } from './frame.ts';
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
    const closets = new Set(rows.map((row) => row.closet));
    return tablePages(context, {
      title: say(context, msg('Cable schedule')),
      landscape: true,
      columns: columns(context, closets.size > 1),
      rows: rows.map((row) => scheduleRow(context, row, closets.size > 1)),
      totals: totals(context),
      notes: notes(context),
    });
  },
};

/** The way by the names of what it passes; ups and downs have their own column. */
function named({ plan, survey }: SheetContext, jack: Id): string {
  const run = survey.runs.find((candidate) => candidate.jack === jack);
  const parts = run?.parts.filter((part) => part.pathway !== null || part.kind === 'across') ?? [];
  return pathInWords(
    plan,
    parts.filter((part) => part.pathway !== null || part.zone !== null),
  );
}

const STATUS_WORDS: Readonly<Record<RunStatus, string>> = {
  ok: '',
  near: 'near the limit',
  over: 'TOO LONG',
  unroutable: 'NO WAY',
};

const left = { align: 'left', width: null, wraps: false } as const;
const right = { align: 'right', width: null, wraps: false } as const;

function columns(context: SheetContext, closets: boolean): Column[] {
  const t = (words: string): string => say(context, msg(words));
  return [
    { ...left, title: t('Cable'), face: 'mono' },
    { ...left, title: closets ? t('Closet, port') : t('Port'), wraps: closets },
    { ...left, title: t('Device'), wraps: true },
    { ...left, title: t('Room'), wraps: true },
    { ...left, title: t('Way from the jack'), wraps: true },
    { ...right, title: t('Across') },
    { ...right, title: t('Up, down') },
    { ...right, title: t('Slack') },
    { ...right, title: t('Cable') },
    { ...right, title: t('Order') },
    { ...right, title: t('Box') },
    { title: t('Start mark'), align: 'centre', width: 15, wraps: false, blank: true },
    { title: t('End mark'), align: 'centre', width: 15, wraps: false, blank: true },
    { title: t('OK'), align: 'centre', width: 8, wraps: false, blank: true },
  ];
}

function scheduleRow(context: SheetContext, row: ScheduleRow, closets: boolean): Row {
  const { units } = job(context.plan);
  const length = (mm: number): string =>
    row.status === 'unroutable' ? '-' : formatLength(mm, units);
  const port = row.port === null ? '-' : String(row.port);
  const status = STATUS_WORDS[row.status];
  return {
    look: 'plain',
    ...(row.status === 'over' || row.status === 'unroutable' ? { warn: true } : {}),
    cells: [
      row.label,
      closets ? [row.closet, port].filter((word) => word !== '').join(' ') : port,
      row.device,
      row.room,
      status === '' ? row.path : [status, row.path].filter((word) => word !== '').join(': '),
      length(row.across),
      length(row.vertical),
      length(row.slack),
      length(row.cable),
      length(row.order),
      row.box === null ? '-' : String(row.box),
      '',
      '',
      '',
    ],
  };
}

function totals(context: SheetContext): Row[] {
  const { plan, survey } = context;
  const { units } = job(plan);
  const { runs } = survey;
  const sum = (value: (run: (typeof runs)[number]) => number): string =>
    formatTotal(
      runs.reduce((total, run) => total + value(run), 0),
      units,
    );
  const words = say(context, msg('Cables: {runs}', { runs: runs.length }));
  const boxes = String(survey.totals.boxes);
  return [
    {
      look: 'grand',
      cells: [
        '',
        '',
        words,
        '',
        '',
        sum((run) => run.across),
        sum((run) => run.vertical),
        sum((run) => run.slack),
        sum((run) => run.cable),
        sum((run) => run.order),
        boxes,
        '',
        '',
        '',
      ],
    },
  ];
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
    say(
      context,
      msg(
        'Start and end mark: the length printed on the jacket at each end; their difference is the cable as it was installed.',
      ),
    ),
  ];
}
