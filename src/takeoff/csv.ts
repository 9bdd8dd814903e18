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
