/** A line of a table of measurements. */
export interface Row {
  readonly what: string;
  readonly measured: string;
  /** Empty where nothing was aimed at. */
  readonly target: string;
  readonly holds: boolean | null;
  readonly note: string;
}

/** A table, and the name of its place in the page of measurements. */
export interface Section {
  readonly name: string;
  readonly title: string;
  readonly rows: readonly Row[];
}

/** Three figures, or all before the point. */
export const figure = (value: number): string =>
  value >= 100 ? value.toFixed(0) : value.toPrecision(3).replace(/\.?0+$/, '');

export const plain = (what: string, measured: string, note = ''): Row => ({
  what,
  measured,
  target: '',
  holds: null,
  note,
});

export const inMs = (what: string, ms: number, note = ''): Row =>
  plain(what, `${figure(ms)} ms`, note);

/** A measurement that is to be at most, or at least, so much. */
export const bound = (
  what: string,
  value: number,
  side: 'at most' | 'at least',
  target: number,
  unit: string,
  note = '',
): Row => ({
  what,
  measured: `${figure(value)} ${unit}`.trim(),
  target: `${side} ${target} ${unit}`.trim(),
  holds: side === 'at most' ? value <= target : value >= target,
  note,
});

const words = (holds: boolean | null): string => (holds === null ? '' : holds ? 'yes' : '**no**');

/** The table in Markdown. */
export function inMarkdown({ rows }: Section): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [
    line(['What', 'Measured', 'Target', 'Holds', 'Remark']),
    line(['---', '---:', '---:', ':-:', '---']),
    ...rows.map((r) => line([r.what, r.measured, r.target, words(r.holds), r.note])),
  ].join('\n');
}

/** The same for a terminal, in columns. */
export function inText({ title, rows }: Section): string {
  const cells = [
    ['what', 'measured', 'target', 'holds', 'remark'],
    ...rows.map((r) => [r.what, r.measured, r.target, words(r.holds).replaceAll('*', ''), r.note]),
  ];
  const widths = cells[0]!.map((_, i) => Math.max(...cells.map((row) => row[i]!.length)));
  const lines = cells.map((row) => row.map((cell, i) => cell.padEnd(widths[i]!)).join('  '));
  return [`\n${title}`, ...lines.map((text) => `  ${text.trimEnd()}`)].join('\n');
}
