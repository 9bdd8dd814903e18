/** A cell of a table: words, a number, or nothing. */
export type Cell = string | number | null;

/**
 * A table as text after RFC 4180: commas, CRLF after every line, quotes where a cell needs them. Words that a
 * spreadsheet would take for a formula get an apostrophe in front; numbers stay numbers.
 */
export function toCsv(rows: readonly (readonly Cell[])[]): string {
  return rows.map((row) => `${row.map(cellText).join(',')}\r\n`).join('');
}

/** Beginnings that spreadsheets carry out: `=`, `+`, `-`, `@`, also behind a tab or a line end. */
const FORMULA = /^[=+\-@\t\r\n]/;
const NEEDS_QUOTES = /[",\r\n]|^\s|\s$/;

function cellText(cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(cell);
  const text = FORMULA.test(cell) ? `'${cell}` : cell;
  return NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** What parts the cells of a line: spreadsheets write what their country uses. */
const SEPARATORS = [',', ';', '\t'] as const;

/**
 * The rows of a CSV file, each cell without its quotes. The separator is the one that the first line has most of; the
 * apostrophe in front of what looks like a formula goes.
 */
export function parseCsv(text: string): string[][] {
  const plain = text.replace(/^\uFEFF/, '');
  const [first = ''] = plain.split(/\r?\n/, 1);
  const counts = SEPARATORS.map((separator) => first.split(separator).length);
  const separator = SEPARATORS[counts.indexOf(Math.max(...counts))]!;
  const rows: string[][] = [[]];
  let cell = '';
  let quoted = false;
  const close = () => {
    rows.at(-1)!.push(cell.replace(/^'(?=[=+\-@\t\r\n])/, ''));
    cell = '';
  };
  for (let i = 0; i < plain.length; i++) {
    const letter = plain[i]!;
    if (quoted) {
      if (letter !== '"') cell += letter;
      else if (plain[i + 1] === '"') cell += plain[i++]!;
      else quoted = false;
    } else if (letter === '"' && cell.trim() === '') {
      quoted = true;
      cell = '';
    } else if (letter === separator) close();
    else if (letter === '\n') {
      close();
      rows.push([]);
    } else if (letter !== '\r') cell += letter;
  }
  if (cell !== '' || rows.at(-1)!.length > 0) close();
  return rows.filter((row) => row.length > 0);
}
