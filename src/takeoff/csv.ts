/** A cell of a table: words, a number, or nothing. */
export type Cell = string | number | null;

/**
 * A table as text after RFC 4180: commas, CRLF after every line, quotes where a cell needs them or some reader might. Words that a
 * spreadsheet would take for a formula get an apostrophe in front; numbers stay numbers.
 */
export function toCsv(rows: readonly (readonly Cell[])[]): string {
  return rows.map((row) => `${row.map(cellText).join(',')}\r\n`).join('');
}

/** Beginnings that spreadsheets carry out: `=`, `+`, `-`, `@`, also behind a tab or a line end. */
const FORMULA = /^'*[=+\-@\t\r\n]/;
/** The apostrophe that `toCsv` puts in front of them. */
const GUARD = /^'(?='*[=+\-@\t\r\n])/;
const NEEDS_QUOTES = /[",;\t\r\n]|^\s|\s$/;

function cellText(cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(cell);
  const text = FORMULA.test(cell) ? `'${cell}` : cell;
  return NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

const SEPARATORS = [',', ';', '\t'] as const;
/** What parts the cells of a line: spreadsheets write what their country uses. */
export type Separator = (typeof SEPARATORS)[number];

/** The separator of a CSV file: the one that the first line with any has most of; a title may stand above it. */
export function separatorOf(text: string): Separator {
  const bare = text.replace(/"[^"]*"/g, '');
  const first = bare.split(/[\r\n]+/).find((line) => /[,;\t]/.test(line)) ?? '';
  const counts = SEPARATORS.map((separator) => first.split(separator).length);
  return SEPARATORS[counts.indexOf(Math.max(...counts))]!;
}

/**
 * The rows of a CSV file, each cell without its quotes, with any line end and any separator. The apostrophe in front of
 * what looks like a formula goes.
 */
export function parseCsv(text: string): string[][] {
  const plain = text.replace(/^\uFEFF/, '');
  const separator = separatorOf(plain);
  const rows: string[][] = [[]];
  let cell = '';
  let quoted = false;
  const close = () => {
    rows.at(-1)!.push(cell.replace(GUARD, ''));
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
    else if (letter === '\n' || letter === '\r') {
      if (letter === '\r' && plain[i + 1] === '\n') i += 1;
      close();
      rows.push([]);
    } else cell += letter;
  }
  if (cell !== '' || rows.at(-1)!.length > 0) close();
  return rows.filter((row) => row.length > 0);
}
