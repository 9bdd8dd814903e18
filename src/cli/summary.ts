import { renderMessage } from '../base/message.ts';
import { formatLength, formatMoney, formatTotal } from '../base/units.ts';
import { kinds } from '../kinds/index.ts';
import { countBuilt } from '../plan/built.ts';
import { deviceName } from '../plan/names.ts';
import { job, type Plan } from '../plan/plan.ts';
import { closetWords } from '../results/closet-words.ts';
import { inLabelOrder } from '../results/ports.ts';
import type { ClosetStudy, Finding, Run, Survey } from '../results/types.ts';
import {
  type LevelUse,
  levelUses,
  type PinUse,
  pinUses,
  type RiserUse,
  riserUses,
} from './building.ts';

/** A table in plain text: words to the left, numbers to the right, two blanks between. */
function table(rows: readonly (readonly string[])[], right: ReadonlySet<number>): string[] {
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((row) => row[i]!.length)));
  return rows.map((row) =>
    row
      .map((cell, i) => (right.has(i) ? cell.padStart(widths[i]!) : cell.padEnd(widths[i]!)))
      .join('  ')
      .trimEnd(),
  );
}

const STATUS: Readonly<Record<Run['status'], string>> = {
  ok: 'ok',
  near: 'near the limit',
  over: 'TOO LONG',
  unroutable: 'NO WAY HOME',
};

function runLines(plan: Plan, runs: readonly Run[]): string[] {
  if (runs.length === 0) return ['No jacks yet.'];
  const { units } = job(plan);
  const length = (mm: number) => formatLength(mm, units);
  const served = (run: Run): string => {
    const device = run.device === null ? undefined : plan.tables.devices.get(run.device);
    return device ? deviceName(plan, kinds, device) : 'spare';
  };
  const levels = plan.tables.levels.size > 1;
  const header = ['Jack', 'Serves', 'Across', 'Up+down', 'Slack', 'Cable', 'Order', 'Status'];
  const rows = inLabelOrder(runs).map((run) => {
    const lengths = [run.across, run.vertical, run.slack, run.cable, run.order];
    const shown = run.status === 'unroutable' ? lengths.map(() => '-') : lengths.map(length);
    const level = levels ? [plan.tables.levels.get(run.level)?.name ?? '-'] : [];
    return [run.label, served(run), ...shown, STATUS[run.status], ...level];
  });
  return table([levels ? [...header, 'Level'] : header, ...rows], new Set([2, 3, 4, 5, 6]));
}

/** Levels where there are several, and risers and pins where there are any: a paragraph each. */
function buildingLines(plan: Plan, { runs }: Survey): string[] {
  const levels = levelUses(plan, runs);
  const paragraphs = [
    levels.length > 1 ? levels.map((use) => levelLine(plan, use)) : [],
    riserUses(plan, runs).map((use) => riserLine(plan, use)),
    pinUses(plan, runs).map((use) => pinLine(plan, use)),
  ];
  return paragraphs.flatMap((lines) => (lines.length === 0 ? [] : [...lines, '']));
}

function levelLine(plan: Plan, { level, runs, closets }: LevelUse): string {
  const at = formatLength(level.elevation, job(plan).units);
  return `${level.name || level.id}: floor at ${at}, ${counted(runs.length, 'jack')}, ${counted(closets, 'closet')}`;
}

const listed = (runs: readonly Run[]): string => runs.map((run) => run.label).join(', ');

function riserLine(plan: Plan, { riser, name, runs }: RiserUse): string {
  const nameOf = (id: string): string => plan.tables.levels.get(id)?.name || id;
  const size = riser.size === '' ? '' : `, ${riser.size}`;
  const cables = runs.length === 0 ? 'no cables' : `${counted(runs.length, 'cable')}`;
  const which = runs.length === 0 ? '' : ` (${listed(runs)})`;
  return `${name}${size}: ${nameOf(riser.level)} up to ${nameOf(riser.upper)}, ${cables}${which}`;
}

/** What a pin costs: how much longer it makes its runs than their free ways. */
function pinLine(plan: Plan, { name, runs, longer }: PinUse): string {
  if (runs.length === 0) return `${name}: no run passes it`;
  const length = formatLength(Math.abs(longer), job(plan).units);
  const cost =
    longer === 0
      ? 'no longer than their free ways'
      : `${length} ${longer > 0 ? 'longer' : 'shorter'} than their free ways, together`;
  return `${name}: ${listed(runs)}; ${cost}`;
}

const SEVERITY: Readonly<Record<Finding['severity'], string>> = {
  error: 'To fix',
  warning: 'To look at',
  note: 'To know',
};

function findingLines(plan: Plan, findings: readonly Finding[]): string[] {
  if (findings.length === 0) return ['Checks: all clear.'];
  const { units } = job(plan);
  return findings.flatMap((finding) => [
    `${SEVERITY[finding.severity]}: ${renderMessage(finding.message, units)}`,
    `  ${renderMessage(finding.remedy, units)} (${finding.source})`,
  ]);
}

function priceLines({ price }: Survey): string[] {
  const money = (cents: number) => formatMoney(cents, price.currency);
  const rows: [string, number][] = [
    ['Material', price.materialCents],
    [`Labour, ${price.hours} h`, price.labourCents],
    ['Mark-up', price.markupCents],
    ['Tax', price.taxCents],
    ['Price', price.totalCents],
  ];
  return table(
    rows.map(([name, cents]) => [name, money(cents)]),
    new Set([1]),
  );
}

function boxLines({ boxPlan, totals }: Survey): string[] {
  if (totals.boxes === 0) return [];
  const { boxes, bound } = boxPlan;
  const why =
    boxes.length === bound
      ? 'no plan can do with fewer'
      : `no plan can do with fewer than ${bound}`;
  return [`Boxes of cable: ${totals.boxes}, each run cut whole (${why}).`];
}

/** What a person wants to read first: the job, its runs, the totals, the price and what to mend. */
export function summary(plan: Plan, survey: Survey): string {
  const { name, address, revision, units } = job(plan);
  const { totals } = survey;
  const lines = [
    `${name}, revision ${revision}`,
    ...(address === '' ? [] : [address]),
    '',
    [
      counted(totals.devices, 'device'),
      counted(totals.jacks, 'jack'),
      counted(plan.tables.closets.size, 'closet'),
      ...(plan.tables.levels.size > 1 ? [counted(plan.tables.levels.size, 'level')] : []),
    ].join(', '),
    '',
    ...buildingLines(plan, survey),
    ...runLines(plan, survey.runs),
    '',
    `Cable in the building: ${formatTotal(totals.cable, units)}. To order: ${formatTotal(totals.order, units)}.`,
    ...boxLines(survey),
    ...builtLines(plan),
    '',
    ...priceLines(survey),
    '',
    ...findingLines(plan, survey.findings),
  ];
  return `${lines.join('\n')}\n`;
}

/** How far the record of what was built is; nothing before its first entry. */
function builtLines(plan: Plan): string[] {
  const { cables, recorded, passed, failed } = countBuilt(plan);
  return recorded === 0
    ? []
    : [`As built: ${recorded} of ${cables} recorded, ${passed} passed, ${failed} failed.`];
}

const counted = (count: number, thing: string): string =>
  `${count} ${thing}${count === 1 ? '' : 's'}`;

/** What one more closet would do, in lines; none where nobody asked. */
export const closetLines = (plan: Plan, study: ClosetStudy | null): string[] =>
  study === null
    ? []
    : [
        '\nOne more closet\n',
        ...closetWords(plan, study).map((m) => `  ${renderMessage(m, job(plan).units)}\n`),
      ];
