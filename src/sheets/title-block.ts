import { msg } from '../base/message.ts';
import type { Mark } from '../drawing/display.ts';
import type { Point } from '../geometry/point.ts';
import { job } from '../plan/plan.ts';
import { box, type Rect, ruleLine, say, text, textWithin } from './frame.ts';
import type { Page, SheetContext } from './sheet.ts';

/** What a title block says beside the job. */
export interface TitleFacts {
  readonly title: string;
  /** The scale in words; empty on a sheet without a drawing. */
  readonly scale: string;
}

export interface TitleBlock {
  readonly marks: readonly Mark[];
  readonly number: NonNullable<Page['number']>;
}

/** Errors and warnings that stood open when the sheet was printed; empty when there were none. */
export function openChecks(context: SheetContext): string {
  const count = (severity: string) =>
    context.survey.findings.filter((finding) => finding.severity === severity).length;
  const [errors, warnings] = [count('error'), count('warning')];
  if (errors + warnings === 0) return '';
  return say(
    context,
    msg('Open checks when printed: {errors} to mend, {warnings} to look at', { errors, warnings }),
  );
}

interface Field {
  readonly name: string;
  readonly value: string;
  readonly size: readonly [number, number];
  readonly bold?: boolean;
}

const NAME_SIZE = 1.9;

/** A named value in a cell: the name small above, the value under it. */
function cell(context: SheetContext, { x, y, width, height }: Rect, field: Field): Mark[] {
  return [
    text([x + 1.4, y + 2.5], field.name, NAME_SIZE, { ink: 'soft' }),
    textWithin(
      context,
      [x + 1.4, y + height - (height > 12 ? 3 : 1.5)],
      field.value,
      width - 2.8,
      field.size,
      { bold: field.bold ?? false },
    ),
  ];
}

const people = (context: SheetContext): Field[] => {
  const { client, preparedBy } = job(context.plan);
  return [
    { name: say(context, msg('Prepared for')), value: client || '-', size: [2.7, 2] },
    { name: say(context, msg('Prepared by')), value: preparedBy || '-', size: [2.7, 2] },
  ];
};

/** Job, address and open checks, from the upper left corner of a cell. */
function jobLines(context: SheetContext, { x, y, width }: Rect): Mark[] {
  const { name, address } = job(context.plan);
  const checks = openChecks(context);
  const marks = [
    textWithin(context, [x + 1.4, y + 5.6], name, width - 2.8, [4.6, 2.6], { bold: true }),
    textWithin(context, [x + 1.4, y + 9.6], address, width - 2.8, [2.5, 1.9]),
  ];
  if (checks !== '')
    marks.push(
      textWithin(context, [x + 1.4, y + 13.2], checks, width - 2.8, [2.3, 1.9], {
        bold: true,
        ink: 'warn',
      }),
    );
  return marks;
}

/** Height of the title block that lies along the foot of a sheet. */
export const TITLE_HEIGHT = 24;

/** The title block along the foot: job, people, sheet, date, revision, number. */
export function titleStrip(context: SheetContext, area: Rect, facts: TitleFacts): TitleBlock {
  const { x, y, width, height } = area;
  const revision = 20;
  const number = 24;
  const sheet = Math.min(66, width * 0.3);
  const jobWidth = width - revision - number - sheet;
  const sheetX = x + jobWidth;
  const revisionX = sheetX + sheet;
  const numberX = revisionX + revision;
  const low = height - 10;
  const half = jobWidth / 2;
  const [preparedFor, preparedBy] = people(context) as [Field, Field];
  const marks = [
    box(area, 0.4),
    ...jobLines(context, { x, y, width: jobWidth, height }),
    ruleLine([x, y + low], [sheetX, y + low], 0.18),
    ruleLine([x + half, y + low], [x + half, y + height], 0.18),
    ...cell(context, { x, y: y + low, width: half, height: 10 }, preparedFor),
    ...cell(context, { x: x + half, y: y + low, width: half, height: 10 }, preparedBy),
    ...[sheetX, revisionX, numberX].map((at) => ruleLine([at, y], [at, y + height], 0.25)),
    ...sheetCells(context, { x: sheetX, y, width: sheet, height }, facts),
    ...bigCell(say(context, msg('Revision')), [revisionX + revision / 2, y]),
    text([revisionX + revision / 2, y + 18], job(context.plan).revision, revisionSize(context), {
      bold: true,
      align: 'centre',
    }),
    ...bigCell(say(context, msg('Sheet')), [numberX + number / 2, y]),
  ];
  return { marks, number: { at: [numberX + number / 2, y + 15], size: 4.6 } };
}

/** A revision is printed big, so that an old sheet is seen to be old; a word as large as the cell allows. */
const revisionSize = ({ plan, measure }: SheetContext): number => {
  const width = measure.width(job(plan).revision, 1, 'sans', true);
  return width === 0 ? 12 : Math.min(11.5, 16 / width);
};

const bigCell = (name: string, [x, y]: Point): Mark[] => [
  text([x, y + 2.7], name, NAME_SIZE, { ink: 'soft', align: 'centre' }),
];

/** Sheet title, scale and date, one over the other. */
function sheetCells(context: SheetContext, area: Rect, facts: TitleFacts): Mark[] {
  const { x, y, width, height } = area;
  const top = facts.scale === '' ? height / 2 : 9;
  const rest = (height - top) / (facts.scale === '' ? 1 : 2);
  const marks = [
    ...cell(
      context,
      { x, y, width, height: top },
      { name: say(context, msg('Sheet title')), value: facts.title, size: [3.2, 2.2], bold: true },
    ),
    ruleLine([x, y + top], [x + width, y + top], 0.18),
  ];
  const fields: Field[] = [
    ...(facts.scale === ''
      ? []
      : [
          {
            name: say(context, msg('Scale')),
            value: facts.scale,
            size: [3, 2.2] as const,
            bold: true,
          },
        ]),
    { name: say(context, msg('Printed')), value: context.printed, size: [2.7, 2] },
  ];
  fields.forEach((field, i) => {
    const at = y + top + i * rest;
    if (i > 0) marks.push(ruleLine([x, at], [x + width, at], 0.18));
    marks.push(...cell(context, { x, y: at, width, height: rest }, field));
  });
  return marks;
}

/** Height of the title block that stands in the right-hand column of a sheet. */
export const TITLE_COLUMN_HEIGHT = 54;

/** The title block as a column. */
export function titleColumn(context: SheetContext, area: Rect, facts: TitleFacts): TitleBlock {
  const { x, y, width, height } = area;
  const half = width / 2;
  const [preparedFor, preparedBy] = people(context) as [Field, Field];
  const title: Field = {
    name: say(context, msg('Sheet title')),
    value: facts.title,
    size: [3.2, 2.2],
    bold: true,
  };
  const first = y + 14.4;
  const at = first + 16;
  const marks = [
    box(area, 0.4),
    ...jobLines(context, area),
    ruleLine([x, first], [x + width, first], 0.18),
    ruleLine([x + half, first], [x + half, first + 8], 0.18),
    ...cell(context, { x, y: first, width: half, height: 8 }, preparedFor),
    ...cell(context, { x: x + half, y: first, width: half, height: 8 }, preparedBy),
    ruleLine([x, first + 8], [x + width, first + 8], 0.18),
    ...cell(context, { x, y: first + 8, width, height: 8 }, title),
  ];
  marks.push(
    ruleLine([x, at], [x + width, at], 0.18),
    ...cell(
      context,
      { x, y: at, width: half, height: 8 },
      { name: say(context, msg('Scale')), value: facts.scale, size: [3, 2.2], bold: true },
    ),
    ...cell(
      context,
      { x: x + half, y: at, width: half, height: 8 },
      { name: say(context, msg('Printed')), value: context.printed, size: [2.7, 2] },
    ),
    ruleLine([x + half, at], [x + half, y + height], 0.18),
    ruleLine([x, at + 8], [x + width, at + 8], 0.25),
    ...bigCell(say(context, msg('Revision')), [x + half / 2, at + 8]),
    text([x + half / 2, y + height - 3.2], job(context.plan).revision, revisionSize(context), {
      bold: true,
      align: 'centre',
    }),
    ...bigCell(say(context, msg('Sheet')), [x + half * 1.5, at + 8]),
  );
  return { marks, number: { at: [x + half * 1.5, y + height - 5.4], size: 5 } };
}
