import { groupBy } from '../base/group.ts';
import { type Message, msg } from '../base/message.ts';
import type { Units } from '../base/units.ts';
import { type Built, NOT_BUILT } from '../plan/built.ts';
import { type BuiltField, type BuiltValue, parseBuilt } from '../plan/built-words.ts';
import type { BuiltRecord } from '../plan/commands/record.ts';
import type { ReturnedCell, ReturnedList } from '../results/returned.ts';
import { cableScheduleCsv, type ScheduleRow } from './cable-schedule.ts';
import { parseCsv, type Separator, separatorOf } from './csv.ts';

/** Columns that the crew fills in, by the names that the list has given them; lengths name their units. */
const COLUMNS: Readonly<Record<string, BuiltField>> = {
  'start mark': 'start',
  'end mark': 'end',
  'as built': 'length',
  port: 'port',
  test: 'test',
  date: 'on',
  by: 'by',
  remark: 'remark',
};

interface Column {
  readonly title: string;
  readonly at: number;
  readonly field: BuiltField;
  readonly units: Units;
}

const LENGTH = /^(.*?)\s*\((ft|m)\)$/i;

function columnOf(title: string, at: number, units: Units): Column | null {
  const [, name = title, said] = LENGTH.exec(title.trim()) ?? [];
  const field = COLUMNS[name.trim().toLowerCase()];
  if (field === undefined) return null;
  return { title: title.trim(), at, field, units: (said?.toLowerCase() as Units) ?? units };
}

const isHead = (cell: string): boolean => cell.trim().toLowerCase() === 'cable';

/**
 * Reads a cable schedule that the crew filled in, cable by cable by their labels. Cells that say what the list says of
 * the plan as it stands are passed over, also where a spreadsheet wrote them otherwise, and so are empty ones: they take
 * nothing away. What is not understood is named with its line, and all else is still taken.
 *
 * @param rows the schedule of the plan as it stands
 * @param units those of the job, for a column of lengths that names none
 */
export function readSchedule(
  text: string,
  rows: readonly ScheduleRow[],
  units: Units,
): ReturnedList {
  const lines = parseCsv(text);
  const head = lines.findIndex((line) => line.some(isHead));
  if (head < 0) return { records: [], cells: [], faults: [NO_HEAD] };
  const titles = lines[head]!;
  const cable = titles.findIndex(isHead);
  const named = titles.flatMap((title, at) => columnOf(title, at, units) ?? []);
  const columns = [...groupBy(named, ({ field }) => field).values()].map(([first]) => first!);
  const byLabel = groupBy(rows, (row) => row.label.toLowerCase());
  const by = separatorOf(text);
  const written = { ft: cellsOf(rows, 'ft'), m: cellsOf(rows, 'm') };
  const seen = new Set<string>();
  const found: Found = { records: [], cells: [], faults: unreadColumns(titles, columns) };
  lines.forEach((line, i) => {
    const label = line[cable]?.trim() ?? '';
    if (i <= head || label === '') return;
    const those = byLabel.get(label.toLowerCase()) ?? [];
    const again = seen.has(label.toLowerCase());
    seen.add(label.toLowerCase());
    const fault = faultOf({ line: i + 1, label }, those.length, again);
    if (fault) found.faults.push(fault);
    else readLine(found, { line, number: i + 1, row: those[0]!, columns, by, written });
  });
  return found;
}

/** What was read so far. */
interface Found extends ReturnedList {
  readonly records: BuiltRecord[];
  readonly cells: ReturnedCell[];
  readonly faults: Message[];
}

/** What the list says of each cable as the plan stands, by label and column. */
type Written = ReadonlyMap<string, ReadonlyMap<string, string>>;

/** Takes one cable's line. */
function readLine(
  found: Found,
  of: {
    readonly line: readonly string[];
    readonly number: number;
    readonly row: ScheduleRow;
    readonly columns: readonly Column[];
    readonly by: Separator;
    readonly written: Readonly<Record<Units, Written>>;
  },
): void {
  const { label, jack } = of.row;
  const fields: Partial<Record<BuiltField, BuiltValue>> = {};
  for (const { title, at, field, units } of of.columns) {
    const cell = of.line[at]?.trim() ?? '';
    if (cell === '') continue;
    const after = parseBuilt(field, isFigure(field) ? pointed(cell, of.by) : cell, units);
    if (after === undefined) {
      found.faults.push(
        msg('Line {line}: {column} of {label} is not understood: “{cell}”.', {
          ...{ line: of.number, column: title, label, cell },
        }),
      );
      continue;
    }
    const before = standing(of.row, field);
    const said = of.written[units].get(label)?.get(title.toLowerCase()) ?? '';
    if (after === before || after === parseBuilt(field, said, units)) continue;
    fields[field] = after;
    found.cells.push({ label, column: title, field, before, after });
  }
  if (Object.keys(fields).length > 0)
    found.records.push({ jack, fields: fields as Partial<Built> });
}

const isFigure = (field: BuiltField): boolean =>
  field === 'start' || field === 'end' || field === 'length' || field === 'port';

/** What holds of a cable as the plan stands: as it is recorded, or else as it follows. */
function standing({ built, asBuilt, port }: ScheduleRow, field: BuiltField): BuiltValue {
  if (field === 'length') return asBuilt;
  return field === 'port' ? port : (built ?? NOT_BUILT)[field];
}

const COMMAS = /^-?\d{1,3}(,\d{3})+(\.\d+)?$/;
const DECIMAL_COMMA = /^-?(\d+|\d{1,3}(\.\d{3})+),\d+$/;

/**
 * A number with a decimal point and without marks of thousands: a spreadsheet that parts its cells by semicolons writes
 * commas for points, and one that parts them by commas has them between thousands. All else is left alone.
 */
function pointed(cell: string, by: Separator): string {
  if (by === ';' && DECIMAL_COMMA.test(cell)) return cell.replaceAll('.', '').replace(',', '.');
  return by === ',' && COMMAS.test(cell) ? cell.replaceAll(',', '') : cell;
}

const NO_HEAD = msg(
  'This is not a cable schedule: no column is headed Cable. Save the list from here, fill it in, and bring that.',
);

/** Why a line cannot be taken; null where it can. */
function faultOf(
  where: { readonly line: number; readonly label: string },
  named: number,
  again: boolean,
): Message | null {
  if (again)
    return msg('Line {line}: {label} stands in the list twice; the first is taken.', where);
  if (named === 0) return msg('Line {line}: no jack of this job is labelled {label}.', where);
  return named > 1 ? msg('Line {line}: several jacks are labelled {label}.', where) : null;
}

function cellsOf(rows: readonly ScheduleRow[], units: Units): Written {
  const [titles = [], ...lines] = parseCsv(cableScheduleCsv(rows, units));
  return new Map(
    lines.map((line) => [
      line[0]!,
      new Map(titles.map((title, at) => [title.toLowerCase(), line[at] ?? ''])),
    ]),
  );
}

/** Columns that somebody may have meant to be read: a second of one kind, and those that the list has not by itself. */
function unreadColumns(titles: readonly string[], columns: readonly Column[]): Message[] {
  const own = new Set(
    (['ft', 'm'] as const)
      .flatMap((units) => parseCsv(cableScheduleCsv([], units))[0] ?? [])
      .map((title) => title.toLowerCase()),
  );
  const read = new Set(columns.map(({ at }) => at));
  return titles.flatMap((written, at) => {
    const title = written.trim();
    if (title === '' || read.has(at)) return [];
    if (columnOf(title, at, 'ft'))
      return msg('The column {title} stands beside another of its kind, and is not read.', {
        title,
      });
    return own.has(title.toLowerCase())
      ? []
      : msg('The column {title} is not known, and not read.', { title });
  });
}
